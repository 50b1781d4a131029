"""Accounts: who signs in to this log and as what; invitations. For the owner of a log whose members sign in."""

from tracker.components.frame.opened import of_this_server
from tracker.components.people import account_list

account_list.show(of_this_server())
