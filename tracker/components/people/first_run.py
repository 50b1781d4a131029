"""The first run: five questions with pictures, each of which can be skipped, and at their end a loaded bar to start with."""

from __future__ import annotations

from datetime import date
from html import escape
from typing import Any, cast, get_args

import streamlit as st

from tracker import asset_folder
from tracker.components.frame import discs
from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import today
from tracker.components.frame.words import first_up, load_words
from tracker.components.people import pictures
from tracker.components.people.how_known import check_reps
from tracker.desk.people import beginning, first_session, people
from tracker.desk.people.beginning import FirstMax
from tracker.desk.people.first_session import MOST_LIFTS, FirstLift
from tracker.desk.people.ready_places import TITLES, FirstPlace, Ready, inside, ready_place
from tracker.errors import BadInputError, TidemarkError, together
from tracker.log.records import Implement, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.movements_at import Movement, movements_at, usual
from tracker.units import Mass, Unit, parse_mass, plain
from tracker.wording import counted

SAID, STEP = "first_said", "first_step"
NAME, PLACE, LIFTS, MAX, WHEN, END = range(6)
NOBODY = "Me"  # the name of whoever gives none; it is changed under Preferences
REPS = (1, 2, 3, 5, 8, 10)


def show(log: Log) -> None:
    """Ask one question at a time; nothing is written before the last touch, which writes all of it in one act."""
    pictures.style()
    step = st.session_state.setdefault(STEP, NAME)
    said = st.session_state.setdefault(SAID, {})
    if step < END:
        _steps(step)
    (_who, _where, _lifts, _max, _when, _end)[step](log, said)
    if step > NAME:
        with st.container(horizontal=True, gap="small"):
            st.button("Back", key="first_back", icon=":material/arrow_back:", on_click=_go, args=(_before(step, said),))
            if step < END and step != MAX:  # there "I don't know" is the way on
                st.button("Skip", key="first_skip", type="tertiary", on_click=_skip, args=(step,))


def _steps(step: int) -> None:
    marks = "".join(f'<i class="{"gone" if number <= step else ""}"></i>' for number in range(END))
    st.html(f'<p class="first-steps">{marks}<span>{step + 1} of {END}</span></p>')


def _before(step: int, said: dict[str, Any]) -> int:
    """Return the question before: what was not asked is not gone back to."""
    if step == END:
        return WHEN if said.get("load") else MAX if _asked_of(said) else LIFTS
    return step - 1


def _go(step: int, **answers: Any) -> None:
    st.session_state[SAID] = st.session_state[SAID] | answers
    st.session_state[STEP] = step


def _skip(step: int) -> None:
    """Leave a question without an answer, and those that hang on it."""
    if step == PLACE:
        _go(LIFTS, place=None)
    elif step == LIFTS:
        _go(END, lifts=(), load=None)
    else:
        _go(END, tested=None)  # of a load without a day nothing is taken as tested


def _who(log: Log, said: dict[str, Any]) -> None:
    st.title("Who is training?")
    st.text_input("Your name", said.get("typed", ""), key="first_name", placeholder="Blank: Me")
    st.markdown("**Your loads are in**")
    pictures.choice("kg", "Kilograms", key="first_kg", on_click=_name, args=(log, "kg"))
    pictures.choice("lb", "Pounds", key="first_lb", on_click=_name, args=(log, "lb"))


def _name(log: Log, unit: Unit) -> None:
    typed = st.session_state["first_name"]
    try:
        name = people.free_name(log, typed if typed.strip() else NOBODY)
    except TidemarkError as error:
        tell(error)
        return
    _go(PLACE, typed=typed, name=name, unit=unit)


def _where(_log: Log, said: dict[str, Any]) -> None:
    unit: Unit = said["unit"]
    st.title("Where do you train?")
    for kind in get_args(Ready):
        pictures.choice(
            kind, TITLES[kind], inside(kind, unit), key=f"first_place_{kind}", on_click=_place, args=(kind, unit)
        )
    with st.expander("My dumbbells are others"):
        st.text_input(f"Pairs of dumbbells at home, {unit}", key="first_bells", placeholder="such as 10 15 20")
    st.caption("All of it can be changed under Kit.")


