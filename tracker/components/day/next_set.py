"""The next set, large: what to load, which discs, how likely it is, and one touch that logs it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from html import escape

import streamlit as st

from tracker.components.day import attempt_card, back_again, editor, lift_side, set_acts, sore_place
from tracker.components.day.usual import usual_set
from tracker.components.frame import discs
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here, token
from tracker.components.frame.next_line import marked
from tracker.components.frame.words import first_up, load_words, set_words
from tracker.desk.day import after_miss, attempts, carried
from tracker.desk.day.line_words import asked, made_of, part_of, which
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.next import Next
from tracker.desk.day.today import DayPlan
from tracker.desk.day.usual import first_load
from tracker.log.sets import NewSet
from tracker.units import Mass

MOST_FEWER = 20  # repetitions asked; of more the number is typed
OPEN = "today_open"  # key of the line whose fields are open


def show(found: Next, line: PlannedLine, bar: str) -> None:
    """Draw the card of the next set."""
    plan = found.plan
    with st.container(border=True, key="next_set"):
        st.html(said(found, line, bar))
        lift_side.show(line)
        if line.painful:
            sore_place.card(here(), line, plan)
        elif line.planned.test:
            _attempt(plan, line)
        else:
            _buttons(plan, line)
        if before := plan.last_words(line, plan.day):  # below the touch, so that the load and the touch stay in sight
            st.html("".join(f'<p class="plain before">{escape(_unbroken(words))}</p>' for words in before))


def said(found: Next, line: PlannedLine, bar: str) -> str:
    """Return the set as HTML: which it is, what to load, the discs, how likely it is. One piece, for it is there sooner."""
    drawn = discs.drawing(line.made.per_side) if line.made and line.made.per_side else ""
    return marked(found, f"{_head(found.plan, line)}{drawn}{_below(found.plan, line, bar)}")


def _head(plan: DayPlan, line: PlannedLine) -> str:
    """Which set it is, and what it asks, large."""
    words = f"{first_up(which(line, plan.lines))}: {line.lift.title}"
    size = "big" if line.made is not None else "big small"
    return f'<p class="over">{escape(words)}</p><p class="{size}">{escape(first_up(asked(line)))}</p>'


def _below(plan: DayPlan, line: PlannedLine, bar: str) -> str:
    """What it is made of, what to know of it, how likely it is, and of which max it is a part."""
    tried = "; ".join(set_words(row).removesuffix(", test") for row in line.attempts)
    parts = [("plain", made_of(line, bar)), ("plain", f"So far: {tried}" if tried else "")]
    parts += [*(("plain note", note) for note in line.notes)]
    parts += [("plain note", plan.ask_body if line.lift.body else "")]
    parts += [("chance", chance_words(line.chance)), ("plain", part_of(line, plan.day))]
    return "".join(f'<p class="{kind}">{escape(words)}</p>' for kind, words in parts if words)


def _unbroken(words: str) -> str:
    """Keep a number on one line with its unit."""
    for unit in (" %", " kg", " lb", " × "):
        words = words.replace(unit, unit.replace(" ", "\N{NO-BREAK SPACE}"))
    return words


def _attempt(plan: DayPlan, line: PlannedLine) -> None:
    """An attempt of a test: asked about, proposed, made or missed in a touch; another load by hand."""
    at = attempts.next_attempt(here().log, plan.member, plan, line)
    number = len(line.attempts)  # each attempt has fields of its own
    key, drawn = f"line_{line.key}_{number}", token(f"{line.key}_{number}", shared=True)
    attempt_card.clock(plan, line, at)
    body = attempt_card.said(at, line)
    if body:
        st.html(body)
    if at.ask_safety:
        attempt_card.ask_safety(plan, line)
        return
    if at.end_is_due:
        _end(plan, line, due=True)
    if at.made is not None and st.session_state.get(OPEN) != key:
        attempt_card.made_or_missed(plan, line, at, drawn)
        st.button("Another load", key="change_it", on_click=_open, args=(key, "done", line.planned.reps))
    else:
        scene = editor.SetForm(line.lift, plan.member, plan.place, at.new.load.unit, _most_of(line))
        editor.draw(
            key, at.new, scene, label="Log this attempt", on_log=lambda new: _log(key, new, plan.day, drawn, _most_of(line)),
            asked=line.planned.reps, guessed=at.guessed,
        )  # fmt: skip
        if at.made is not None:
            st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))
    if line.attempts and not at.end_is_due:
        _end(plan, line, due=False)


def _most_of(line: PlannedLine) -> Mass | None:
    """Nothing heavier is offered than what was missed in this test, or before it today."""
    missed = [row.load for row in line.attempts if row.outcome == "missed"]
    return min([*missed, *([line.most] if line.most else [])], key=lambda load: load.kg, default=None)


def _buttons(plan: DayPlan, line: PlannedLine) -> None:
    key, drawn = f"line_{line.key}", token(line.key, shared=True)
    start, known = as_asked(line, plan)
    label, asking = done_label(plan, line), plan.asks_back and line.made is not None
    if (label or asking) and st.session_state.get(OPEN) != key:
        if asking:
            back_again.ask(here(), plan, line)
        else:
            st.button(
                label, type="primary", width="stretch", key="log_as_asked", on_click=_log,
                args=(key, start, plan.day, drawn),
            )  # fmt: skip
        with st.container(horizontal=True, gap="small"):
            st.button("Change it", key="change_it", on_click=_open, args=(key, "done", line.reps))
            st.button("Missed", key="missed_it", on_click=_open, args=(key, "missed", max(line.reps - 1, 0)))
            _enough(plan, line)
        _carry(plan, line)
        return
    if label:
        _fewer(key, start, plan.day, drawn, line.most)
    scene = editor.SetForm(line.lift, plan.member, plan.place, start.load.unit, line.most)
    editor.draw(
        key, start, scene, label="Log this set", on_log=lambda new: _log(key, new, plan.day, drawn, line.most),
        guessed=not known,
    )  # fmt: skip
    if label or asking:
        st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))


def _enough(plan: DayPlan, line: PlannedLine) -> None:
    """Let the member end the lift at any of its sets."""
    now = here()
    st.button(
        "Enough of this lift", key="enough_of_it", on_click=touch,
        args=(after_miss.enough, now.log, now.member.id, line.step_id, line.lift.id, plan.day),
        kwargs={"said": f"{first_up(line.lift.name)} is ended for today"},
    )  # fmt: skip


def _carry(plan: DayPlan, line: PlannedLine) -> None:
    """Where the last set was done with another load: the way back to what is asked, or on with the heavier one."""
    change, now = line.change, here()
    if change is None or line.made is None or (not change.taken and line.made.load.kg != change.asked.kg):
        return
    how: carried.How = "as asked" if change.taken else "take"
    label = (
        f"As asked: {load_words(change.asked, line.lift)}"
        if change.taken
        else f"Go on with {load_words(change.done, line.lift)}"
    )
    st.button(
        label, key="carry_on", on_click=touch,
        args=(carried.carry_on, now.log, now.member.id, line.step_id, line.lift.id, change.done, plan.day, how),
        kwargs={"said": label},
    )  # fmt: skip


def _fewer(key: str, start: NewSet, day: date, drawn: str, most: Mass | None) -> None:
    """Let a miss be logged with a touch on the repetitions that were made, at the load that is asked.

    Only where a miss is told: beside other numbers, of what was left, a touch would log what nobody meant.
    """
    if st.session_state.get(f"{key}_outcome") != "missed" or not 0 < start.reps <= MOST_FEWER:
        return
    field = f"{key}_fewer"
    st.pills(
        f"Failed after so many, of {start.reps} × {start.load}: a touch logs it", range(start.reps), key=field,
        on_change=_log_fewer, args=(key, field, start, day, drawn, most),
    )  # fmt: skip


def _log_fewer(key: str, field: str, start: NewSet, day: date, drawn: str, most: Mass | None) -> None:
    reps = st.session_state.get(field)
    if reps is not None:
        _log(key, replace(start, reps=int(reps), outcome="missed"), day, drawn, most)


def _end(plan: DayPlan, line: PlannedLine, *, due: bool) -> None:
    """Let the member end a test; after two misses that is what is offered first."""
    now = here()
    st.button(
        "End the test", key="end_test", width="stretch", type="primary" if due else "secondary", on_click=touch,
        args=(attempts.end_test, now.log, now.member.id, line.step_id, line.planned.id, plan.day),
        kwargs={"said": f"The test is ended. {attempts.result_words(line)}"},
    )  # fmt: skip


def done_label(plan: DayPlan, line: PlannedLine) -> str:
    """Say what one touch logs; nothing where only the member can say what was done, or first how they start after a break."""
    if plan.asks_back or line.planned.rep_out or line.planned.test or line.made is None:
        return ""
    return f"Done: {line.reps} × {load_words(line.made.load, line.lift)}"


def as_asked(line: PlannedLine, plan: DayPlan) -> tuple[NewSet, bool]:
    """Make the set that the coach asks for, with the load that is made here, else the one lifted last.

    Returns:
        The set, and whether its load is known; else it is only what a lift of its kind begins with.
    """
    load, known = (line.made.load, True) if line.made else _last_load(line, plan)
    if line.most is not None and load.kg > line.most.kg:
        load = line.most
    new = NewSet(
        line.lift.id,
        load,
        line.reps,
        planned_set_id=line.planned.id,
        planned_round=line.number,
        member_step_id=line.step_id,
    )
    return new, known


def _last_load(line: PlannedLine, plan: DayPlan) -> tuple[Mass, bool]:
    start, known = usual_set(line.lift, plan.member, plan.place)
    if known and start.reps < line.reps:  # the load of a heavy single is none for five
        return first_load(line.lift, plan.member, plan.place), False
    return start.load, known


def _log(key: str, new: NewSet, day: date, drawn: str, most: Mass | None = None) -> None:
    if set_acts.log_set(new, day, drawn, most):
        _close(key)


def _open(key: str, outcome: str, reps: int) -> None:
    st.session_state[OPEN] = key
    editor.forget(key)
    st.session_state[f"{key}_outcome"], st.session_state[f"{key}_reps"] = outcome, reps


def _close(key: str) -> None:
    st.session_state.pop(OPEN, None)
    editor.forget(key)
