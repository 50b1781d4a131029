"""Cautions at the act that needs them: one line in sight, put away for the day, back tomorrow; and the signs to stop at."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, here
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.day.card import care as records
from tracker.safety import STOP_BASIS, STOP_LISTS, Caution, foremost, still_shown


def show(cautions: Iterable[Caution]) -> None:
    """Draw the cautions that were not put away today: one line in sight, the rest behind it, and the way to put them away."""
    wanted = foremost(cautions)
    shown = not_put_away(here(), wanted)
    if shown:
        with st.container(border=True, key="cautions"):
            st.html(said(shown))
            _away(wanted, shown)
    else:
        _away(wanted, shown)


def _away(wanted: tuple[Caution, ...], shown: tuple[Caution, ...]) -> None:
    """Offer to put away what is shown, and to get back what was put away."""
    if len(shown) < len(wanted):
        many = "Cautions" if len(wanted) - len(shown) > 1 else "A caution"
        st.button(
            f"{many} put away until tomorrow: show again", key="cautions_again", type="tertiary", on_click=_show_again
        )
    if shown:
        st.button(
            "Seen, for today", key="cautions_seen", type="tertiary", on_click=_put_away,
            args=([each.key for each in shown],),
        )  # fmt: skip


def not_put_away(now: Here, wanted: Iterable[Caution]) -> tuple[Caution, ...]:
    """Leave out what the member has put away for the day."""
    away = dict.fromkeys(seen.put_away_on(now.log, now.member.id, now.today), now.today)
    return still_shown(wanted, away, now.today)


def said(shown: Iterable[Caution]) -> str:
    """Return cautions as HTML: the line of the first, the others and what they rest on behind it; as `card.js` draws them."""
    rows = records(shown)
    if not rows:
        return ""
    behind = "".join(
        f'<p class="plain caution">{escape(each["text"])} {escape(each["advice"])} <small>({escape(each["basis"])})</small></p>'
        for each in rows
    )
    line = escape(rows[0]["line"])
    return f'<details class="care" id="care"><summary><b>{line}</b> <span>Why</span></summary>{behind}</details>'


def _put_away(keys: list[str]) -> None:
    now = here()
    do(seen.put_away, now.log, now.member.id, keys, now.today)


def _show_again() -> None:
    now = here()
    do(seen.show_again, now.log, now.member.id, now.today)


def stop_signs(cautions: Iterable[Caution] = (), *, open_now: bool = False) -> None:
    """List the signs to stop at, on each page that logs; `open_now` at tests, in first sessions and coming back.

    `cautions` are those that the card above draws: here they are put away for the day, which leaves nothing between two sets.
    """
    wanted = foremost(cautions)
    with st.expander("When to stop", key="stop_signs", icon=":material/front_hand:", expanded=open_now):
        st.markdown("\n\n".join(_signs(each.head, each.signs) for each in STOP_LISTS))
        st.caption(STOP_BASIS)
        if wanted:
            _away(wanted, not_put_away(here(), wanted))


def _signs(head: str, signs: Iterable[str]) -> str:
    return f"**{head}**  \n{' · '.join(signs)}"
