"""Accounts: who signs in to this log and as what; invitations. For the owner of a log whose members sign in."""

from tracker.components import account_list
from tracker.components.opened import of_this_server

account_list.show(of_this_server())
