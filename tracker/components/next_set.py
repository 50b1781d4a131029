"""The next set, large: what to load, which discs, how likely it is, and one touch that logs it."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components import discs, editor, set_acts
from tracker.components.frame import token
from tracker.components.usual import usual_set
from tracker.components.words import first_up, load_words, reps_words
from tracker.desk.lines import PlannedLine, chance_words
from tracker.desk.today import DayPlan
from tracker.log.sets import NewSet
from tracker.units import plain

OPEN = "today_open"  # key of the line whose fields are open


def show(plan: DayPlan, line: PlannedLine, place_words: str) -> None:
    """Draw the card of the next set."""
    with st.container(border=True, key="next_set"):
        st.html(f'<p class="over">{_which(plan, line)}: {escape(line.lift.title)}</p>')
        if line.made is None:
            _unweighed(line)
        else:
            st.html(f'<p class="big">{_asked(line)} × {escape(load_words(line.made.load, line.lift))}</p>')
            discs.show(line.made)
            st.html(f'<p class="plain">{escape(_made_words(line, place_words))}</p>')
        for note in line.notes:
            st.html(f'<p class="plain note">{escape(note)}</p>')
        _why(line, plan.day)
        _buttons(plan, line)


def _which(plan: DayPlan, line: PlannedLine) -> str:
    same = [each for each in plan.lines if each.lift.id == line.lift.id]
    return f"Set {same.index(line) + 1} of {len(same)}"


def _asked(line: PlannedLine) -> str:
    reps = reps_words(line.reps, line.lift)
    return f"{reps} or more" if line.planned.rep_out else reps


def _unweighed(line: PlannedLine) -> None:
    share = f" at {plain(line.planned.percent)} % of the {line.planned.of_reps}RM" if line.planned.percent else ""
    what = f"test: {line.planned.reps}RM" if line.planned.test else f"{_asked(line)} repetitions{share}"
    st.html(f'<p class="big small">{escape(first_up(what))}</p>')


def _made_words(line: PlannedLine, place_words: str) -> str:
    assert line.made is not None
    words = line.made.words
    if line.lift.implement in ("barbell", "unasked"):
        words = f"{words}, on the {place_words}" if place_words else words
    tempo = f", tempo {line.planned.tempo}" if line.planned.tempo else ""
    return first_up(f"{words}{tempo}")


def _why(line: PlannedLine, day: date) -> None:
    """Say how likely it is, of which max it is a part, and whether that max still holds."""
    if line.chance is not None:
        st.html(f'<p class="chance">{escape(chance_words(line.chance))}</p>')
    if line.reference is None or line.percent is None:
        return
    holds = f" {line.reference.holds.words}" if line.reference.holds else ""
    st.html(f'<p class="plain">{line.percent:.0f} % of the {escape(line.reference.words(day))}.{escape(holds)}</p>')


def _buttons(plan: DayPlan, line: PlannedLine) -> None:
    key, drawn = f"line_{line.key}", token(line.key, shared=True)
    start = as_asked(line, plan)
    open_ended = line.planned.rep_out or line.planned.test or line.made is None
    if not open_ended and st.session_state.get(OPEN) != key:
        st.button(
            f"Done: {line.reps} × {load_words(start.load, line.lift)}", type="primary", width="stretch", key="log_as_asked",
            on_click=_log, args=(key, start, plan.day, drawn),
        )  # fmt: skip
        with st.container(horizontal=True, gap="small"):
            st.button("Change it", key="change_it", on_click=_open, args=(key, "done", line.reps))
            st.button("Missed", key="missed_it", on_click=_open, args=(key, "missed", max(line.reps - 1, 0)))
        return
    scene = editor.Scene(line.lift, plan.member, plan.place, start.load.unit)
    editor.draw(key, start, scene, label="Log this set", on_log=lambda new: _log(key, new, plan.day, drawn))
    if not open_ended:
        st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))


def as_asked(line: PlannedLine, plan: DayPlan) -> NewSet:
    """Make the set that the coach asks for, with the load that is made here, else the one lifted last."""
    load = line.made.load if line.made else usual_set(line.lift, plan.member, plan.place).load
    return NewSet(
        line.lift.id,
        load,
        line.reps,
        kind="test" if line.planned.test else "work",
        planned_set_id=line.planned.id,
        planned_round=line.number,
        member_step_id=line.step_id,
    )


def _log(key: str, new: NewSet, day: date, drawn: str) -> None:
    if set_acts.log_set(new, day, drawn):
        _close(key)


def _open(key: str, outcome: str, reps: int) -> None:
    st.session_state[OPEN] = key
    editor.forget(key)
    st.session_state[f"{key}_outcome"], st.session_state[f"{key}_reps"] = outcome, reps


def _close(key: str) -> None:
    st.session_state.pop(OPEN, None)
    editor.forget(key)
