"""The gym's people: members from a table, their invitations, groups. For the household, and the owner where members sign in."""

import streamlit as st

from tracker.components.frame import kept
from tracker.components.frame.frame import here
from tracker.components.people import group_list, invitation_list, pictures, roster_view

PARTS = {"table": "From a table", "invite": "Invitations", "groups": "Groups"}
now = here()
st.title("Members")
pictures.style()
part = kept.one_of("part", "Part", PARTS, default="table")
if part == "table":
    roster_view.show(now)
elif part == "invite":
    invitation_list.show(now)
else:
    group_list.show(now)
