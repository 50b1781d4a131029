"""Says how a set went: load with plus and minus of what stands here, repetitions, what was left, and how it ended."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

import streamlit as st

from tracker.components.frame.acts import tell
from tracker.components.frame.words import OUTCOMES
from tracker.desk.people import places
from tracker.errors import TidemarkError, together
from tracker.limits import MOST_REPS, MOST_TYPED
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.prescription.technique import technique
from tracker.strength.records import Kind
from tracker.units import Mass, Unit, added, parse_mass, plain

RIR = ("0", "1", "2", "3", "4", "5", "6+")
KINDS: Mapping[Kind, str] = {"work": "Working set", "ramp": "Ramp set", "test": "Test of a max"}


@dataclass(frozen=True, slots=True)
class SetForm:
    """Whose set it is and what stands where they train."""

    lift: LiftRecord
    member: MemberRecord
    place: PlaceRecord | None
    unit: Unit
    most: Mass | None = None  # nothing heavier is offered today; it can be typed


def draw(
    key: str,
    start: NewSet,
    scene: SetForm,
    *,
    label: str,
    on_log: Callable[[NewSet], None],
    kinds: bool = False,
    noted: bool = False,
    asked: int | None = None,
    guessed: bool = False,
) -> None:
    """Draw the fields, filled with `start`, and a button that hands back what they say.

    Args:
        key: Names the set that is edited; another key is another set.
        start: What the fields say at first.
        scene: Whose it is, and where.
        label: What the button says.
        on_log: Called with the set in a callback; fields that can't be read leave a notice instead.
        kinds: Whether to ask if it was a ramp set or a test.
        noted: Whether to ask for a note on this set.
        guessed: The load of `start` is only what a lift of its kind begins with: it is a hint, and the field stays blank.
        asked: Repetitions of an attempt; one that is said to be missed is then taken to have failed at the last of them.
    """
    _fill(key, start, guessed=guessed)
    _load(key, scene, start.load if guessed else None)
    st.number_input("Repetitions", 0, MOST_REPS, step=1, key=f"{key}_reps", help="Those that were completed.")
    if not technique(scene.lift.name):  # what is left says little of a technique lift
        st.pills(
            "Repetitions left (RIR)", RIR, key=f"{key}_rir", help="How many more you had in you. Blank is not zero."
        )
    st.segmented_control(
        "How it ended", tuple(OUTCOMES), format_func=OUTCOMES.__getitem__, key=f"{key}_outcome", required=True,
        on_change=_ended if asked else None, args=(key, asked) if asked else None,
        help="Missed: the next repetition was tried and failed. Cut short: ended for another reason.",
    )  # fmt: skip
    if kinds:
        st.segmented_control(
            "What it was", tuple(KINDS), format_func=KINDS.__getitem__, key=f"{key}_kind", required=True
        )
    if noted:
        st.text_area("Note on this set", key=f"{key}_note", height=90)  # too long: refused, and it still stands here
    st.button(
        label, type="primary", width="stretch", key=f"{key}_log", on_click=_hand_back, args=(key, start, scene, on_log)
    )


def _ended(key: str, asked: int) -> None:
    """Let the repetitions of an attempt follow how it ended; they can still be changed."""
    state = st.session_state
    if state[f"{key}_outcome"] == "missed" and state[f"{key}_reps"] == asked:
        state[f"{key}_reps"] = asked - 1
    elif state[f"{key}_outcome"] == "done" and state[f"{key}_reps"] == asked - 1:
        state[f"{key}_reps"] = asked


def forget(key: str) -> None:
    """Empty the fields, so that they are filled afresh."""
    for each in ("load", "reps", "rir", "outcome", "kind", "body", "note"):
        st.session_state.pop(f"{key}_{each}", None)


def _fill(key: str, start: NewSet, *, guessed: bool) -> None:
    state = st.session_state
    state.setdefault(f"{key}_load", "" if guessed else plain(start.load.amount))
    state.setdefault(f"{key}_reps", start.reps)
    state.setdefault(f"{key}_outcome", start.outcome)
    state.setdefault(f"{key}_kind", start.kind)
    state.setdefault(f"{key}_rir", _rir_shown(start.rir))
    state.setdefault(f"{key}_note", start.note)


def _rir_shown(rir: Decimal | None) -> str | None:
    return None if rir is None else "6+" if rir >= 6 else str(int(rir))


def _load(key: str, scene: SetForm, hint: Mass | None = None) -> None:
    """Draw the load between minus and plus; each says by how much. A blank one with a hint takes the hint in a touch."""
    name = {"body": "Added load"}.get(scene.lift.implement, "Load of each" if scene.lift.implements > 1 else "Load")
    blank = hint is not None and not str(st.session_state[f"{key}_load"]).strip()
    lighter, heavier = (None, None) if blank else _near(key, scene)
    with st.container(key=f"{key}_load_line", horizontal=True, vertical_alignment="bottom", wrap=False, gap="small"):
        _step(key, "−", lighter, scene)
        st.text_input(
            f"{name}, {scene.unit}", key=f"{key}_load", max_chars=MOST_TYPED,
            placeholder=f"such as {plain(hint.amount)}" if hint is not None else None,
        )  # fmt: skip
        if blank and hint is not None:
            words = added(hint) if scene.lift.body else str(hint)
            st.button(words, key=f"{key}_hint", on_click=_put, args=(key, hint, scene.unit), help=f"Take {words}")
        else:
            _step(key, "+", heavier, scene)
    if scene.lift.body:
        st.text_input(
            f"Body mass, {scene.unit}", key=f"{key}_body", max_chars=MOST_TYPED, placeholder="as last time",
            help="Blank: the newest one in the log.",
        )  # fmt: skip


def _near(key: str, scene: SetForm) -> tuple[Mass | None, Mass | None]:
    try:
        load = parse_mass(st.session_state[f"{key}_load"], unit=scene.unit)
        lighter, heavier = places.next_loads(load, scene.lift, scene.member, scene.place)
        too_heavy = scene.most is not None and heavier is not None and heavier.kg > scene.most.kg
        return lighter, None if too_heavy else heavier
    except TidemarkError:
        return None, None  # the field says no load yet; the button says so when it is pressed


def _step(key: str, sign: Literal["−", "+"], to: Mass | None, scene: SetForm) -> None:
    by = ""
    if to is not None:
        here = parse_mass(st.session_state[f"{key}_load"], unit=scene.unit)
        by = f" {plain(abs(round(to.to(scene.unit) - here.to(scene.unit), 2)))}"
    word = "lighter" if sign == "−" else "heavier"
    st.button(
        f"{sign}{by}", key=f"{key}_{word}", disabled=to is None, on_click=_put, args=(key, to, scene.unit),
        help=f"{to}: the next {word} load that stands here" if to else _nothing(word, scene),
    )  # fmt: skip


def _nothing(word: str, scene: SetForm) -> str:
    if word == "heavier" and scene.most is not None:
        return f"Nothing heavier than {scene.most} is offered after today's miss; it can be typed"
    return f"Nothing {word} stands here"


def _put(key: str, load: Mass, unit: Unit) -> None:
    st.session_state[f"{key}_load"] = plain(load.amount) if load.unit == unit else str(load)


def _hand_back(key: str, start: NewSet, scene: SetForm, on_log: Callable[[NewSet], None]) -> None:
    try:
        new = _read(key, start, scene)
    except TidemarkError as error:
        tell(error)
        return
    on_log(new)


def _read(key: str, start: NewSet, scene: SetForm) -> NewSet:
    state = st.session_state
    typed = (state.get(f"{key}_body") or "").strip()
    masses: dict[str, Mass] = {}
    together(
        lambda: masses.update(load=parse_mass(state[f"{key}_load"], unit=scene.unit, where="load")),
        lambda: masses.update(body=parse_mass(typed, unit=scene.unit, where="body mass")) if typed else None,
    )
    load, body = masses["load"], masses.get("body")
    if body is None and start.body_mass is not None:
        body = Mass(start.body_mass, start.load.unit)
    rir = state.get(f"{key}_rir")
    untouched = rir == _rir_shown(start.rir)  # a half, or eight, is not shown as such and stays
    return replace(
        start, load=load, reps=int(state[f"{key}_reps"] or 0), body_mass=round(body.to(load.unit), 1) if body else None,
        rir=start.rir if untouched else None if rir is None else Decimal(rir.removesuffix("+")),
        outcome=state[f"{key}_outcome"] or "done", kind=state.get(f"{key}_kind") or start.kind,
        note=(state.get(f"{key}_note") or "").strip(),
    )  # fmt: skip
