"""Accounts: who signs in to this log and as what; invitations. For the owner of a log whose members sign in."""

import os

from tracker.components import account_list, frame
from tracker.log.engine import VARIABLE

account_list.show(frame.opened(os.environ.get(VARIABLE, "")))
