"""Your data: what is kept about a member, where, who sees it, how to export and delete it."""

import streamlit as st

from tracker.components.frame.empty import nobody_to_show
from tracker.components.frame.frame import here
from tracker.components.frame.signed_in import household
from tracker.components.people import data_view
from tracker.log.who import who

now = here()
st.title("Your data")
if not household() and who().member_id is None:  # a coach or owner who keeps no log
    nobody_to_show()
else:
    data_view.show(now)
