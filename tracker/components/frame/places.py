"""Where one can go: the pages in groups for the sidebar, and the five that a thumb reaches on a phone.

The bar is one element, and each of its places changes the page as the sidebar does, without a new load. *More* opens the
sidebar, which holds all pages.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import streamlit as st
from streamlit.components.v2 import component

from tracker.log.who import who

if TYPE_CHECKING:
    from streamlit.navigation.page import Page

GROUPS: dict[str, tuple[str, ...]] = {  # heading in the sidebar -> pages; what is in none comes last
    "Train": ("today", "sheet", "conditioning", "weights"),
    "Look back": ("trend", "best_marks", "load", "journal"),
    "With the coach": ("report", "coach"),
    "Set up": ("kit", "preferences"),
}
BEHIND = frozenset(
    {"files", "your_data", "accounts", "roster"}
)  # reached from Preferences: at most twelve stand in the navigation
ICONS = {
    "today": "today", "sheet": "assignment", "conditioning": "timer", "weights": "fitness_center", "trend": "trending_up",
    "best_marks": "trophy", "load": "bar_chart", "journal": "menu_book", "report": "share", "coach": "groups",
    "kit": "shelves", "preferences": "tune", "files": "folder", "your_data": "shield_person", "accounts": "manage_accounts", "roster": "group_add",
}  # fmt: skip
WITHIN_REACH = ("today", "conditioning", "weights", "trend", "journal")
WITHOUT_A_LOG = ("coach", "sheet", "conditioning", "kit", "preferences")  # of a coach or owner who keeps none
FIRST = "today"  # opens without an address
WANTED = "place_wanted"

_drawn = component(
    "places",
    html='<nav class="places" aria-label="Main pages"></nav>',
    js=Path(__file__).with_suffix(".js").read_text(encoding="utf-8"),
    isolate_styles=False,
)


def laid_out(folder: Path, names: Sequence[tuple[str, str]]) -> dict[str, list[Page]]:
    """Put the pages whose files are there into their groups.

    Args:
        folder: Where the files of the pages are.
        names: Of each page its file, without its ending, and its title, for those that the reader may see.
    """
    groups = {heading: list[str]() for heading in GROUPS}
    of = {page: heading for heading, pages in GROUPS.items() for page in pages}
    titles = {name: title for name, title in names if (folder / f"{name}.py").is_file()}
    for name in titles:
        groups[of.get(name, "Set up")].append(name)
    return {
        heading: [
            st.Page(
                folder / f"{name}.py", title=titles[name], url_path=name, default=name == FIRST,
                icon=f":material/{ICONS.get(name, 'article')}:", visibility="hidden" if name in BEHIND else "visible",
            )
            for name in sorted(found, key=lambda name: (*GROUPS[heading], name).index(name))
        ]
        for heading, found in groups.items() if found
    }  # fmt: skip


def on_a_phone() -> bool:
    """Tell whether the browser says that it is a phone's."""
    headers = st.context.headers
    return headers.get("Sec-Ch-Ua-Mobile") == "?1" or "Mobi" in headers.get("User-Agent", "")


def go_where_asked(groups: dict[str, list[Page]]) -> None:
    """Change to the page that was touched in the bar, before anything else is drawn."""
    wanted = st.session_state.pop(WANTED, None)
    for page in (each for pages in groups.values() for each in pages):
        if wanted and name_of(page) == wanted:
            st.switch_page(page)


def bar(groups: dict[str, list[Page]], here: Page) -> None:
    """Draw the places that a thumb reaches; the one that is open is marked."""
    known = {name_of(page): page for pages in groups.values() for page in pages}
    wanted = WITHOUT_A_LOG if who().role in ("coach", "owner") and who().member_id is None else WITHIN_REACH
    shown = [
        {"name": name, "title": known[name].title, "icon": ICONS[name], "path": known[name].url_path}
        for name in wanted
        if name in known
    ]
    _drawn(key="places", data={"places": shown, "here": name_of(here)}, on_go_change=_go)


def name_of(page: Page) -> str:
    """Return the name of a page's file; the first one has no address of its own."""
    return page.url_path or FIRST


def _go() -> None:
    st.session_state[WANTED] = st.session_state["places"].get("go")
