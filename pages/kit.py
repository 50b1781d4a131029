"""Places and what stands there: bars, collars, discs, fixed weights, bands."""

import streamlit as st

from tracker.components.frame import cautions
from tracker.components.frame.frame import here
from tracker.components.people import kit_list, place_choice
from tracker.desk.people import places

now = here()
st.title("Kit")
known = places.places(now.log)
if not known:
    st.write("No place is known yet: loads are made with a common bar and discs. Add where you train.")
place = place_choice.show(now, known)
if place is None:
    place_choice.new_place(now)
else:
    place_choice.here_or_not(now, place)
    kit_list.show(now, place)
    kit_list.ready_kits(now, place)
    place_choice.facts(now, place)
cautions.stop_signs()
