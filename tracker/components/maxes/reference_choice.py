"""Where the max that a percentage refers to seems not to hold: both loads, and the member's choice of one."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame import where
from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import here
from tracker.components.frame.words import load_words
from tracker.components.people.how_known import TEST_DAY, check_how
from tracker.desk.day import today
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes import rep_maxes
from tracker.errors import TidemarkError, together
from tracker.limits import MOST_TYPED
from tracker.strength.holds import LIKELY
from tracker.units import Mass, parse_mass

PREFER = "today_prefer"
HOW = ("tested", "guessed")


def preferred() -> dict[str, str]:
    """Return, for lifts of the member on screen, which source of the reference max was chosen."""
    return st.session_state.setdefault(PREFER, {}).setdefault(here().member.id, {})


def show(plan: DayPlan, line: PlannedLine) -> None:
    """Offer the load of the estimated max beside that of the old one, where the old one probably does not hold."""
    tested = next((each for each in line.options if each.holds), None)
    if (
        plan.step is None
        or tested is None
        or tested.holds is None
        or line.made is None
        or max(tested.holds.above, tested.holds.below) < LIKELY
    ):
        return
    sources = [each.source for each in line.options if each.source in (tested.source, "estimated")]
    if len(sources) < 2 or line.reference is None:
        return
    loads = {source: _load(plan, line, source) for source in sources}
    if len(set(loads.values())) == 1 and line.lift.id not in preferred():
        return
    words = {source: f"{source} max: {loads[source]}" for source in sources}
    st.session_state["prefer_now"] = line.reference.source
    st.segmented_control(
        "Which max to go by", sources, format_func=words.__getitem__, key="prefer_now", required=True, on_change=_choose,
        args=(line.lift.id,),
    )  # fmt: skip


def _load(plan: DayPlan, line: PlannedLine, source: str) -> str:
    if line.reference is not None and source == line.reference.source:
        made = line.made
    else:
        made = today.made_by(
            here().log,
            plan.member.id,
            plan.day,
            line.key,
            source,
            prefer=preferred(),
            member_step_id=where.chosen_step(),
        )
    return load_words(made.load, line.lift) if made else "not to be made here"


def _choose(lift_id: str) -> None:
    preferred()[lift_id] = st.session_state["prefer_now"]


def ask_max(plan: DayPlan, line: PlannedLine) -> None:
    """Ask for the max that the percentages refer to, where none is known."""
    if line.planned.percent is None or line.reference is not None or line.planned.of_reps is None:
        return
    reps, lift = line.planned.of_reps, line.planned.of_lift or line.lift
    with st.form("ask_max", border=True):
        st.text_input(
            f"Your {reps}RM of {as_typed(lift.title)}, {plan.member.unit}", key="ask_max_load", max_chars=MOST_TYPED
        )
        st.radio("It was", HOW, index=None, key="ask_max_how", horizontal=True)
        st.date_input(f"{TEST_DAY}, if it was", None, key="ask_max_day", max_value=here().today, format="YYYY-MM-DD")
        st.form_submit_button("Work out my loads", on_click=_keep_max, args=(plan, line, reps))


def _keep_max(plan: DayPlan, line: PlannedLine, reps: int) -> None:
    now, lift = here(), line.planned.of_lift or line.lift
    state, loads = st.session_state, list[Mass]()
    try:
        together(
            lambda: loads.append(parse_mass(state["ask_max_load"], unit=plan.member.unit, where=f"{reps}RM")),
            lambda: check_how(state["ask_max_how"], state["ask_max_day"], tested=HOW[0]),
        )
    except TidemarkError as error:
        tell(error)
        return
    tested = state["ask_max_how"] == HOW[0]
    do(
        rep_maxes.add_rep_max, now.log, now.member.id, lift.id, state["ask_max_day"] if tested else plan.day, reps, loads[0],
        tested=tested, said=f"Saved: {reps}RM of {loads[0]}",
    )  # fmt: skip
