"""The first run: a name, and three questions: unit, place, one rep-max that is known or guessed. Then loads to lift."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

import streamlit as st

from tracker import asset_folder
from tracker.components.frame.acts import do, tell
from tracker.components.frame.frame import today
from tracker.components.people.how_known import TEST_DAY, check_how, check_reps
from tracker.desk.people import beginning, people
from tracker.desk.people.beginning import FirstMax, FirstPlace
from tracker.errors import BadInputError, TidemarkError, together
from tracker.log.keeper import Log
from tracker.log.records import Implement, MemberRecord
from tracker.units import Mass, Unit, parse_mass

NO_BAR = "At home, no bar"
PLACES: dict[str, Callable[[Unit], FirstPlace]] = {
    "A gym with kilogram discs": lambda _: beginning.gym("kg"),
    "A gym with pound discs": lambda _: beginning.gym("lb"),
    "At home, with a bar": lambda unit: beginning.home(unit, bar=True),
    NO_BAR: lambda unit: beginning.home(unit, bar=False, dumbbells=_dumbbells(unit)),
}
KNOWN = ("I tested it", "I am guessing it", "I don't know one")


def show(log: Log) -> None:
    """Ask, write all of it in one act, and go to the loads."""
    st.title("Begin your log")
    st.text_input("Your name", key="first_run_name")
    unit = cast(
        "Unit | None",
        st.radio("1. Your loads are in", ("kg", "lb"), index=None, key="first_run_unit", horizontal=True),
    )
    place = st.radio("2. Where you train", list(PLACES), index=None, key="first_run_place")
    if place == NO_BAR:
        st.text_input(_in_unit("Pairs of dumbbells there", unit), key="first_run_bells", placeholder="such as 10 15 20")
    known = st.radio(
        "3. One rep-max: the most you lift for a number of repetitions", KNOWN, index=None, key="first_run_known"
    )
    if known != KNOWN[2]:
        _ask_max(unit)
        if known == KNOWN[0]:
            st.date_input(TEST_DAY, None, key="first_run_day", max_value=today(), format="YYYY-MM-DD")
    else:
        st.caption("Then a few rising sets find it, without going to the end.")
    if st.button("Begin", type="primary", key="first_run_begin", width="stretch"):
        _begin(log, unit, place)


def _in_unit(words: str, unit: Unit | None) -> str:
    return f"{words}, {unit}" if unit else words


def _ask_max(unit: Unit | None) -> None:
    st.selectbox(
        "Lift", beginning.COMMON_LIFTS, index=None, key="first_run_lift", accept_new_options=True,
        placeholder="Choose one, or type its name",
    )  # fmt: skip
    with st.container(horizontal=True):
        st.number_input("Repetitions", 1, 30, None, key="first_run_reps", width=170, placeholder="3")
        st.text_input(_in_unit("Load", unit), key="first_run_load", placeholder="such as 92.5", width=130)


def _begin(log: Log, answered: Unit | None, place: str | None) -> None:
    """Write what was said; where it can't be, say all of it once and keep what was typed."""
    said: dict[str, Any] = {}
    unit: Unit = answered or "kg"  # to look over the rest with: without an answer nothing is written
    name = st.session_state["first_run_name"]
    try:
        together(
            lambda: people.free_name(log, name),
            lambda: _check_unit(answered),
            lambda: said.update(here=_place(place, unit)),
            lambda: said.update(first=_first(unit, place)),
        )
    except TidemarkError as error:
        tell(error)
        st.rerun()
    first: FirstMax | None = said["first"]
    next_up = "Here are your loads." if first else "No rep-max is known yet: a few rising sets find one."
    done = do(
        beginning.begin, log, name, unit, said["here"], first, day=today(),
        said=lambda member: f"{cast('MemberRecord', member).name}'s log is begun. {next_up}",
    )  # fmt: skip
    if not done:
        st.rerun()
    _point_to(log, first)
    st.switch_page(asset_folder("pages") / "weights.py")


def _check_unit(unit: Unit | None) -> None:
    if unit is None:
        raise BadInputError("Nothing says whether your loads are in kg or lb.", where="unit", mend="Choose kg or lb.")


def _place(place: str | None, unit: Unit) -> FirstPlace:
    if place is None:
        raise BadInputError(
            "Nothing says where you train.", where="place", mend="Choose a place; its kit is changed later."
        )
    return PLACES[place](unit)


def _first(unit: Unit, place: str | None) -> FirstMax | None:
    state = st.session_state
    known: str | None = state["first_run_known"]
    if known == KNOWN[2]:
        return None
    load: list[Mass] = []
    together(
        lambda: check_how(known, state.get("first_run_day"), tested=KNOWN[0]),
        lambda: people.clean_name(state["first_run_lift"] or "", "lift"),
        lambda: check_reps(state["first_run_reps"]),
        lambda: load.append(parse_mass(state["first_run_load"], unit=unit, where="rep-max")),
    )
    implement: Implement = "dumbbells" if place == NO_BAR else "barbell"
    return FirstMax(
        state["first_run_lift"], int(state["first_run_reps"]), load[0], tested=known == KNOWN[0], implement=implement,
        day=state["first_run_day"] if known == KNOWN[0] else None,
    )  # fmt: skip


def _dumbbells(unit: Unit) -> tuple[Mass, ...]:
    return beginning.masses_of(st.session_state.get("first_run_bells", ""), unit, where="dumbbells")


def _point_to(log: Log, first: FirstMax | None) -> None:
    """Open the weights on the rep-max that was just named, or on the way to one."""
    st.session_state["weights_find"] = first is None
    if first:
        name = " ".join(first.lift.split()).lower()
        lift = next(each for each in people.lifts(log) if (each.name, each.implement) == (name, first.implement))
        st.session_state["weights_lift"] = lift.id
