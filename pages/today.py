"""The day: what is next on top and large, what is done beneath, what comes after."""

import streamlit as st

from tracker.components.day import (
    back_again,
    coach_words,
    day_page,
    day_sets,
    free_set,
    goal_line,
    left_out,
    missed,
    new_max,
    next_set,
    over,
    own_start,
    rating_card,
    readiness_card,
    rest,
    session_end,
    session_menu,
    sore_place,
    warm_up,
    wave_end,
    weeks_ahead,
    what_now,
)
from tracker.components.frame import cautions, empty, top, where
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words, first_up
from tracker.components.maxes import reference_choice
from tracker.components.pieces import piece_link
from tracker.desk.day.more_words import on_day_words
from tracker.desk.day.next import from_words, whats_next
from tracker.desk.people import places
from tracker.safety import shows_stop_signs

now = here()
day = where.chosen_day(now)
found = whats_next(
    now.log, now.member.id, day, prefer=reference_choice.preferred(), member_step_id=where.chosen_step(),
    first=day_sets.taken_first(),
)  # fmt: skip
plan, line = found.plan, found.line
bar = places.bar_in_use(plan.member, plan.place)
top.follow(found.kind, found.title)

st.title(as_typed(first_up(plan.step.title)) if plan.step else first_up(day_words(day, now.today)))
where.show(plan.place, bar, day)
if plan.step is not None and plan.step.due < day and plan.step.state == "planned":
    st.caption(f"Planned for {day_words(plan.step.due, now.today)}.")
    if day == now.today and not plan.done:
        st.button(
            f"It was done {on_day_words(plan.step.due, now.today)}", key="done_then", on_click=where.go_to, args=(plan.step.due,)
        )  # fmt: skip
elif plan.step is not None and (moved := from_words(plan.step, now.today)):
    st.caption(f"{first_up(moved)}.")
if plan.changed:
    st.info(f"{as_typed(first_up(plan.changed))}. You go on with what you began.", icon=":material/edit_note:")
back_again.show(now, plan)

warm_up.first(now, found)
if not plan.whole:
    rest.show(plan)
if line is not None:
    next_set.show(found, line)
    new_max.show(now, plan)
    back_again.old(now, plan)
    reference_choice.show(plan, line)
    reference_choice.ask_max(plan, line)
    sore_place.show(now, plan)
    what_now.show(now, plan)
elif found.kind == "piece":
    piece_link.next_up(now, found)
elif found.kind == "rating":
    rating_card.show(now, found)
else:
    over.show(found)
if line is None:
    new_max.show(now, plan)
    sore_place.show(now, plan)
    what_now.show(now, plan)
goal_line.show(now, day)
with st.container(key="beneath"):  # the rest of the day, each a line of its own
    if line is not None:
        left_out.show(now, plan, line)
    if found.kind in ("rating", "nothing"):
        session_menu.coming(plan)
    left_out.chosen(now, plan)
    day_sets.how_many_left(plan)
    if not plan.whole:
        rest.ways(plan)
    if line is not None:
        day_sets.ramp(plan)
        day_sets.ahead(plan, line)
    warm_up.beneath(now, found)
    coach_words.show(found)
    coach_words.done(found)
    piece_link.beside(now, found)
    if not plan.open_pieces:  # first things first: the wave is over when its last piece is
        wave_end.show(now, day)

    day_sets.done(plan)
    if line is None and plan.step is None:
        own_start.show(now, plan)
        st.header("Log a set")
        free_set.show(day)
    else:
        box = st.expander("Log another lift", key="free", on_change="rerun")
        if box.open:
            with box:
                free_set.show(day)
    session_end.show(plan.session, open_now=plan.step is None, touched=plan.minutes)
    own_start.save(plan.session, plan)
    if found.kind in ("set", "piece"):
        session_menu.coming(plan)
    weeks_ahead.show(now, plan)
    readiness_card.ask(now, day)
    sore_place.ask(now, plan)
    missed.show(now, plan)
    session_menu.show(plan)
    cautions.stop_signs(
        line.cautions if line else (), open_now=shows_stop_signs(plan.person, test=bool(line and line.planned.test))
    )
    with st.container(horizontal=True, vertical_alignment="center", gap="small"):
        empty.way_to("best_marks", "Best marks", icon=":material/trophy:", carried=where.carried(now, day))
        day_page.link(now)
top.show()
