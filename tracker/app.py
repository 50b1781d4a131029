"""The Streamlit entry: lays out pages/, opens the log, draws the frame; and `run`, which starts the server.

To add a page, write pages/NAME.py and add a line to PAGES. A page whose file is not there is left out.
"""

from __future__ import annotations

import logging
import os
import sys
import threading
import tomllib
import webbrowser
from collections.abc import AsyncIterator, Callable, Mapping
from contextlib import asynccontextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import streamlit as st
from starlette.middleware import Middleware

from tracker import asset_folder
from tracker.door import sign_in
from tracker.door.addresses import is_loopback
from tracker.door.front import ICON, Front
from tracker.door.gate import Gate, Nearby
from tracker.door.guard import Guard
from tracker.door.lines import write_lines
from tracker.door.metrics import Metrics
from tracker.door.pairing import Pairing
from tracker.door.serving import serve
from tracker.door.shield import Shield
from tracker.door.uploads import Uploads, held_by_streamlit
from tracker.door.visitor import visitor_in
from tracker.errors import BadInputError, TidemarkError
from tracker.log.engine import VARIABLE, password_of
from tracker.log.who import HERE, who
from tracker.pocket.routes import Pocket, module

if TYPE_CHECKING:
    from streamlit.navigation.page import Page

SIDEBAR_PX = 240
PAGES: tuple[tuple[str, str], ...] = (  # file in pages/, and its name in the navigation, in its order
    ("today", "Today"),
    ("trend", "Trend"),
    ("best_marks", "Best marks"),
    ("weights", "Weights"),
    ("sheet", "Sheet"),
    ("conditioning", "Pieces"),
    ("load", "Load"),
    ("journal", "Journal"),
    ("report", "Share"),
    ("coach", "Coach"),
    ("kit", "Kit"),
    ("preferences", "Preferences"),
    ("files", "Files"),
    ("your_data", "Your data"),
    ("accounts", "Accounts"),
    ("roster", "Members"),
)
OF_COACH, OF_OWNER = {"coach"}, {"accounts", "roster"}  # where members sign in; a household has no accounts
NAVIGATION = "navigation_shown"
SETTINGS: Mapping[str, Any] = {
    "server.address": "127.0.0.1",
    "server.fileWatcherType": "none",
    "browser.gatherUsageStats": False,
    # A touch that comes while a page is drawn waits for the next of its steps, and is carried out whole (whole_touches).
    # Fast reruns give the run up at once, and with it the touch that it was for, where that was not carried out yet.
    "runner.fastReruns": False,
    "server.maxUploadSize": 64,  # MB, as tables of sets are limited; more is refused before it is read
    "server.enableAgentApi": False,  # else programs could drive the pages past their socket
    "runner.magicEnabled": False,  # no page shows a value by merely naming it
    "client.toolbarMode": "minimal",
    "client.showErrorDetails": "none",
    # Else Streamlit puts a notice for developers over the page of whoever opens it with their own browser.
    "logger.hideWelcomeMessage": True,
    "client.showErrorLinks": False,
}


def run(
    database: str | None = None,
    *,
    port: int = 8501,
    browser: bool = True,
    config: Mapping[str, Any] | None = None,
    nearby: Nearby | None = None,
    pairing: Pairing | None = None,
    first: str = "",
) -> None:
    """Serve the pages until stopped.

    Args:
        database: The log, a path or an SQLAlchemy URL; without it what TIDEMARK_DATABASE says, else the user's own.
        port: Where to listen, on 127.0.0.1.
        browser: Whether to open a browser.
        config: Settings of Streamlit that go before ours.
        nearby: Where phones of the local network reach it too; without it only this machine does.
        pairing: Who is paired; needed with `nearby`.
        first: What the browser opens; else the first page.

    Raises:
        BadInputError: if a setting asks for another address than this machine's own, and nobody would be asked for a key
            or to sign in; or if the settings of sign-in can't be read.
    """
    from tracker.components.frame import look, signed_in, whole_touches

    whole_touches.keep_whole()
    if database:
        os.environ[VARIABLE] = database
    settings = {**SETTINGS, **theme(), "server.port": port, "server.headless": not browser, **(config or {})}
    members = sign_in.settings()
    if members is not None:
        settings |= {"server.trustedUserHeaders": {}}  # a header that anybody could send says nothing of who it is
    if members is None and (nearby is None or pairing is None):
        refuse_other_address(settings["server.address"])
    hosts = frozenset({members.host} if members else ())
    gate = Middleware(Gate, nearby=nearby, pairing=pairing, farewell=farewell(), hosts=hosts)
    signed_in.ask()
    # Our own settings come after the first look at Streamlit's; it would tell whoever opens the log to restart it.
    logging.getLogger("streamlit.config").addFilter(lambda record: "section was detected" not in str(record.msg))
    front = Middleware(Front, look=look.pages(), module=module("card.js"))
    watched = Middleware(Metrics, key=members.metrics_key if members else "", dumps=dump_told())
    guard = Middleware(Guard, members=members, knows=signed_in.has_account, uploads=Uploads(held_by_streamlit))
    pocket = Middleware(
        Pocket, log=signed_in.log_here, signs_in=members is not None, knows=signed_in.who_has, icon=ICON
    )
    app = st.App(
        Path(__file__).resolve(),
        secrets=members.secrets() if members else None,
        middleware=[watched, gate, guard, Middleware(Shield), pocket, front],
        on_script_error=fault,
        lifespan=opening(first or f"http://127.0.0.1:{port}" if browser else ""),
    )
    if members is not None:
        write_lines([members.client_secret, members.cookie_secret, members.metrics_key, password_of(database)])
    serve(app, settings, own_lines=members is not None)


