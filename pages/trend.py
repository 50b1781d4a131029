"""The trend of each lift: all at a glance, then one: what it gained, how sure that is, whether the test holds, and why."""

import streamlit as st

from tracker import asset_folder
from tracker.components.frame import empty, plot, where
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import end, here
from tracker.components.maxes import (
    goal_card,
    lift_glance,
    trend_behind,
    trend_choice,
    trend_fan,
    trend_view,
)
from tracker.desk.day import weights
from tracker.desk.day.lifts_today import lifts_today
from tracker.desk.maxes import glance, trend

now = here()
st.title("Trend")
done = [lift for lift, _, _ in trend.lifts_done(now.log, now.member.id)]
if not done:
    st.write(f"Nothing to draw for {as_typed(now.member.name)} yet: log a set, and the first estimate stands here.")
    st.page_link(asset_folder("pages") / "today.py", label="Log a set", icon=":material/edit:")
    end()
today = lifts_today(now.log, now.member.id, now.today)
lifts = glance.today_first(done, today)
at_a_glance = st.container()
with st.container(horizontal=True, gap="small", key="trend_what"):
    lift = trend_choice.ask_lift(lifts)
    reps = trend_choice.ask_reps(lift, trend.usual_reps(now.log, now.member.id, lift))
with at_a_glance:
    waiting = lift_glance.show(now, lifts, lift, today)
shown = st.container()
drawn = trend_choice.ask_drawn(now.member, now.today, reps, body=lift.body)
view = trend.trend(
    now.log, now.member, lift, reps=reps, unit=drawn.unit, day=now.today, since=drawn.since,
    hindsight="hindsight" in drawn.also,
)  # fmt: skip
fan, known = trend_fan.of(now, view, drawn.weeks), goal_card.of(now, view)
with shown:
    trend_view.headline(view, now.today)
    trend_view.figure(
        view, drawn, trend.waves(now.log, now.member.id), now.today, trend_fan.points(fan), goal_card.marks(view, known)
    )
    trend_fan.say(fan)
    goal_card.show(now, view, known)
    trend_view.holds(view, weights.options(now.log, now.member, lift, reps, now.today), now.today)
trend_behind.show(now, view, drawn.since)
with st.container(horizontal=True, gap="small", key="trend_ways"):
    empty.way_to(
        "best_marks", "Best marks", icon=":material/trophy:", carried={**where.carried(now, now.today), "lift": lift.id}
    )
    empty.way_to("today", "Back to the day", icon=":material/today:", carried=where.carried(now, now.today))
plot.follow_the_look()
lift_glance.fill(now, waiting)