def _place(kind: Ready, unit: Unit) -> None:
    typed = st.session_state.get("first_bells", "")
    place = ready_place(kind, unit)
    if kind == "dumbbells" and typed.strip():
        try:
            place = beginning.home(unit, bar=False, dumbbells=beginning.masses_of(typed, unit, where="dumbbells"))
        except TidemarkError as error:
            tell(error)
            return
    _go(LIFTS, place=place, lifts=())


def _lifts(_log: Log, said: dict[str, Any]) -> None:
    at_hand = first_session.at_hand(said.get("place"))
    known = {each.name: each for each in movements_at(at_hand)}
    first = [each.name for each in usual(at_hand)]
    st.title("What will you lift first?")
    pictures.show("lifts")
    st.pills(
        f"Choose up to {MOST_LIFTS}", first, selection_mode="multi", format_func=lambda name: first_up(known[name].name), key="first_usual"
    )  # fmt: skip
    st.multiselect(
        f"Or search {counted(len(known), 'movement')}", [name for name in known if name not in first], key="first_more",
        format_func=lambda name: first_up(known[name].words) if name in known else name, accept_new_options=True,
        placeholder="Type a name",
    )  # fmt: skip
    st.button("Next", type="primary", key="first_lifts_next", width="stretch", on_click=_choose, args=(known, at_hand))


def _choose(known: dict[str, Movement], at_hand: frozenset[str]) -> None:
    names = [*st.session_state["first_usual"], *st.session_state["first_more"]]
    own = next((each for each in ("barbell", "dumbbells") if each in at_hand), "other")
    try:
        if not names:
            raise BadInputError("No movement is chosen.", where="lifts", mend="Touch one, or Skip.")
        if len(names) > MOST_LIFTS:
            raise BadInputError(
                f"{len(names)} are much for a first day.", where="lifts", mend=f"Leave {MOST_LIFTS} of them at most."
            )
        found = tuple(
            FirstLift(
                people.clean_name(name, "lift").lower(),
                cast("Implement", known[name].implement if name in known else own),
            )
            for name in names
        )
    except TidemarkError as error:
        tell(error)
        return
    answers = {"lifts": tuple(dict.fromkeys(found)), "load": None}
    _go(MAX if _asked_of(answers) else END, **answers)


def _asked_of(said: dict[str, Any]) -> FirstLift | None:
    """Return the lift of which a max is asked: the first that is loaded."""
    return next((each for each in said.get("lifts", ()) if each.implement not in ("body", "other")), None)


def _max(_log: Log, said: dict[str, Any]) -> None:
    lift = _asked_of(said)
    assert lift is not None
    st.title(f"Your best {as_typed(lift.name)}?")
    pictures.show("best")
    st.pills("Repetitions in one set", REPS, key="first_reps", format_func=str)
    each = " of each" if lift.implement in ("dumbbells", "kettlebells") else ""
    st.text_input(f"Load{each}, {said['unit']}", key="first_load", placeholder="such as 92.5")
    st.button("Next", type="primary", key="first_max_next", width="stretch", on_click=_best, args=(said["unit"],))
    pictures.choice(
        "find", "I don't know", "Find it in the first session: a few rising sets, not to the end.", key="first_unknown",
        on_click=_go, args=(END,), kwargs={"load": None},
    )  # fmt: skip


def _best(unit: Unit) -> None:
    reps, load = st.session_state["first_reps"], list[Mass]()
    try:
        together(
            lambda: check_reps(reps),
            lambda: load.append(parse_mass(st.session_state["first_load"], unit=unit, where="load")),
        )
        beginning.check_first(FirstMax("lift", reps, load[0], tested=False))
    except TidemarkError as error:
        tell(error)
        return
    _go(WHEN, reps=reps, load=load[0])


