"""Phones of the local network: the code and its picture on the laptop's own screen, and who is paired."""

from __future__ import annotations

from datetime import datetime
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words
from tracker.components.frame.zone import by_reader
from tracker.desk.people import devices
from tracker.door.doorway import pair_link
from tracker.door.pairing import Code, CodeState, Device
from tracker.door.picture import of_page
from tracker.door.visitor import Visitor, visitor_in

CODE, SAID = "devices_code", "devices_said"
LOOK_AGAIN_S = 2.0  # how soon the laptop's screen tells that a phone was paired
OVER = {
    "ended": "Ten wrong codes ended this one. If it was not you who typed them, somebody in this network is trying.",
    "late": "That code is too old.",
}


def show(now: Here) -> None:
    """Show how a phone is paired, where that can be done, and list who is."""
    visitor = visitor_in(st.context.headers)
    if visitor is None or visitor.door == "loopback":
        st.write("Phones of your own network reach this log as long as it is open with `tidemark open --nearby`.")
    elif visitor.door == "phone":
        st.write("Another phone is paired on the laptop's own screen, in this same place.")
    else:
        _pair(now, visitor.address)
    st.caption("Whoever is paired sees and changes everything in this log, of all members, as on the laptop.")
    _paired(now, visitor)


def _pair(now: Here, address: str) -> None:
    """Show a code as long as it is good; else what became of it, and the way to a new one."""
    code: Code | None = st.session_state.get(CODE)
    if code is not None:
        state = devices.code_state(now.log)
        if _is_good(code, state):
            _code(now, code, address)
            st.fragment(_watch, run_every=LOOK_AGAIN_S)(now, code)
            return
        del st.session_state[CODE]
        if state is not None and state.until == code.until:
            st.session_state[SAID] = f"Paired: {state.device}." if state.device else OVER[state.state]
    if said := st.session_state.get(SAID):
        st.html(f'<p class="plain" role="status"><b>{escape(said)}</b></p>')
    st.button("Pair a phone", type="primary", width="stretch", key="pair_phone", on_click=_new_code, args=(now,))


def _is_good(code: Code, state: CodeState | None) -> bool:
    """Whether it is still the newest code and nobody used it; another one has another end."""
    return state is not None and state.state == "good" and state.until == code.until


def _watch(now: Here, code: Code) -> None:
    """Draw nothing, so that nothing on the screen fades, and draw the page anew once the code is over."""
    if not _is_good(code, devices.code_state(now.log)):
        st.rerun()


def _code(now: Here, code: Code, address: str) -> None:
    with st.container(border=True, key="pair_code"):
        st.html(
            '<p class="plain">On the phone, in the same network, scan this:</p><img width="240" height="240" '
            'style="display: block; margin: 0.6rem 0; border-radius: 0.6rem" '
            f'alt="QR picture of the link with the code" src="{of_page(pair_link(address, code))}">'
            f'<p class="plain">or open <b>{escape(address)}</b> there and type:</p><p class="big">{code.shown}</p>'
            f'<p class="plain">Good once, until {by_reader(code.until):%H:%M}.</p>'
        )
        st.button("Put it away", width="stretch", key="pair_away", on_click=_put_away, args=(now,))
    if address.startswith("http:"):
        st.caption(
            "What the phone sends is not encrypted: whoever listens on this network can read it, and copy the phone's key. "
            "Pair only in a network that you trust; the README says how a certificate prevents this."
        )


def _new_code(now: Here) -> None:
    def keep(code: Code) -> str:
        st.session_state[CODE] = code
        return ""

    st.session_state.pop(SAID, None)
    do(devices.new_code, now.log, said=keep)


def _put_away(now: Here) -> None:
    st.session_state.pop(CODE, None)
    do(devices.end_code, now.log)


def _paired(now: Here, visitor: Visitor | None) -> None:
    """List the devices with their removal; the laptop's own browser can't lock itself out."""
    known = devices.paired(now.log)
    if not known:
        st.write("No phone is paired.")
    for each in known:
        own = visitor is not None and each.id == visitor.device_id
        with st.container(
            key=f"row_device_{each.id}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"
        ):
            mark = " (this one)" if own else ""
            st.html(f'<p class="plain"><b>{escape(each.name)}</b>{mark}<br>{_since(each, now)}</p>')
            if not (own and each.kind == "laptop"):
                st.button(
                    "Remove", key=f"unpair_{each.id}", help=f"Refuse {as_typed(each.name)} from now on", on_click=_remove, args=(now, each),
                )  # fmt: skip


KEEPS = (  # what can be promised of a phone that is elsewhere
    ". Its day page forgets its plan when it next reaches the log; without a connection, or where that page is not opened "
    "again, the plan stays on it: clear this address's data in its browser if you have it at hand"
)


def _remove(now: Here, device: Device) -> None:
    st.session_state.pop(SAID, None)
    do(devices.remove, now.log, device.id, said=lambda name: f"Removed: {name}. It is refused from now on{KEEPS}")


def _since(device: Device, now: Here) -> str:
    return f"Paired {_moment(device.paired_at, now)}<br>Last seen {_moment(device.seen_at, now)}"


def _moment(moment: datetime, now: Here) -> str:
    there = by_reader(moment)
    return f"{day_words(there.date(), now.today)} {there:%H:%M}"
