"""Files: bring sets from anywhere, take everything away, save a backup, look the log over, delete a member."""

import streamlit as st

from tracker.components import bring, custody, farewell, kept
from tracker.components.frame import here

PARTS = {"bring": "Bring", "take": "Take away", "check": "Check", "delete": "Delete"}
now = here()
st.title("Files")
part = kept.one_of("part", "Part", PARTS, default="bring")
if part == "bring":
    bring.show(now)
elif part == "take":
    custody.take_everything(now)
elif part == "check":
    custody.check(now)
else:
    farewell.show(now)