def _when(_log: Log, said: dict[str, Any]) -> None:
    st.title(f"When did you lift {said['reps']} × {said['load']}?")
    pictures.choice("tested", "Today", key="first_today", on_click=_go, args=(END,), kwargs={"tested": today()})
    pictures.choice(
        "guess", "It is a guess", "Nothing is taken as tested.", key="first_guess", on_click=_go, args=(END,), kwargs={"tested": None}
    )  # fmt: skip
    with st.container(border=True):
        st.date_input("Or on another day", None, key="first_day", max_value=today(), format="YYYY-MM-DD")
        st.button("It was that day", key="first_on_day", width="stretch", on_click=_on_day)


def _on_day() -> None:
    day: date | None = st.session_state["first_day"]
    if day is None:
        tell(BadInputError("No day is chosen.", where="day of the test", mend="Choose it, or say that it is a guess."))
        return
    _go(END, tested=day)


def _end(log: Log, said: dict[str, Any]) -> None:
    lifts: tuple[FirstLift, ...] = said.get("lifts", ())
    first = _first_max(said)
    known = (first.lift, first.reps, first.load) if first else None
    age = (today() - first.day).days if first and first.day else None
    opens = first_session.opening(lifts, said["unit"], said.get("place"), known, age)
    if opens is None:
        st.title("Your log is ready")
        st.write("Log any set on the day's page, or enter a coach's session under Sheet.")
    else:
        st.title("Your first session")
        _draw(opens, first)
    if st.button("Start" if opens else "Begin", type="primary", key="first_start", width="stretch"):
        _begin(log, said, first, lifts)


def _draw(opens: first_session.Beginning, first: FirstMax | None) -> None:
    """Show what the first set is loaded with, and what comes after it."""
    asked, lift = opens.asked, first_session.as_lift(opens.asked.lift)
    load = f" × {load_words(opens.made.load, lift)}" if opens.made else " repetitions"
    of = f"{plain(asked.percent)} % of your {first.reps}RM, {first.load}: easy on purpose." if asked.percent and first else (
        "Rising sets find your max: stop when about three repetitions are left." if opens.made
        else "Take what leaves about three repetitions."
    )  # fmt: skip
    with st.container(border=True, key="first_set"):
        st.html(
            f'<p class="over">{escape(first_up(lift.title))}</p><p class="big">{asked.reps}{escape(load)}</p>'
            f'<p class="plain">{escape(opens.made.words) if opens.made else ""}</p>'
        )
        if opens.made and lift.implement == "barbell":
            if opens.made.per_side:
                discs.show(opens.made)
            else:
                pictures.show("empty")
        st.html(f'<p class="plain">{escape(of)}</p>')
    others = [first_up(each.name) for each in opens.lifts if each != asked.lift]
    then = f", then {', '.join(others)}" if others else ""
    st.markdown(f"{counted(opens.sets, 'set')}: {as_typed(first_up(asked.lift.name))}{as_typed(then)}.")


def _first_max(said: dict[str, Any]) -> FirstMax | None:
    lift, load = _asked_of(said), said.get("load")
    if lift is None or load is None:
        return None
    day = said.get("tested")
    return FirstMax(lift.name, said["reps"], load, tested=day is not None, implement=lift.implement, day=day)


def _begin(log: Log, said: dict[str, Any], first: FirstMax | None, lifts: tuple[FirstLift, ...]) -> None:
    """Write what was said in one act; where it can't be, say why and keep what was said."""
    place: FirstPlace | None = said.get("place")
    done = do(
        beginning.begin, log, said["name"], said["unit"], place, first, day=today(), lifts=lifts,
        said=lambda member: f"{cast('MemberRecord', member).name}'s log is begun.",
    )  # fmt: skip
    if not done:
        st.rerun()
    for key in (SAID, STEP):
        del st.session_state[key]
    st.switch_page(asset_folder("pages") / "today.py")
