"""The rest of the day beneath the next set: the ramp, what comes, and what is done, each to be mended."""

from __future__ import annotations

from html import escape
from itertools import groupby, takewhile

import streamlit as st

from tracker.components.day import editor, made_max, set_acts
from tracker.components.day.editor import RIR
from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import here, token
from tracker.components.frame.words import in_unit_words, load_words, set_words
from tracker.desk.day import from_memory, on_clock
from tracker.desk.day.line_words import asked, in_short
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.desk.people import kit
from tracker.desk.people.places import discs_in_words
from tracker.log.records import SetRow
from tracker.log.sets import NewSet
from tracker.prescription.ramp import RampSet
from tracker.prescription.technique import technique
from tracker.strength.rpe import RATINGS
from tracker.units import short
from tracker.wording import counted

MENDING, CHOSEN, EARLIER = "today_mending", "today_chosen", "done_earlier"
NEWEST = 3  # sets of the day with a button beside them


def how_many_left(plan: DayPlan) -> None:
    """Ask of the newest set how many were left; blank stays blank."""
    last = plan.sets[-1] if plan.sets else None
    if last is None or last.outcome != "done" or last.rir is not None or last.kind == "ramp":
        return
    rated = _rated(plan, last)
    if technique(last.lift.name) and not rated:  # what is left says little of a technique lift
        return
    key = f"left_{last.id}"
    if rated:
        st.pills(
            f"How hard was it, as RPE? ({set_words(last)})", tuple(RATINGS), format_func=RATINGS.__getitem__, key=key,
            on_change=_say_left, args=(key, last), help=editor.RPE_HELP,
        )  # fmt: skip
        return
    st.pills(
        f"How many more had you in you? ({set_words(last)})", RIR, key=key, on_change=_say_left, args=(key, last),
        help="It makes the estimate surer. Leave it blank where you don't know: blank is not zero.",
    )  # fmt: skip


def _rated(plan: DayPlan, row: SetRow) -> bool:
    """Whether the coach asks for the effort of a set as RPE."""
    return any(line.planned.rated for line in plan.lines if line.planned.id == row.planned_set_id)


def _say_left(key: str, row: SetRow) -> None:
    set_acts.say_left(row, st.session_state[key])


def up_to_it(plan: DayPlan) -> None:
    """Say the ramp in one line in the card, above the touch that logs the set."""
    if plan.ramp:
        unit = plan.ramp[0].load.unit
        words = ", ".join(f"{step.reps} × {short(step.load).removesuffix(unit).strip()}" for step in plan.ramp)
        st.html(f'<p class="plain"><b>Up to it:</b> {escape(words)} {unit}</p>')


def ramp(plan: DayPlan) -> None:
    """List the ramp up to the first working set, each step one touch to log, none of it asked for."""
    line = plan.next_line
    if not plan.ramp or line is None:
        return
    box = st.expander("Log the ramp", key="ramp", on_change="rerun")
    if box.open:
        with box:
            st.caption("Common practice, a suggestion: fewer or more, as you need.")
            for note in dict.fromkeys(step.note for step in plan.ramp if step.note):
                st.html(f'<p class="plain note">{escape(note)}</p>')
            for place, step in enumerate(plan.ramp):
                _ramp_step(plan, line, step, place)
            _ask_full(plan)


def _ramp_step(plan: DayPlan, line: PlannedLine, step: RampSet, place: int) -> None:
    discs = f": {discs_in_words(step.per_side)}" if line.lift.implement in ("barbell", "unasked") else ""
    new = NewSet(line.lift.id, step.load, step.reps, kind="ramp")
    with _row(f"ramp_{place}"):
        st.html(f'<p class="plain">{step.reps} × {escape(load_words(step.load, line.lift))}{escape(discs)}</p>')
        drawn = token(f"ramp-{line.step_id}-{place}")
        st.button("Log", key=f"log_ramp_{place}", on_click=_log_ramp, args=(new, plan, drawn))


def _ask_full(plan: DayPlan) -> None:
    """Ask once which discs are large, where a pull from the floor wants them; the kit keeps the answer."""
    if not plan.ask_full or plan.place is None:
        return
    st.html(
        f'<p class="plain note">Which is the lightest disc of full diameter at {escape(plan.place.name)}? '
        "Taken to be so from 10 kg or 25 lb on, until somebody says (common practice).</p>"
    )
    now = here()
    with st.container(horizontal=True, gap="small"):
        for mass in (*plan.ask_full, None):
            st.button(
                str(mass) if mass else "None", key=f"full_{mass.amount if mass else 'none'}", on_click=touch,
                args=(kit.say_full, now.log, plan.place.id, mass, now.member.id), kwargs={"said": "Kept with the kit"},
            )  # fmt: skip


def _log_ramp(new: NewSet, plan: DayPlan, drawn: str) -> None:
    set_acts.log_set(new, plan.day, drawn)


def ahead(plan: DayPlan, next_line: PlannedLine) -> None:
    """List what is still to be done of the step; another set can be taken first."""
    coming = [line for line in plan.lines if line.open and line is not next_line]
    if not coming:
        return
    st.header("Then")
    for _, group in groupby(coming, key=lambda line: line.planned.id if line.turn is None else line.turn):
        lines = tuple(group)
        with _row(f"then_{lines[0].key}"):
            st.html(f'<p class="plain">{_lines_words(lines, plan)}</p>')
            st.button("Now", key=f"take_{lines[0].key}", help="Do this one now", on_click=_take, args=(lines[0].key,))
    _all_as_planned(plan)


