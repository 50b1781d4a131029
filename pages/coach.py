"""The coach's desk: the load sheet of a class, its results, and who needs attention."""

import streamlit as st

from tracker.components.coach import (
    class_choice,
    class_results,
    class_view,
    classes_part,
    message_taking,
    result_taking,
    wave_ends,
    whom_to_see,
)
from tracker.components.frame import empty, kept
from tracker.components.frame.frame import end, here
from tracker.components.maxes import estimate_many

PARTS = {"loads": "Load sheet", "classes": "Classes", "results": "Results", "whom": "Needs attention"}
now = here()
st.title("Coach")
class_choice.style()
part = kept.one_of("part", "Part", PARTS, default="loads")
if part == "classes":
    classes_part.show(now)
    end()
if now.someone is None:
    class_choice.nobody_shares()
choice = class_choice.choose(now, with_session=part == "loads")
if part == "results":
    result_taking.told(now)
    class_results.show(now, choice)
    result_taking.show()
    message_taking.show(now)
elif part == "whom":
    if estimate_many.ahead(now, choice.member_ids):
        whom_to_see.show(now, choice)
        wave_ends.show(now, choice)
elif choice.step is None:
    st.info("There is no session in the log yet. Add a sheet to see its loads here.", icon=":material/info:")
    empty.way_to("sheet", "Add a sheet")
elif estimate_many.ahead(now, choice.member_ids):
    class_view.show(now, choice)
