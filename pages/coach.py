"""The coach's desk: the load sheet of a class, its results, and whom to speak to."""

import streamlit as st

from tracker.components.coach import class_choice, class_results, class_view, message_taking, result_taking, whom_to_see
from tracker.components.frame import cautions, empty, kept
from tracker.components.frame.frame import here
from tracker.components.maxes import estimate_many

PARTS = {"loads": "Load sheet", "results": "Results", "whom": "Whom to see"}
now = here()
st.title("Coach")
class_choice.style()
part = kept.one_of("part", "Part", PARTS, default="loads")
if part == "results":
    result_taking.show(now)
    message_taking.show(now)
if now.someone is None:
    class_choice.nobody_shares()
choice = class_choice.choose(now, with_session=part == "loads")
if part == "results":
    class_results.show(now, choice)
elif part == "whom":
    if estimate_many.ahead(now, choice.member_ids):
        whom_to_see.show(now, choice)
elif choice.step is None:
    st.info("There is no session in the log yet. Bring a sheet in, and its loads stand here.", icon=":material/info:")
    empty.way_to("sheet", "Bring a sheet in")
elif estimate_many.ahead(now, choice.member_ids):
    class_view.show(now, choice)
cautions.stop_signs()
