"""Cautions at the act that needs them: short, put away for the day, back tomorrow; and the signs to stop at."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame import here
from tracker.safety import STOP_AND_ASK, STOP_NOW, STOP_SIGNS, STOP_SIGNS_STATUS, Caution, still_shown

PUT_AWAY = "cautions_put_away"  # member and caution -> the day on which it was put away


def show(cautions: Iterable[Caution]) -> None:
    """Draw the cautions that were not put away today."""
    now = here()
    away: dict[tuple[str, str], date] = st.session_state.setdefault(PUT_AWAY, {})
    mine = {key: day for (member, key), day in away.items() if member == now.member.id}
    shown = still_shown(cautions, mine, now.today)
    if not shown:
        return
    with st.container(border=True, key="cautions"):
        st.html("".join(_words(caution) for caution in shown))
        st.button("Seen, for today", key="cautions_seen", on_click=_put_away, args=([each.key for each in shown],))


def _words(caution: Caution) -> str:
    return (
        f'<p class="plain caution">{escape(caution.text)} <b>{escape(caution.advice)}</b>'
        f" <small>({escape(caution.basis)})</small></p>"
    )


def _put_away(keys: list[str]) -> None:
    now = here()
    st.session_state[PUT_AWAY].update({(now.member.id, key): now.today for key in keys})


def stop_signs() -> None:
    """List the signs to stop at; always there, never put away."""
    with st.expander("When to stop", key="stop_signs"):
        st.markdown(f"**{STOP_NOW}**")
        st.markdown("\n".join(f"- {sign.text}" for sign in STOP_SIGNS if sign.emergency))
        st.markdown(f"**{STOP_AND_ASK}**")
        st.markdown("\n".join(f"- {sign.text}" for sign in STOP_SIGNS if not sign.emergency))
        st.caption(
            f"Status of this list: {STOP_SIGNS_STATUS}. Your coach, your clinician and the rules of your place go first."
        )