def dump_told() -> Callable[[], tuple[bool, float | None]] | None:
    """Return what says how the nightly dumps are, where the settings name a folder of them."""
    from tracker.desk.files.dumps import dumps_folder, told_to_watch

    folder = dumps_folder()
    return None if folder is None else lambda: told_to_watch(folder)


def _left_out() -> set[str]:
    """Return the pages that are not for the reader; what they would do, the desk refuses anyway."""
    person = who()
    others = set() if person.leads or person.role == HERE.role else OF_COACH
    if person.role == HERE.role:
        return {"accounts"}
    return others if person.role == "owner" else others | OF_OWNER


def refuse_other_address(wanted: str = "") -> None:
    """Refuse to serve other machines where nobody would be asked for a key.

    Raises:
        BadInputError: if the address, or the one that Streamlit's own settings name, is not this machine's own.
    """
    for address in (wanted, os.environ.get("STREAMLIT_SERVER_ADDRESS"), st.get_option("server.address")):
        if address and not is_loopback(address):
            raise BadInputError(
                f"Without pairing and without sign-in the pages are served to this machine only, not on {address}.",
                where="server.address",
                mend="For phones of your own network run tidemark open --nearby.",
            )


def farewell() -> bytes:
    """Return the message that makes an open page load anew; who was removed then sees the gate's own page."""
    from streamlit.proto.ForwardMsg_pb2 import ForwardMsg

    message = ForwardMsg()
    message.auth_redirect.url = "/"
    return message.SerializeToString()


def opening(address: str) -> Any:
    """Return what opens a browser once the server has begun; it does nothing where there is no screen or no address."""

    @asynccontextmanager
    async def lifespan(_app: Any) -> AsyncIterator[None]:
        screen = sys.platform != "linux" or any(
            os.environ.get(each) for each in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER")
        )
        if address and screen:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
        yield

    return lifespan


def fault(error: Exception) -> bool:
    """Tell of a fault of the program in our own words; its details go to the terminal."""
    logging.getLogger(__name__).error("a page failed", exc_info=error)
    st.error(
        f"The program has a fault here ({type(error).__name__}). What was said to be saved is saved; nothing is half "
        "written. Reload the page. If it comes again, report what the terminal says.",
        icon=":material/error:",
    )
    return True


def theme() -> dict[str, Any]:
    """Return the theme as settings; a config file would be looked for beside the launcher, not beside this file."""
    return dict(_flat("", tomllib.loads((Path(__file__).parent / "theme.toml").read_text(encoding="utf-8"))))


def _flat(prefix: str, values: Mapping[str, Any]) -> list[tuple[str, Any]]:
    found: list[tuple[str, Any]] = []
    for key, value in values.items():
        name = f"{prefix}{key}"
        found += _flat(f"{name}.", value) if isinstance(value, dict) else [(name, value)]
    return found


def main() -> None:
    """Draw one run of the script: frame, then page."""
    from tracker.components.frame import moved, places, signed_in, top
    from tracker.desk.base.cached import page_snapshot

    st.set_page_config(page_title="Tidemark", page_icon=ICON, layout="centered", initial_sidebar_state=SIDEBAR_PX)
    signed_in.ask()
    moved.notice()
    left_out = _left_out()
    known = [(name, title) for name, title in PAGES if name not in left_out]
    pages = places.laid_out(asset_folder("pages"), known)
    entered = signed_in.may_enter()
    at_once = NAVIGATION in st.session_state or not places.on_a_phone()
    page = st.navigation(pages, position="sidebar" if at_once and entered else "hidden", expanded=True)
    places.go_where_asked(pages)
    top.come_to(page.title)
    bar = st.container(key="places_bar")
    try:
        with page_snapshot():
            _show(page)
        moved.drawn()
    finally:
        # A phone that opens the app lays out what was asked for first, and the navigation then.
        if entered:
            if not at_once:
                st.navigation(pages, position="sidebar", expanded=True)
            with bar:
                places.bar(pages, page)
            st.session_state[NAVIGATION] = True


def _show(page: Page) -> None:
    """Draw frame and page, or who may not see them."""
    from tracker.components.frame import empty, frame, signed_in
    from tracker.components.frame.opened import of_this_server
    from tracker.components.people import first_run

    if isinstance(st.context.ip_address, str) and visitor_in(st.context.headers) is None:  # no address: this machine
        st.error("This server lets other machines in without a key. Start it with: tidemark open --nearby")
        st.stop()  # whoever started it did so without `run`, and so without the gate
    try:
        log = of_this_server()
        if sign_in.configured() and signed_in.door(log) is None:
            return
        now = frame.draw(log)
        if now.someone is not None or sign_in.configured():
            page.run()
        else:
            first_run.show(log)
    except frame.NoMemberError:
        empty.nobody_to_show()
    except frame.PageEnded:
        pass
    except TidemarkError as error:
        st.error(f"{error}", icon=":material/error:")


if __name__ == "__main__":
    main()
