"""Says how a set went: load with plus and minus of what stands here, repetitions, what was left, and how it ended."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal

import streamlit as st

from tracker.components.day import load_field
from tracker.components.frame.acts import tell
from tracker.components.frame.words import OUTCOMES
from tracker.errors import BadInputError, TidemarkError, together
from tracker.limits import MOST_REPS
from tracker.log.sets import NewSet
from tracker.prescription.technique import technique
from tracker.strength.records import Kind
from tracker.strength.rpe import RATINGS
from tracker.units import Mass, parse_mass, plain

RIR = ("0", "1", "2", "3", "4", "5", "6+")
RPE_HELP = "RPE 10 leaves none, RPE 8 leaves two, RPE 7 three. Blank is not zero."
SetForm = load_field.SetForm
KINDS: Mapping[Kind, str] = {"work": "Working set", "ramp": "Ramp set", "test": "Test of a max"}


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
    uncounted: bool = False,
    rated: bool = False,
    first: tuple[str, Callable[[NewSet], None]] | None = None,
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
        uncounted: Nobody asks for a number of repetitions: the field stays blank, and nothing is logged until it says one.
        rated: The coach asks for the effort as RPE: it is said as RPE, and kept as the repetitions that it leaves.
        first: Another button above that one, with what it does: where a set is more often none that ends something.
        asked: Repetitions of an attempt; one that is said to be missed is then taken to have failed at the last of them.
    """
    _fill(key, start, guessed=guessed, uncounted=uncounted, rated=rated)
    load_field.draw(key, scene, start.load if guessed else None)
    each_side = scene.lift.per_side if start.per_side is None else start.per_side
    st.number_input(
        "Repetitions, each side" if each_side else "Repetitions", 0, MOST_REPS, value=None if uncounted else "min", step=1, key=reps_name(key),
        help="Those that were completed on each side." if each_side else "Those that were completed.",
        placeholder="as many as you did" if uncounted else None,
    )  # fmt: skip
    if rated:
        st.pills("Effort (RPE)", tuple(RATINGS), format_func=RATINGS.__getitem__, key=f"{key}_rir", help=RPE_HELP)
    elif not technique(scene.lift.name):  # what is left says little of a technique lift
        st.pills(
            "Repetitions left (RIR)", RIR, key=f"{key}_rir", help="How many more you had in you. Blank is not zero."
        )
    st.segmented_control(
        "How it ended", tuple(OUTCOMES), format_func=OUTCOMES.__getitem__, key=f"{key}_outcome", required=True,
        on_change=_follow, args=(key, asked),
        help="Missed: the next repetition was tried and failed. Cut short: ended for another reason.",
    )  # fmt: skip
    if kinds:
        st.segmented_control(
            "What it was", tuple(KINDS), format_func=KINDS.__getitem__, key=f"{key}_kind", required=True
        )
    if noted:
        st.text_area("Note on this set", key=f"{key}_note", height=90)  # too long: refused, and it still stands here
    if first is not None:
        st.button(
            first[0],
            type="primary",
            width="stretch",
            key=f"{key}_first",
            on_click=_hand_back,
            args=(key, start, scene, first[1], asked),
        )
    st.button(
        label,
        type="secondary" if first else "primary",
        width="stretch",
        key=f"{key}_log",
        on_click=_hand_back,
        args=(key, start, scene, on_log, asked),
    )


def reps_name(key: str) -> str:
    """Return the name of the field of repetitions now.

    It is another one each time that they followed how the set ended: a browser that hasn't drawn them yet sends the former
    ones along with its next touch, and those then come over nothing.
    """
    number = st.session_state.get(f"{key}_follows", 0)
    return f"{key}_{number}_reps" if number else f"{key}_reps"


def _follow(key: str, asked: int | None) -> None:
    """Let the repetitions of an attempt follow how it ended, once for each change of that; they can still be changed."""
    state = st.session_state
    ended, before = state[f"{key}_outcome"], state.get(f"{key}_followed", "done")
    state[f"{key}_followed"] = ended
    reps = state.get(reps_name(key))
    if asked is None or reps is None or ended == before:
        return
    follows = -1 if (ended, reps) == ("missed", asked) else 1 if (ended, reps) == ("done", asked - 1) else 0
    if follows:
        state[f"{key}_follows"] = state.get(f"{key}_follows", 0) + 1
        state[reps_name(key)] = reps + follows


def forget(key: str) -> None:
    """Empty the fields, so that they are filled afresh."""
    st.session_state.pop(load_field.name(key), None)
    st.session_state.pop(reps_name(key), None)
    for each in ("rir", "outcome", "followed", "kind", "body", "note"):
        st.session_state.pop(f"{key}_{each}", None)


def _fill(key: str, start: NewSet, *, guessed: bool, uncounted: bool, rated: bool) -> None:
    state = st.session_state
    state.setdefault(load_field.name(key), "" if guessed else plain(start.load.amount))
    state.setdefault(reps_name(key), None if uncounted else start.reps)
    state.setdefault(f"{key}_outcome", start.outcome)
    state.setdefault(f"{key}_followed", state[f"{key}_outcome"])
    state.setdefault(f"{key}_kind", start.kind)
    state.setdefault(f"{key}_rir", _rir_shown(start.rir, rated=rated))
    state.setdefault(f"{key}_note", start.note)


def _rir_shown(rir: Decimal | None, *, rated: bool = False) -> str | None:
    if rir is None:
        return None
    return "6+" if rir >= 6 else plain(rir) if rated and plain(rir) in RATINGS else str(int(rir))


def _hand_back(
    key: str, start: NewSet, scene: SetForm, on_log: Callable[[NewSet], None], asked: int | None = None
) -> None:
    load_field.take_touch(key)
    _follow(key, asked)  # how it ended may have been touched along with this
    try:
        new = _read(key, start, scene)
    except TidemarkError as error:
        tell(error)
        return
    on_log(new)


def _said(reps: float | None) -> int:
    if reps is None:
        raise BadInputError(
            "Nothing says how many repetitions it was.",
            where="repetitions",
            mend="Say those that were completed; 0 for none.",
        )
    return int(reps)


def _read(key: str, start: NewSet, scene: SetForm) -> NewSet:
    state = st.session_state
    typed = (state.get(f"{key}_body") or "").strip()
    masses: dict[str, Mass] = {}
    together(
        lambda: masses.update(load=parse_mass(state[load_field.name(key)], unit=scene.unit, where="load")),
        lambda: masses.update(body=parse_mass(typed, unit=scene.unit, where="body mass")) if typed else None,
        lambda: _said(state.get(reps_name(key))),
    )
    load, body = masses["load"], masses.get("body")
    if body is None and start.body_mass is not None:
        body = Mass(start.body_mass, start.load.unit)
    rir = state.get(f"{key}_rir")
    shown = (_rir_shown(start.rir), _rir_shown(start.rir, rated=True))
    untouched = rir in shown  # a half, or eight, is not shown as such and stays
    return replace(
        start, load=load, reps=_said(state.get(reps_name(key))), body_mass=round(body.to(load.unit), 1) if body else None,
        rir=start.rir if untouched else None if rir is None else Decimal(rir.removesuffix("+")),
        outcome=state[f"{key}_outcome"] or "done", kind=state.get(f"{key}_kind") or start.kind,
        note=(state.get(f"{key}_note") or "").strip(),
    )  # fmt: skip
