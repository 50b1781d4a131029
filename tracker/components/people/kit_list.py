"""What stands at a place: what it makes, the things drawn by their kind, and what is not there yet in one row.

A touch on a thing opens it, a touch on plus adds one.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import sqrt
from typing import cast

import streamlit as st

from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.components.people import pictures
from tracker.desk.people import beginning, kit, kit_reach, standing
from tracker.desk.people.ready_places import TITLES, Ready, inside
from tracker.errors import TidemarkError
from tracker.limits import MOST_TYPED
from tracker.log.records import KitItemRecord, KitKind, PlaceRecord
from tracker.prescription.kit import ReadyKit
from tracker.units import plain
from tracker.wording import counted

NEW = "new"
IN_SIGHT = 6  # things of a kind; more stand behind a touch, since the tiles above say what they make
SEVERAL: tuple[KitKind, ...] = ("disc", "dumbbell", "kettlebell", "ball")  # added as a row of masses
NUMBERS: dict[KitKind, str] = {"disc": "Pairs"}
ONES: tuple[KitKind, ...] = ("bar", "collars", "band", "machine")
SMALL, BIG, BIG_KG = 75, 94, 25.0  # pixels of a disc of no mass and of one of 25 kg
SLEEVE = "About: as much as sleeves take of rubber discs (common practice)."
BELOW: dict[KitKind, str] = {"band": "By name alone: no kg is reckoned for a band."}
WHOLE: tuple[Ready, ...] = ("dumbbells", "rack", "gym")
MASSES: dict[KitKind, str] = {
    "disc": "Mass of one disc", "collars": "Mass of the pair", "machine": "Smallest step of the stack",
}  # fmt: skip
NAMES: dict[KitKind, str] = {"bar": "Name", "band": "Name", "machine": "Which one, such as leg press; blank: any"}
HINTS: dict[KitKind, str] = {
    "bar": "Any bar: type what it weighs.",
    "collars": "Left out, collars count for nothing in the load.",
    "disc": "Measured masses are welcome: discs are seldom what is stamped on them.",
    "machine": "Blank where you don't know it.",
}


def show(now: Here, place: PlaceRecord) -> None:
    """Draw the kinds of which there is something, then the others as one row to add from."""
    missing: list[KitKind] = [kind for kind in kit.KINDS if not _of_kind(place, kind)]
    for kind, (_, many) in kit.KINDS.items():
        if kind not in missing:
            _kind(now, place, kind, many)
    _standing(now, place)
    if not missing:
        return
    field = f"kit_{place.id}_more"
    if st.session_state.get(field) not in missing:
        st.session_state[field] = None
    chosen: KitKind | None = st.pills(
        "Add something else" if len(missing) < len(kit.KINDS) else "Or add one by one", missing,
        format_func=lambda kind: f"+ {kit.KINDS[kind][1]}", key=field,
    )  # fmt: skip
    if chosen:
        _add(now, place, chosen)


def _of_kind(place: PlaceRecord, kind: KitKind) -> tuple[KitItemRecord, ...]:
    return standing.stacks_at(place) if kind == "machine" else place.of_kind(kind)


def _standing(now: Here, place: PlaceRecord) -> None:
    """Offer what stands there by name alone, each put there or taken away in one touch."""
    field = f"kit_{place.id}_standing"
    st.session_state[field] = list(standing.standing_at(place))
    st.pills(
        "What else is there: touch what you have", standing.STANDING, format_func=first_up, selection_mode="multi", key=field,
        on_change=_stands, args=(now, place, field),
    )  # fmt: skip


def _stands(now: Here, place: PlaceRecord, field: str) -> None:
    wanted, known = set(st.session_state[field]), standing.standing_at(place)
    for name in wanted - set(known):
        item = KitItemRecord("", "machine", name, None, 1)
        do(kit.put_item, now.log, place.id, item, now.member_id, said=f"Saved: {name}")
    for name in set(known) - wanted:
        do(kit.remove_item, now.log, place.id, known[name], now.member_id, said=f"Removed: {name}")


def makes(place: PlaceRecord) -> None:
    """Say what the kit makes: from where to where and by how much, a tile for each bar and each row of fixed weights."""
    made = kit_reach.reach(place)
    tiles = "".join(
        f"<div><dt>{escape(each.what)}</dt><dd><b>{escape(each.span)}</b><span>{escape(each.steps)}</span></dd></div>"
        for each in made
    )
    if tiles:
        about = f'<p class="plain soft">{SLEEVE}</p>' if any(each.sleeve for each in made) else ""
        st.html(f'<dl class="kit-makes">{tiles}</dl>{about}')


def _kind(now: Here, place: PlaceRecord, kind: KitKind, many: str) -> None:
    items = {item.id: item for item in _of_kind(place, kind)}
    names = {key: _drawn(item) for key, item in items.items()} | {NEW: "+ Add"}
    field = f"kit_{place.id}_{kind}"
    if st.session_state.get(field) not in names:
        st.session_state[field] = None
    if kind == "disc":
        st.html(f"<style>{_sizes(tuple(items.values()))}</style>")
    folded = len(items) > IN_SIGHT
    box = st.expander(f"{many}: {len(items)}", key=f"kitfold_{kind}") if folded else st.container()
    with box:
        with st.container(key=f"kitkind_{kind}"):
            chosen = st.pills(many, list(names), format_func=names.__getitem__, key=field)
            if kind in BELOW:
                st.caption(BELOW[kind])
        if chosen == NEW:
            _add(now, place, kind)
        elif chosen:
            _open(now, place, items[chosen], field)


def _sizes(discs: Sequence[KitItemRecord]) -> str:
    """Give each disc the size and the rim that its mass has beside the others; its mass stands on it in figures."""
    rules: list[str] = []
    for number, disc in enumerate(discs, 1):
        share = min(1.0, sqrt(float(disc.mass.kg) / BIG_KG)) if disc.mass else 0.0
        rules.append(
            f".st-key-kitkind_disc button:nth-of-type({number})"
            f"{{--disc:{SMALL + (BIG - SMALL) * share:.0f}px;--rim:{2 + 7 * share:.0f}px}}"
        )
    return " ".join(rules)


def _drawn(item: KitItemRecord) -> str:
    """Say a thing as it is drawn: of a disc its mass, and how many pairs below."""
    words = as_typed(item_words(item))
    mass, pairs, number = words.partition(" × ")
    return f"**{mass}**" + (f"  \n{number}" if pairs else "") if item.kind == "disc" else words


def item_words(item: KitItemRecord) -> str:
    """Say one thing with its mass and how many there are."""
    mass = str(item.mass) if item.mass else ""
    label = "" if mass and (item.label in mass or mass in item.label) else item.label
    name = f"{label}, {mass}" if label and mass else label or mass
    if item.kind == "machine":
        return f"{item.label[:1].upper()}{item.label[1:]}" + (f", by {mass}" if mass else ", step not given")
    if item.kind == "disc":
        return f"{name} × {counted(item.number, 'pair')}" if item.number is not None else name
    return name if item.number in (None, 1) or item.kind in ONES else f"{name} × {item.number}"


def _open(now: Here, place: PlaceRecord, item: KitItemRecord, field: str) -> None:
    key = f"kit_item_{item.id}"
    with st.container(border=True):
        with st.form(f"{key}_form", border=False):
            _fields(place, item.kind, key, item)
            st.form_submit_button(
                "Save", type="primary", width="stretch", on_click=_save, args=(now, place, item.kind, key, item.id)
            )
        st.button(f"Remove {item_words(item)}", key=f"{key}_remove", on_click=_remove, args=(now, place, item, field))


def _fields(place: PlaceRecord, kind: KitKind, key: str, item: KitItemRecord | None = None) -> None:
    if kind != "band":
        word = MASSES.get(kind, "Mass")
        start = (
            (plain(item.mass.amount) if item.mass.unit == place.unit else str(item.mass)) if item and item.mass else ""
        )
        st.text_input(f"{word}, {place.unit}", start, key=f"{key}_mass", max_chars=MOST_TYPED, help=HINTS.get(kind))
    if kind not in ONES:
        number = "" if item is None or item.number is None else str(item.number)
        st.text_input(
            f"{NUMBERS.get(kind, 'How many')}; blank: as many as needed", number, key=f"{key}_number", max_chars=4
        )
    if kind in NAMES:
        st.text_input(NAMES[kind], item.label if item else "", key=f"{key}_label")


def _add(now: Here, place: PlaceRecord, kind: KitKind) -> None:
    key = f"kit_add_{kind}"
    with st.form(f"{key}_form", clear_on_submit=False):
        if kind in SEVERAL:
            st.text_input(
                f"Masses, {place.unit}", key=f"{key}_masses", placeholder="10 12.5 15", help="One or several, with a space between."
            )  # fmt: skip
            start = "2" if kind == "dumbbell" else "1"
            st.text_input(
                f"{NUMBERS.get(kind, 'How many')} of each; blank: as many as needed", start, key=f"{key}_number", max_chars=4
            )  # fmt: skip
        else:
            _fields(place, kind, key)
        st.form_submit_button(
            "Add", type="primary", width="stretch", on_click=_save_several if kind in SEVERAL else _save,
            args=(now, place, kind, key),
        )  # fmt: skip


def _save(now: Here, place: PlaceRecord, kind: KitKind, key: str, item_id: str = "") -> None:
    state = st.session_state
    try:
        number = "1" if kind in ONES else cast("str", state[f"{key}_number"])
        item = kit.read_item(
            kind, state.get(f"{key}_mass", ""), number, state.get(f"{key}_label", ""), place.unit, item_id=item_id
        )
    except TidemarkError as error:
        tell(error)
        return
    if do(kit.put_item, now.log, place.id, item, now.member_id, said=f"Saved: {item_words(item)}"):
        _shut(place, kind)


def _save_several(now: Here, place: PlaceRecord, kind: KitKind, key: str) -> None:
    state = st.session_state
    try:
        masses = beginning.masses_of(state[f"{key}_masses"], place.unit, where="masses")
        number = kit.read_number(state[f"{key}_number"])
    except TidemarkError as error:
        tell(error)
        return
    if do(
        kit.put_fixed,
        now.log,
        place.id,
        kind,
        masses,
        number,
        now.member_id,
        said=f"Saved: {kit.KINDS[kind][1].lower()}",
    ):
        _shut(place, kind)


def _shut(place: PlaceRecord, kind: KitKind) -> None:
    """Close what was open: of a kind that is there now, and of the row to add from."""
    for field in (kind, "more"):
        st.session_state[f"kit_{place.id}_{field}"] = None


def _remove(now: Here, place: PlaceRecord, item: KitItemRecord, field: str) -> None:
    if do(kit.remove_item, now.log, place.id, item, now.member_id, said=f"Removed: {item_words(item)}"):
        st.session_state[field] = None


def ready_kits(now: Here, place: PlaceRecord) -> None:
    """Offer ready kits: whole places with what is in them, then bars and discs by a rule book."""
    if place.items:
        box = st.expander("Start from a ready kit", key="kit_ready")
        with box:
            st.caption("It takes the place of what is here of the same kinds; all else stays. Undo puts it back.")
            _whole(now, place)
            _by_rule_book(now, place)
    else:
        st.markdown("**Start from a ready kit**")
        _whole(now, place)


def _whole(now: Here, place: PlaceRecord) -> None:
    for kind in WHOLE:
        pictures.choice(
            kind,
            TITLES[kind],
            inside(kind, place.unit),
            key=f"kit_whole_{kind}",
            on_click=_use_whole,
            args=(now, place, kind),
        )


def _use_whole(now: Here, place: PlaceRecord, kind: Ready) -> None:
    do(kit.take_ready_place, now.log, place, kind, now.member_id, said=f"{place.name} now has: {TITLES[kind]}")


def _by_rule_book(now: Here, place: PlaceRecord) -> None:
    names = {each.name: each for each in kit.READY}
    chosen = names[st.selectbox("Or bar and discs alone", list(names), key="kit_ready_name")]
    made = chosen.kit
    collars = f", collars {made.collars} the pair" if made.collars else ""
    discs = " ".join(plain(disc.mass.amount) for disc in made.discs)
    st.write(f"Bar {made.bar}{collars}; discs {discs} {made.discs[0].mass.unit}, as many pairs as needed.")
    st.caption(". ".join(first_up(part) for part in (chosen.source, chosen.status) if part) + ".")
    st.button(
        f"Use it at {as_typed(place.name)}", key="kit_ready_use", width="stretch", on_click=_use, args=(now, place, chosen),
        help="Takes the place of the bars, collars and discs here; all else stays. Undo puts them back.",
    )  # fmt: skip


def _use(now: Here, place: PlaceRecord, ready: ReadyKit) -> None:
    do(kit.take_ready_kit, now.log, place.id, ready, now.member_id, said=f"{place.name} now has: {ready.name}")
