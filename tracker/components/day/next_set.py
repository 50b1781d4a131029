"""The next set, large: what to load, which discs, how likely it is, and one touch that logs it."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.day import editor, lift_side, set_acts
from tracker.components.day.usual import usual_set
from tracker.components.frame import discs
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here, token
from tracker.components.frame.next_line import marked
from tracker.components.frame.words import first_up, load_words, set_words
from tracker.desk.day import attempts
from tracker.desk.day.line_words import asked, made_of, part_of
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.next import Next
from tracker.desk.day.today import DayPlan
from tracker.log.sets import NewSet

OPEN = "today_open"  # key of the line whose fields are open


def show(found: Next, line: PlannedLine, bar: str) -> None:
    """Draw the card of the next set."""
    plan = found.plan
    with st.container(border=True, key="next_set"):
        st.html(said(found, line, bar))
        lift_side.show(line)
        _buttons(plan, line)


def said(found: Next, line: PlannedLine, bar: str) -> str:
    """Return the set as HTML: which it is, what to load, the discs, how likely it is. One piece, for it is there sooner."""
    drawn = discs.drawing(line.made.per_side) if line.made and line.made.per_side else ""
    return marked(found, f"{_head(found.plan, line)}{drawn}{_below(line, found.day, bar)}")


def _head(plan: DayPlan, line: PlannedLine) -> str:
    """Which set it is, and what it asks, large."""
    same = [each for each in plan.lines if each.lift.id == line.lift.id]
    which = f"Set {same.index(line) + 1} of {len(same)}: {line.lift.title}"
    if line.planned.test:
        which = f"Attempt {len(line.attempts) + 1}: {line.lift.title}"
    size = "big" if line.made is not None else "big small"
    return f'<p class="over">{escape(which)}</p><p class="{size}">{escape(first_up(asked(line)))}</p>'


def _below(line: PlannedLine, day: date, bar: str) -> str:
    """What it is made of, what to know of it, how likely it is, and of which max it is a part."""
    tried = "; ".join(set_words(row).removesuffix(", test") for row in line.attempts)
    parts = [("plain", made_of(line, bar)), ("plain", f"So far: {tried}" if tried else "")]
    parts += [*(("plain note", note) for note in line.notes)]
    parts += [("chance", chance_words(line.chance)), ("plain", part_of(line, day))]
    return "".join(f'<p class="{kind}">{escape(words)}</p>' for kind, words in parts if words)


def _buttons(plan: DayPlan, line: PlannedLine) -> None:
    number = f"_{len(line.attempts)}" if line.planned.test else ""  # each attempt has fields of its own
    key, drawn = f"line_{line.key}{number}", token(f"{line.key}{number}", shared=True)
    start = as_asked(line, plan)
    label = done_label(line)
    if label and st.session_state.get(OPEN) != key:
        st.button(
            label,
            type="primary",
            width="stretch",
            key="log_as_asked",
            on_click=_log,
            args=(key, start, plan.day, drawn),
        )
        with st.container(horizontal=True, gap="small"):
            st.button("Change it", key="change_it", on_click=_open, args=(key, "done", line.reps))
            st.button("Missed", key="missed_it", on_click=_open, args=(key, "missed", max(line.reps - 1, 0)))
        return
    scene = editor.SetForm(line.lift, plan.member, plan.place, start.load.unit)
    label_of = "Log this attempt" if line.planned.test else "Log this set"
    of_test = line.planned.reps if line.planned.test else None
    editor.draw(key, start, scene, label=label_of, on_log=lambda new: _log(key, new, plan.day, drawn), asked=of_test)
    if line.planned.test and line.attempts:
        _end(plan, line)
    if label:
        st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))


def _end(plan: DayPlan, line: PlannedLine) -> None:
    """Let the member end a test; after two misses that is what is offered first."""
    due, now = attempts.end_is_due(line), here()
    if due:
        st.html('<p class="plain note">Two attempts missed: a good place to end (common practice).</p>')
    st.button(
        "End the test", key="end_test", width="stretch", type="primary" if due else "secondary", on_click=touch,
        args=(attempts.end_test, now.log, now.member.id, line.step_id, line.planned.id, plan.day),
        kwargs={"said": "The test is ended"},
    )  # fmt: skip


def done_label(line: PlannedLine) -> str:
    """Say what one touch logs; nothing where only the member can say what was done."""
    if line.planned.rep_out or line.planned.test or line.made is None:
        return ""
    return f"Done: {line.reps} × {load_words(line.made.load, line.lift)}"


def as_asked(line: PlannedLine, plan: DayPlan) -> NewSet:
    """Make the set that the coach asks for, with the load that is made here, else the one lifted last."""
    load = line.made.load if line.made else usual_set(line.lift, plan.member, plan.place).load
    if line.planned.test:
        return attempts.as_attempt(line, plan.member, plan.place, load)
    return NewSet(
        line.lift.id,
        load,
        line.reps,
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
