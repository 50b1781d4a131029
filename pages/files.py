"""Files: bring sets from anywhere, take everything away, save a backup, look the log over, delete a member."""

import streamlit as st

from tracker.components.files import bring, copies, custody, farewell
from tracker.components.frame import cautions, kept, long_work
from tracker.components.frame.frame import here
from tracker.components.frame.signed_in import runs_it

PARTS = {"bring": "Bring", "take": "Take away", "copies": "Copies", "check": "Check", "delete": "Delete"}
if not runs_it():  # the log as a whole is the owner's
    PARTS = {"bring": "Bring", "mine": "Take away", "delete": "Delete"}
now = here()
st.title("Files")
part = kept.one_of("part", "Part", PARTS, default="bring")
if long_work.running():
    long_work.show()
elif part == "bring":
    bring.show(now)
elif part == "mine":
    farewell.take_along(now)
elif part == "take":
    custody.take_everything(now)
elif part == "copies":
    copies.show(now)
elif part == "check":
    custody.check(now)
else:
    farewell.show(now)
cautions.stop_signs()
