"""Who needs attention: one line a member, the most load at stake first; and who has been away."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, reference_words
from tracker.desk.coach.due import COMING_DAYS, Away, DueTest, away, due_tests
from tracker.prescription.rounding import OLD_WEEKS
from tracker.strength.when_to_test import QUIET_DAYS
from tracker.wording import counted


def show(now: Here, choice: ClassChoice) -> None:
    """Draw who needs attention among the chosen members, and behind a touch why, and when each was last here."""
    due = due_tests(now.log, choice.member_ids, choice.day)
    last = away(now.log, choice.member_ids, choice.day)
    st.header("Maxes to look at")
    if due:
        by_member: dict[str, list[DueTest]] = {}
        for each in due:
            by_member.setdefault(each.member.id, []).append(each)
        st.html(
            '<p class="plain small class-soft">What the heaviest coming set would change by</p>'
            f'<table class="class-table">{"".join(map(_line, by_member.values()))}</table>'
        )
        with st.expander("Why, and what would settle it", key="coach_why", icon=":material/help:"):
            st.html("".join(_why(each, now) for each in due))
            st.caption(
                f"Maxes that loads of the next {COMING_DAYS // 7} weeks refer to, where they are missing, doubtful or older "
                f"than {OLD_WEEKS} weeks; none for {QUIET_DAYS // 7} weeks after a test. The change is that of the heaviest "
                "coming set, if the max were today's estimate. Whether and what to test is for coach and member to say."
            )
    else:
        st.info("Every max that the coming loads refer to is known, fresh and holds.", icon=":material/check:")
    _absent(last, now)


def _line(found: list[DueTest]) -> str:
    """One member: what has the most at stake, and how many more there are."""
    first, more = found[0], len(found) - 1
    what = f"{first.lift.name}: no {first.reps}RM," if first.known is None else first.lift.name
    also = f"and {counted(more, 'more lift')}" if more else ""
    much = f"<b>{escape(first.much)}</b>" if first.rank[0] < 3 else escape(first.much)
    held = " ▲" if first.held else ""
    return (
        f'<tr><th scope="row" class="who">{escape(first.member.name)}{held}</th>'
        f"<td>{escape(first_up(what))} {much}<small>{escape(also)}</small></td></tr>"
    )


def _why(each: DueTest, now: Here) -> str:
    known = first_up(reference_words(each.known, each.lift, now.today)) + "." if each.known else ""
    held = f"▲ {each.held.text}" if each.held else each.settle
    said = " ".join(part for part in (each.why, known, held) if part)
    return f'<p class="plain class-why"><b>{escape(each.member.name)}, {escape(each.lift.title)}</b> {escape(said)}</p>'


def _absent(last: tuple[Away, ...], now: Here) -> None:
    gone, others = (
        [each for each in last if each.long or each.told],
        [each for each in last if not (each.long or each.told)],
    )
    if gone:
        st.header("Two weeks away or more" if all(each.long for each in gone) else "Away, or told you something")
        st.html(f'<table class="class-table">{"".join(_away(each, now) for each in gone)}</table>')
    if others:
        label = "Last here" if gone else "Last here: nobody is away for two weeks"
        with st.expander(label, key="coach_last", icon=":material/event_available:"):
            st.html(f'<table class="class-table">{"".join(_away(each, now) for each in others)}</table>')


def _away(each: Away, now: Here) -> str:
    if each.last is None or each.days is None:
        said = "no session yet"
    else:
        ago = "" if each.days < 2 else f", {counted(each.days, 'day')} ago"
        said = f"{first_up(day_words(each.last, now.today))}{ago}"
    told = "".join(f"<small>{escape(words)}</small>" for words in each.told)
    mark = "▲ " if each.long else ""
    return f'<tr><th scope="row" class="who">{escape(each.member.name)}</th><td>{mark}{escape(said)}{told}</td></tr>'
