"""Training load: did I do more or less than usual, was it hard, is a jump coming."""

import streamlit as st

from tracker.components.frame import empty, plot
from tracker.components.frame.frame import end, here
from tracker.components.history import load_asks, load_view
from tracker.desk.history import training_load

now = here()
report = training_load.load_report(now.log, now.member.id, now.today)
st.title("Load")
if not any(each.week.sessions for each in report.weeks):
    empty.nothing_logged()
    end()
load_view.week(report)
load_view.ahead(report)
load_view.picture(report)
load_asks.weeks(report)
load_asks.ratings(report, now.today)
load_asks.days(report, now.today)
load_view.table(report)
load_asks.counted_so(report)
plot.follow_the_look()
