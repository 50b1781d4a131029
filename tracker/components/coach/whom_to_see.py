"""Whom to speak to: maxes that coming loads rest on and that want a look, and who has been away."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, reference_words
from tracker.desk.coach.due import COMING_DAYS, Away, DueTest, away, due_tests
from tracker.prescription.rounding import OLD_WEEKS
from tracker.wording import counted


def show(now: Here, choice: ClassChoice) -> None:
    """Draw both lists for the chosen members."""
    st.header("Maxes that want a look")
    due = due_tests(now.log, choice.member_ids, choice.day)
    if due:
        st.html(f'<table class="class-table">{"".join(_due(each, now) for each in due)}</table>')
        st.caption(
            f"Maxes that loads of the next {COMING_DAYS // 7} weeks refer to, where they are missing, doubtful or older than "
            f"{OLD_WEEKS} weeks. A test settles it, or two hard sets with repetitions in reserve written down; which, is for coach and member to say."
        )
    else:
        st.info("Every max that the coming loads refer to is known, fresh and holds.", icon=":material/check:")
    st.header("Last here")
    st.html(
        f'<table class="class-table">{"".join(_away(each, now) for each in away(now.log, choice.member_ids, choice.day))}</table>'
    )


def _due(each: DueTest, now: Here) -> str:
    known = reference_words(each.known, each.lift, now.today) if each.known else ""
    held = f"▲ {each.held.text}" if each.held else ""
    small = " · ".join(escape(part) for part in (known, held) if part)
    return (
        f'<tr><th scope="row" class="who">{escape(each.member.name)}</th>'
        f"<td>{escape(each.lift.title)}: {escape(each.why)}<br><small>{small}</small></td></tr>"
    )


def _away(each: Away, now: Here) -> str:
    if each.last is None or each.days is None:
        said = "no session yet"
    else:
        ago = "" if each.days < 2 else f", {counted(each.days, 'day')} ago"
        said = f"{day_words(each.last, now.today)}{ago}"
    told = "".join(f"<br><small>{escape(words)}</small>" for words in each.told)
    long = " <b>▲ two weeks or more</b>" if each.long else ""
    return f'<tr><th scope="row" class="who">{escape(each.member.name)}</th><td>{escape(said)}{long}{told}</td></tr>'
