"""The day: the next set on top and large, what is done beneath, what comes after."""

import streamlit as st

from tracker.components.day import (
    back_again,
    coach_words,
    day_sets,
    free_set,
    missed,
    next_set,
    own_start,
    rest,
    session_end,
    session_menu,
    wave_end,
    what_now,
)
from tracker.components.frame import cautions, where
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words, first_up
from tracker.components.maxes import reference_choice
from tracker.components.pieces import piece_link
from tracker.desk.day import today
from tracker.desk.people import places

now = here()
day = where.chosen_day(now)
step_id = where.chosen_step()
plan = today.day_plan(now.log, now.member.id, day, prefer=reference_choice.preferred(), member_step_id=step_id)
bar = places.bar_in_use(plan.member, plan.place)
line = None if plan.closed else day_sets.chosen(plan.lines)

st.title(as_typed(first_up(plan.step.title)) if plan.step else first_up(day_words(day, now.today)))
missed.to_top()
where.show(plan.place, bar, day)
if plan.step is not None and plan.step.due < day and plan.step.state == "planned":
    st.caption(f"Planned for {day_words(plan.step.due, now.today)}.")
back_again.show(now, plan)

if not plan.whole:
    rest.show(plan)
if line is not None:
    next_set.show(plan, line, where.bar_words(bar))
    cautions.show(line.cautions)
    reference_choice.show(plan, line)
    reference_choice.ask_max(plan, line)
    what_now.show(now, plan)
    day_sets.how_many_left(plan)
    day_sets.ramp(plan)
    day_sets.ahead(plan, line)
elif plan.step is not None:
    what_now.show(now, plan)
    if plan.closed:
        st.info(f"{as_typed(plan.step.title)} is ended with what was done.", icon=":material/flag:")
    elif plan.open_pieces:
        piece_link.next_up(now, plan)
    elif plan.whole:
        st.success(f"All of {as_typed(plan.step.title)} is done.", icon=":material/check:")
    day_sets.how_many_left(plan)
elif plan.ahead is None and not plan.missed:
    st.write("No session is planned. Log what you do here; a coach's session can be read in on the page Sheet.")
coach_words.show(plan)
piece_link.show(now, plan, but_first_open=line is None and not plan.closed)
if not plan.open_pieces:  # first things first: the wave is over when its last piece is
    wave_end.show(now, day)

day_sets.done(plan)
if line is None and plan.step is None:
    what_now.show(now, plan)
    own_start.show(now, plan)
    st.header("Log a set")
    free_set.show(day)
else:
    box = st.expander("Log another lift", key="free", on_change="rerun")
    if box.open:
        with box:
            free_set.show(day)
session_end.show(
    plan.session, open_now=line is None and not (plan.open_pieces and not plan.closed), touched=plan.minutes
)
own_start.save(plan.session, plan)
session_menu.coming(plan)
missed.show(now, plan)
session_menu.show(plan)
cautions.stop_signs()
