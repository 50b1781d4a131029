"""A coach's sheet: pasted or uploaded, said back, its slips with lines that pass, and taken for members from a day on."""

import streamlit as st

from tracker.components.frame import cautions
from tracker.components.frame.frame import end, here
from tracker.components.sheet import sheet_paste, sheet_said, sheet_taking

now = here()
st.title("Sheet")
text = sheet_paste.ask()
if not text.strip():
    sheet_paste.how_to_write()
    cautions.stop_signs()
    end()
preview = sheet_said.read(now, text)
if preview is not None:
    sheet_taking.show(now, preview, text)
cautions.stop_signs()
