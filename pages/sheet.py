"""A coach's message: pasted, shown at once as the session that members will see, and put in their calendars."""

import streamlit as st

from tracker.components.frame.frame import end, here
from tracker.components.sheet import plan_wave, sheet_paste, sheet_said, sheet_taking, wave_ahead

now = here()
st.title("Sheet")
sheet_said.style()
text = sheet_paste.ask()
if not text.strip():
    plan_wave.show(now)
    sheet_paste.how_to_write()
    sheet_paste.at_once()
    end()
preview = sheet_said.read(now, text)
if preview is not None:
    sheet_taking.show(now, preview, text)
    wave_ahead.of_sheet(now, preview.sheet)
sheet_paste.at_once()
