"""The top of a page: where a touch or a link far below leads to, for there stands what is next."""

from __future__ import annotations

import streamlit as st

SCROLL = """document.querySelector('[data-testid="stMain"]')?.scrollTo(0, 0)"""
WANTED, PAGE_BEFORE, NEXT_BEFORE = "top_wanted", "top_page_before", "top_next_before"


def come_to(page: str) -> None:
    """Note which page is drawn; one that was not there before begins at its top."""
    if st.session_state.get(PAGE_BEFORE, page) != page:
        wanted()
    st.session_state[PAGE_BEFORE] = page


def follow(*what_is_next: object) -> None:
    """Note what is next on this page; where a touch far below made it another thing, that one is shown."""
    if st.session_state.get(NEXT_BEFORE, what_is_next) != what_is_next:
        wanted()
    st.session_state[NEXT_BEFORE] = what_is_next


def wanted() -> None:
    st.session_state[WANTED] = True


def show() -> None:
    """Show the top, where it is wanted; stands where the page is drawn whole."""
    if st.session_state.pop(WANTED, False):
        st.html(f"<script>{SCROLL}</script>", unsafe_allow_javascript=True)
