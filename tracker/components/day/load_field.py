"""The load of a set between minus and plus of what stands here.

Two touches can reach a page in one run, in either order, and a browser that hasn't yet drawn the load of the first sends
the former one along with the second. So each touch puts its load into a field of another name, which nothing of the former
one comes over, and whoever logs takes the touch that came along first (`take_touch`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import streamlit as st

from tracker.desk.people import places
from tracker.errors import TidemarkError
from tracker.limits import MOST_TYPED
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.units import Mass, Unit, added, parse_mass, plain


@dataclass(frozen=True, slots=True)
class SetForm:
    """Whose set it is and what stands where they train."""

    lift: LiftRecord
    member: MemberRecord
    place: PlaceRecord | None
    unit: Unit
    most: Mass | None = None  # nothing heavier is offered today; it can be typed


def name(key: str) -> str:
    """Return the name of the field now: another one after each touch that put a load into it."""
    number = st.session_state.get(f"{key}_touches", 0)
    return f"{key}_{number}_load" if number else f"{key}_load"


def take_touch(key: str) -> None:
    """Take the load of a touch that came along with what is done now."""
    for word in tuple(st.session_state.get(f"{key}_offered", {})):
        if st.session_state.get(f"{key}_{word}"):
            _take(key, word)
    st.session_state.pop(f"{key}_offered", None)  # whichever comes after this is of a form that is gone


def draw(key: str, scene: SetForm, hint: Mass | None = None) -> None:
    """Draw the load between minus and plus; each says by how much. A blank one with a hint takes the hint in a touch."""
    label = {"body": "Added load"}.get(scene.lift.implement, "Load of each" if scene.lift.implements > 1 else "Load")
    st.session_state[f"{key}_offered"] = {}
    blank = hint is not None and not str(st.session_state[name(key)]).strip()
    lighter, heavier = (None, None) if blank else _near(key, scene)
    with st.container(key=f"{key}_load_line", horizontal=True, vertical_alignment="bottom", wrap=False, gap="small"):
        _step(key, "−", lighter, scene)
        st.text_input(
            f"{label}, {scene.unit}", key=name(key), max_chars=MOST_TYPED,
            placeholder=f"such as {plain(hint.amount)}" if hint is not None else None,
        )  # fmt: skip
        if blank and hint is not None:
            words = added(hint) if scene.lift.body else str(hint)
            _offer(key, "hint", hint, scene.unit)
            st.button(words, key=f"{key}_hint", on_click=_take, args=(key, "hint"), help=f"Take {words}")
        else:
            _step(key, "+", heavier, scene)
    if scene.lift.body:
        st.text_input(
            f"Body mass, {scene.unit}", key=f"{key}_body", max_chars=MOST_TYPED, placeholder="as last time",
            help="Blank: the newest one in the log.",
        )  # fmt: skip


def _near(key: str, scene: SetForm) -> tuple[Mass | None, Mass | None]:
    try:
        load = parse_mass(st.session_state[name(key)], unit=scene.unit)
        lighter, heavier = places.next_loads(load, scene.lift, scene.member, scene.place)
        too_heavy = scene.most is not None and heavier is not None and heavier.kg > scene.most.kg
        return lighter, None if too_heavy else heavier
    except TidemarkError:
        return None, None  # the field says no load yet; the button says so when it is pressed


def _step(key: str, sign: Literal["−", "+"], to: Mass | None, scene: SetForm) -> None:
    by = ""
    word = "lighter" if sign == "−" else "heavier"
    if to is not None:
        here = parse_mass(st.session_state[name(key)], unit=scene.unit)
        by = f" {plain(abs(round(to.to(scene.unit) - here.to(scene.unit), 2)))}"
        _offer(key, word, to, scene.unit)
    st.button(
        f"{sign}{by}", key=f"{key}_{word}", disabled=to is None, on_click=_take, args=(key, word),
        help=f"{to}: the next {word} load that stands here" if to else _nothing(word, scene),
    )  # fmt: skip


def _nothing(word: str, scene: SetForm) -> str:
    if word == "heavier" and scene.most is not None:
        return f"Nothing heavier than {scene.most} is offered after today's miss; it can be typed"
    return f"Nothing {word} stands here"


def _offer(key: str, word: str, load: Mass, unit: Unit) -> None:
    st.session_state[f"{key}_offered"][word] = plain(load.amount) if load.unit == unit else str(load)


def _take(key: str, word: str) -> None:
    state = st.session_state
    load = state.get(f"{key}_offered", {}).pop(word, None)
    if load is None:
        return  # taken with what came along
    state[f"{key}_touches"] = state.get(f"{key}_touches", 0) + 1
    state[name(key)] = load
