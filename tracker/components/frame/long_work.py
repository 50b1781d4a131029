"""An act that may take long: done beside the page, which shows how far it is and a button that stops it.

Streamlit ends a run of the page's script at the next touch, so an act within the script would be cut off by anybody who
touches the page. Beside it, it goes on to its end, or to the step at which it is stopped; it writes all or nothing.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import streamlit as st

from tracker.components.frame.acts import NOTICE, Notice, tell
from tracker.errors import TidemarkError
from tracker.log.who import acting, granted, who
from tracker.progress import StoppedError, Watch, watched

WORK = "long_work"
QUICK_S = 2.0  # what is done by then never shows a bar
LOOK_S = 0.5


class Work:
    """A running act, what it is, and what came of it."""

    def __init__(self, title: str, act: Callable[[], Any], said: Callable[[Any], str]) -> None:
        self.title, self.said, self.watch = title, said, Watch()
        self.result: Any = None
        self.error: Exception | None = None
        self._act, self._person, self._grant = act, who(), granted()
        self.thread = threading.Thread(target=self._run, name=f"tidemark: {title}", daemon=True)
        self.thread.start()

    def _run(self) -> None:
        try:
            with acting(self._person, self._grant), watched(self.watch):
                self.result = self._act()
        except Exception as err:
            self.error = err  # told, or raised, by the page


def begin(title: str, act: Callable[[], Any], said: Callable[[Any], str]) -> None:
    """Begin an act, in a callback; where it is quick it is done when this returns.

    Args:
        title: What it is, for the bar: "Taking the file".
        act: What to do; it has its arguments with it.
        said: What to say of what it returned, once it is on the disk.
    """
    if st.session_state.get(WORK):
        return
    work = Work(title, act, said)
    work.thread.join(QUICK_S)
    st.session_state[WORK] = work
    if not work.thread.is_alive():
        _end(work)


def running() -> bool:
    """Tell whether there is one that this page must show."""
    return st.session_state.get(WORK) is not None


@st.fragment(run_every=LOOK_S)
def show() -> None:
    """Draw how far it is, and look again; at its end the whole page is drawn anew."""
    work: Work | None = st.session_state.get(WORK)
    if work is None:
        return
    if not work.thread.is_alive():
        _end(work)
        st.rerun()
    watch = work.watch
    far = f": {watch.done:,} of {watch.total:,}" if watch.total else f": {watch.done:,}" if watch.done else ""
    st.progress(watch.share, text=f"{work.title}. Now {watch.words or 'beginning'}{far}")
    st.button("Stop", key="long_stop", width="stretch", on_click=watch.stop, icon=":material/stop_circle:")
    st.caption("It is taken whole or not at all. You may go to another page meanwhile.")


def _end(work: Work) -> None:
    del st.session_state[WORK]
    if isinstance(work.error, StoppedError):
        st.session_state[NOTICE] = Notice("error", work.error.what)
    elif isinstance(work.error, TidemarkError):
        tell(work.error)
    elif work.error is not None:
        raise work.error
    else:
        st.session_state[NOTICE] = Notice("saved", work.said(work.result))
