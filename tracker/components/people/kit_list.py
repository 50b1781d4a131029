"""What stands at a place, kind by kind: a touch on a thing opens it, a touch on plus adds one."""

from __future__ import annotations

from typing import cast

import streamlit as st

from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.desk.people import beginning, kit
from tracker.errors import TidemarkError
from tracker.limits import MOST_TYPED
from tracker.log.records import KitItemRecord, KitKind, PlaceRecord
from tracker.prescription.kit import ReadyKit
from tracker.units import plain

NEW = "new"
SEVERAL: tuple[KitKind, ...] = ("disc", "dumbbell", "kettlebell", "ball")  # added as a row of masses
NUMBERS: dict[KitKind, str] = {"disc": "Pairs"}
ONES: tuple[KitKind, ...] = ("bar", "collars", "band")
HINTS: dict[KitKind, str] = {
    "bar": "Any bar: type what it weighs.",
    "collars": "Left out, collars count for nothing in the load.",
    "disc": "Measured masses are welcome: discs are seldom what is stamped on them.",
}


def show(now: Here, place: PlaceRecord) -> None:
    """Draw every kind; those of which there is nothing are drawn too, so that they can be added."""
    for kind, (_, many) in kit.KINDS.items():
        _kind(now, place, kind, many)


def _kind(now: Here, place: PlaceRecord, kind: KitKind, many: str) -> None:
    items = {item.id: item for item in place.of_kind(kind)}
    names = {key: as_typed(item_words(item)) for key, item in items.items()} | {NEW: "+ Add"}
    field = f"kit_{place.id}_{kind}"
    if st.session_state.get(field) not in names:
        st.session_state[field] = None
    chosen = st.pills(many, list(names), format_func=names.__getitem__, key=field)
    if chosen == NEW:
        _add(now, place, kind)
    elif chosen:
        _open(now, place, items[chosen], field)


def item_words(item: KitItemRecord) -> str:
    """Say one thing with its mass and how many there are."""
    mass = str(item.mass) if item.mass else ""
    label = "" if mass and (item.label in mass or mass in item.label) else item.label
    name = f"{label}, {mass}" if label and mass else label or mass
    if item.kind == "disc":
        return f"{name} × {item.number} pair{'' if item.number == 1 else 's'}" if item.number is not None else name
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
        word = "Mass of one disc" if kind == "disc" else "Mass of the pair" if kind == "collars" else "Mass"
        start = (
            (plain(item.mass.amount) if item.mass.unit == place.unit else str(item.mass)) if item and item.mass else ""
        )
        st.text_input(f"{word}, {place.unit}", start, key=f"{key}_mass", max_chars=MOST_TYPED, help=HINTS.get(kind))
    if kind not in ONES:
        number = "" if item is None or item.number is None else str(item.number)
        st.text_input(
            f"{NUMBERS.get(kind, 'How many')}; blank: as many as needed", number, key=f"{key}_number", max_chars=4
        )
    if kind in ("bar", "band"):
        st.text_input("Name", item.label if item else "", key=f"{key}_label")


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
        state[f"kit_{place.id}_{kind}"] = None


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
        state[f"kit_{place.id}_{kind}"] = None


def _remove(now: Here, place: PlaceRecord, item: KitItemRecord, field: str) -> None:
    if do(kit.remove_item, now.log, place.id, item, now.member_id, said=f"Removed: {item_words(item)}"):
        st.session_state[field] = None


def ready_kits(now: Here, place: PlaceRecord) -> None:
    """Offer the ready kits, each with where its masses are written and what that rests on."""
    with st.expander("Start from a ready kit", key="kit_ready"):
        names = {each.name: each for each in kit.READY}
        chosen = names[st.selectbox("Ready kit", list(names), key="kit_ready_name")]
        made = chosen.kit
        collars = f", collars {made.collars} the pair" if made.collars else ""
        discs = " ".join(plain(disc.mass.amount) for disc in made.discs)
        st.write(f"Bar {made.bar}{collars}; discs {discs} {made.discs[0].mass.unit}, as many pairs as needed.")
        st.caption(f"{chosen.source or 'No rule book'}. Status: {chosen.status}.")
        st.button(
            f"Use it at {as_typed(place.name)}", key="kit_ready_use", width="stretch", on_click=_use, args=(now, place, chosen),
            help="Takes the place of the bars, collars and discs here; all else stays. Undo brings them back.",
        )  # fmt: skip


def _use(now: Here, place: PlaceRecord, ready: ReadyKit) -> None:
    do(kit.take_ready_kit, now.log, place.id, ready, now.member_id, said=f"{place.name} now has: {ready.name}")
