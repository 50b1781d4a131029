"""Places and what stands there: what the kit makes, bars, collars, discs, fixed weights, bands, machines."""

import streamlit as st

from tracker.components.frame.frame import here
from tracker.components.people import kit_list, pictures, place_choice
from tracker.desk.people import places

now = here()
pictures.style()
st.title("Kit")
known = places.places(now.log)
if not known:
    st.write("No place is known yet: loads are made with a common bar and discs. Add where you train.")
place = place_choice.show(now, known)
if place is None:
    place_choice.new_place(now)
else:
    place_choice.here_or_not(now, place)
    kit_list.makes(place)
    kit_list.ready_kits(now, place)
    kit_list.show(now, place)
    place_choice.facts(now, place)
