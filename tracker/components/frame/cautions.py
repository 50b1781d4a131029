"""Cautions at the act that needs them: short, put away for the day, back tomorrow; and the signs to stop at."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, here
from tracker.desk.day import dismissed_cautions as seen
from tracker.safety import (
    PREGNANCY_STOP_SIGNS,
    STOP_AND_ASK,
    STOP_IN_PREGNANCY,
    STOP_NOW,
    STOP_SIGNS,
    STOP_SIGNS_STATUS,
    Caution,
    still_shown,
)


def show(cautions: Iterable[Caution]) -> None:
    """Draw the cautions that were not put away today, and a way to get the others back."""
    now, wanted = here(), tuple(dict.fromkeys(cautions))
    if not wanted:
        return
    shown = not_put_away(now, wanted)
    if len(shown) < len(wanted):
        many = "Cautions" if len(wanted) - len(shown) > 1 else "A caution"
        st.button(
            f"{many} put away until tomorrow: show again", key="cautions_again", type="tertiary", on_click=_show_again
        )
    if not shown:
        return
    with st.container(border=True, key="cautions"):
        st.html(said(shown))
        st.button("Seen, for today", key="cautions_seen", on_click=_put_away, args=([each.key for each in shown],))


def not_put_away(now: Here, wanted: Iterable[Caution]) -> tuple[Caution, ...]:
    """Leave out what the member has put away for the day."""
    away = dict.fromkeys(seen.put_away_on(now.log, now.member.id, now.today), now.today)
    return still_shown(wanted, away, now.today)


def said(shown: Iterable[Caution]) -> str:
    """Return cautions as HTML."""
    return "".join(_words(caution) for caution in shown)


def _words(caution: Caution) -> str:
    return (
        f'<p class="plain caution">{escape(caution.text)} <b>{escape(caution.advice)}</b>'
        f" <small>({escape(caution.basis)})</small></p>"
    )


def _put_away(keys: list[str]) -> None:
    now = here()
    do(seen.put_away, now.log, now.member.id, keys, now.today)


def _show_again() -> None:
    now = here()
    do(seen.show_again, now.log, now.member.id, now.today)


def stop_signs() -> None:
    """List the signs to stop at; always there, never put away."""
    with st.expander("When to stop", key="stop_signs"):
        st.markdown(
            "\n\n".join((_signs(STOP_NOW, emergency=True), _signs(STOP_AND_ASK, emergency=False), _pregnancy()))
        )
        st.caption(
            f"Status of this list: {STOP_SIGNS_STATUS}. Your coach, your clinician and the rules of your place go first."
        )


def _pregnancy() -> str:
    return "\n".join((f"**{STOP_IN_PREGNANCY}**\n", *(f"- {sign}" for sign in PREGNANCY_STOP_SIGNS)))


def _signs(what: str, *, emergency: bool) -> str:
    return "\n".join((f"**{what}**\n", *(f"- {sign.text}" for sign in STOP_SIGNS if sign.emergency == emergency)))
