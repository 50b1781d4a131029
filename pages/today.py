"""The day: the next set on top and large, what is done beneath, what comes after."""

import streamlit as st

from tracker.components import (
    cautions,
    coach_words,
    day_sets,
    free_set,
    next_set,
    piece_link,
    reference_choice,
    rest,
    session_end,
    session_menu,
    wave_end,
    where,
)
from tracker.components.as_typed import as_typed
from tracker.components.frame import here
from tracker.components.words import day_words, first_up
from tracker.desk import places, today

now = here()
day = where.chosen_day(now)
plan = today.day_plan(now.log, now.member.id, day, prefer=reference_choice.preferred())
bar = places.bar_in_use(plan.member, plan.place)
line = day_sets.chosen(plan.lines)

st.title(as_typed(first_up(plan.step.title)) if plan.step else first_up(day_words(day, now.today)))
where.show(plan.place, bar, day)
if plan.lay_off.words:
    st.info(plan.lay_off.words)

if line is not None:
    rest.show(plan)
    next_set.show(plan, line, where.bar_words(bar))
    cautions.show(line.cautions)
    reference_choice.show(plan, line)
    reference_choice.ask_max(plan, line)
    day_sets.how_many_left(plan)
    day_sets.ramp(plan)
    day_sets.ahead(plan, line)
elif plan.lines and plan.step is not None:
    st.success(f"All of {as_typed(plan.step.title)} is done.", icon=":material/check:")
    day_sets.how_many_left(plan)
elif plan.step is None and plan.ahead is None:
    st.write("No wave is on. Log what you do here; a coach's session can be read in on the page Sheet.")
coach_words.show(plan)
piece_link.show(now, plan.step, day)
wave_end.show(now, day)

day_sets.done(plan)
if line is None and plan.step is None:
    st.header("Log a set")
    free_set.show(day)
else:
    box = st.expander("Log another lift", key="free", on_change="rerun")
    if box.open:
        with box:
            free_set.show(day)
session_end.show(plan.session, open_now=line is None)
session_menu.coming(plan)
session_menu.show(plan)
cautions.stop_signs()
