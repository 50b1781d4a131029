"""Training load by week: what is known of it, and what is missing."""

import streamlit as st

from tracker.components.frame import cautions, empty, plot
from tracker.components.frame.frame import end, here
from tracker.components.history import load_view
from tracker.desk.history import training_load

now = here()
report = training_load.load_report(now.log, now.member.id, now.today)
st.title("Load")
if not any(each.week.sessions for each in report.weeks):
    empty.nothing_logged()
    cautions.stop_signs()
    end()
load_view.this_week(report)
load_view.ask_ratings(report, now.today)
load_view.ask_rest(report, now.today)
load_view.weeks(report)
load_view.table(report)
load_view.source()
plot.follow_the_look()
cautions.stop_signs()