def _all_as_planned(plan: DayPlan) -> None:
    """Let a session that was done without the phone be logged in one touch; undo takes all of it back."""
    number, now = len(from_memory.as_planned(plan)), here()
    _several(plan)
    if number > 1 and plan.step is not None:
        st.button(
            f"All {number} done as planned", key="all_as_planned", width="stretch", on_click=touch,
            args=(from_memory.log_as_planned, now.log, now.member.id, plan.day),
            kwargs={"member_step_id": plan.step.id, "said": lambda logged: logged.words},
        )  # fmt: skip


def _several(plan: DayPlan) -> None:
    """On an interval nobody touches a phone at each set: let a few that were done be logged at once."""
    line, known = plan.next_line, from_memory.as_planned(plan)
    if line is None or plan.step is None or on_clock.every_s(line.planned) is None:
        return
    same = list(takewhile(lambda each: each.planned.id == line.planned.id, known))
    if len(same) > 2 and same[0] is line:
        key = f"several_{line.key}"
        st.pills(
            "So many of these done as planned", range(2, len(same)), key=key, on_change=_log_several, args=(key, plan, plan.step.id)
        )  # fmt: skip


def _log_several(key: str, plan: DayPlan, member_step_id: str) -> None:
    now, number = here(), st.session_state.get(key)
    if number is not None:
        do(
            from_memory.log_as_planned, now.log, now.member.id, plan.day, member_step_id=member_step_id, first=int(number),
            said=lambda logged: f"Logged as planned: {counted(logged.sets, 'set')}",
        )  # fmt: skip


def _lines_words(lines: tuple[PlannedLine, ...], plan: DayPlan) -> str:
    """Say equal sets once, with their lift where the step has several."""
    line = lines[0]
    if line.turn is not None:
        counts: dict[str, int] = {}
        for each in lines:
            said = f"{escape(asked(each))} <span>{escape(each.lift.title)}</span>"
            counts[said] = counts.get(said, 0) + 1
        return "<b>In turn:</b> " + ", ".join(f"{n} sets of {said}" if n > 1 else said for said, n in counts.items())
    times = f"{len(lines)} sets of " if len(lines) > 1 else ""
    lift = "" if len({each.lift.id for each in plan.lines}) == 1 else f" <span>{escape(line.lift.title)}</span>"
    return f"<b>{times}{escape(asked(line))}</b>{lift}{escape(in_short(line))}"


def _take(key: str) -> None:
    st.session_state[CHOSEN] = key


def done(plan: DayPlan) -> None:
    """List the sets of the day, the newest first, small; each can be mended or removed."""
    if not plan.sets:
        return
    st.header("Done")
    rows = plan.sets[::-1]
    for row in rows[:NEWEST]:
        _done(plan, row)
    earlier = rows[NEWEST:]
    if not earlier:
        return
    # Every row with a button costs the phone time after each touch: those that are seldom mended are one field together.
    said = {row.id: f"{set_words(row)} {row.lift.title}" for row in earlier}
    st.pills(
        "Earlier ones; a touch edits", list(said), format_func=said.__getitem__, key=EARLIER, on_change=_mend_earlier
    )
    for row in earlier:
        if st.session_state.get(MENDING) == row.id:
            _mending(plan, row)


def _done(plan: DayPlan, row: SetRow) -> None:
    with _row(f"done_{row.id}"):
        st.html(f'<p class="plain">{_set_said(row)}</p>')
        st.button("Edit", key=f"mend_{row.id}", on_click=_mend, args=(row.id,))
    if st.session_state.get(MENDING) == row.id:
        _mending(plan, row)


def _set_said(row: SetRow) -> str:
    about = in_unit_words(row, here().member.unit)
    beside = f" ({about})" if about else ""
    return f"<b>{escape(set_words(row))}</b>{escape(beside)} <span>{escape(row.lift.title)}</span>"


def _mending(plan: DayPlan, row: SetRow) -> None:
    from tracker.desk.day.log_set import as_new

    key = f"mending_{row.id}"
    with st.container(border=True):
        scene = editor.SetForm(row.lift, plan.member, plan.place, row.load.unit)
        editor.draw(
            key, as_new(row), scene, label="Save the change", kinds=True, noted=True, rated=_rated(plan, row),
            on_log=lambda new: _save(row, new),
        )  # fmt: skip
        made_max.ask(row)
        with st.container(horizontal=True):
            st.button("Remove this set", key=f"remove_{row.id}", on_click=_remove, args=(row,))
            st.button("Close", key=f"close_{row.id}", type="tertiary", on_click=_mend, args=(None,))


def _mend(set_id: str | None) -> None:
    st.session_state[MENDING] = set_id
    st.session_state[EARLIER] = None


def _mend_earlier() -> None:
    st.session_state[MENDING] = st.session_state[EARLIER]


def _save(row: SetRow, new: NewSet) -> None:
    if set_acts.mend_set(row, new):
        _mend(None)


def _remove(row: SetRow) -> None:
    if set_acts.remove_set(row):
        _mend(None)


def _row(key: str):
    """A line of text with its button at the right."""
    return st.container(key=f"row_{key}", horizontal=True, vertical_alignment="center", wrap=False, gap="small")


def taken_first() -> str:
    """Return the key of the set that somebody takes first; empty where nobody chose one."""
    return st.session_state.get(CHOSEN, "")
