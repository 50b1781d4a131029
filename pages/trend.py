"""The trend of a lift: what the max is, how sure that is, and how it got there."""

import streamlit as st

from tracker import asset_folder
from tracker.components.frame import cautions, empty, plot, where
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import end, here
from tracker.components.maxes import trend_choice, trend_tables, trend_view
from tracker.desk.day import weights
from tracker.desk.maxes import trend

now = here()
st.title("Trend")
lifts = [lift for lift, _, _ in trend.lifts_done(now.log, now.member.id)]
if not lifts:
    st.write(f"Nothing to draw for {as_typed(now.member.name)} yet: log a set, and the first estimate stands here.")
    st.page_link(asset_folder("pages") / "today.py", label="Log a set", icon=":material/edit:")
    cautions.stop_signs()
    end()
with st.container(horizontal=True, gap="small", key="trend_what"):
    lift = trend_choice.ask_lift(lifts)
    reps = trend_choice.ask_reps(lift, trend.usual_reps(now.log, now.member.id, lift))
shown = st.container()
drawn = trend_choice.ask_drawn(now.member, now.today, reps, body=lift.body)
view = trend.trend(
    now.log, now.member, lift, reps=reps, unit=drawn.unit, day=now.today, since=drawn.since,
    hindsight="hindsight" in drawn.also,
)  # fmt: skip
with shown:
    trend_view.headline(view, weights.options(now.log, now.member, lift, reps, now.today), now.today)
    trend_view.figure(view, drawn, trend.waves(now.log, now.member.id))
trend_tables.table(now, view, drawn.since)
trend_tables.all_now(now, view)
trend_tables.formulas(view)
empty.way_to(
    "today", f"Back to the day of {as_typed(now.member.name)}", icon=":material/today:", carried=where.carried(now, now.today)
)  # fmt: skip
plot.follow_the_look()
cautions.stop_signs()
