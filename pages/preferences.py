"""What a member prefers; body mass; lifts and their implements; rep-maxes from elsewhere; who shares the log; phones."""

import streamlit as st

from tracker.components.frame import empty, kept
from tracker.components.frame.frame import here
from tracker.components.frame.signed_in import household, runs_it
from tracker.components.maxes import lift_list
from tracker.components.people import about_me, devices
from tracker.components.pieces import piece_side
from tracker.log.who import who

PARTS = {
    "me": "Me",
    "body": "Body mass",
    "lifts": "Lifts",
    "maxes": "Rep-maxes",
    "members": "Members",
    "devices": "Devices",
}
if not household():  # an owner says who is a member, and nobody is paired where members sign in
    del PARTS["members"], PARTS["devices"]
now = here()
if now.someone is None:  # a coach or owner who keeps no log: what belongs to all
    PARTS = {"lifts": "Lifts"}
st.title("Preferences")
part = kept.one_of("part", "Part", PARTS, default=next(iter(PARTS)))
if part == "me":
    st.caption("Each change is saved at once.")
    lift_list.unasked(now)
    if not household():
        about_me.sharing(now)
    about_me.unit_and_place(now)
    piece_side.preference(now)
    about_me.preferences(now)
elif part == "body":
    about_me.body_mass(now)
elif part == "lifts":
    lift_list.lifts(now)
elif part == "maxes":
    lift_list.maxes(now)
elif part == "members":
    about_me.members(now)
else:
    devices.show(now)
with st.container(key="behind", gap="xsmall"):
    empty.way_to("files", "Files: import, export, back up", icon=":material/folder:")
    empty.way_to("your_data", "Your data: what is kept, who sees it", icon=":material/shield_person:")
    if runs_it():
        empty.way_to("roster", "Members: a table, invitations, groups", icon=":material/group_add:")
    if who().role == "owner":
        empty.way_to("accounts", "Accounts: who signs in", icon=":material/manage_accounts:")
