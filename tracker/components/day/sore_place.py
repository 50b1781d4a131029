"""Something hurts, or the day is a limited one: said in a touch, answered with offers, ended by the member's word alone."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.day import sore, sore_choice, told
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.sore import ACHES, ILL, LIMITED, PLACES, Offer, Place
from tracker.desk.day.today import DayPlan
from tracker.log.records import LiftRecord
from tracker.prescription import illness
from tracker.prescription.body_parts import CLINICIAN, NO_DIAGNOSIS, STOP, Other

ASKED = "sore_place"
CHOSE = {"leave": "left out", "keep": "done as planned", "instead": "replaced"}


def show(now: Here, plan: DayPlan) -> None:
    """Draw what hurts with its offers, where something does."""
    if not plan.sore.limited:
        return
    with st.container(border=True, key="sore"):
        for place, since in plan.sore.since.items():
            _place(now, place, day_words(since, now.today), plan.day)
        if plan.sore.ill:
            _ill(now, plan)
            return
        if plan.sore.aches:
            _aches(now, plan)
        _tell(now, plan)
        for offer in plan.sore_offers:
            _offer(now, offer)
        lines = sore.in_piece([task.movement for row in plan.open_pieces for task in row.piece.tasks], plan.sore)
        if lines:
            st.html("".join(f'<p class="plain note">In the piece: {escape(line)}</p>' for line in lines))
        for name in sorted(plan.sore.painful - {each.lift.name.casefold() for each in plan.sore_offers}):
            st.html(f'<p class="plain">{escape(first_up(name))} is marked as painful.</p>')
        if set(plan.sore.since) != {ACHES} or plan.sore.painful:
            _signs()


def _ill(now: Here, plan: DayPlan) -> None:
    st.html(f'<p class="plain note"><b>{escape(illness.OFFERED)}</b></p>')
    body = "".join(f"<li>{escape(each)}</li>" for each in (*illness.STOP, *illness.CLINICIAN))
    st.html(f'<ul>{body}</ul><p class="plain small">{escape(illness.STATUS)} Only you see this.</p>')
    if not told.is_told_ill(plan.choices):
        st.button(
            "Tell the coach that I am ill", key="tell_ill", on_click=touch,
            args=(told.tell_ill, now.log, now.member.id, plan.sore.since[ILL], plan.day),
            kwargs={"said": "The coach sees that you are ill and since when, nothing else"},
        )  # fmt: skip


def _tell(now: Here, plan: DayPlan) -> None:
    """Offer to tell the coach of a limit, each by a touch of its own; what was told ends with it."""
    known = told.limits_told(plan.choices)
    for place, since in plan.sore.since.items():
        if place in known or place == ILL:
            continue
        st.button(
            f"Tell the coach: {told.SAID_LIMIT.get(place, f'sore {place}').lower()}", key=f"tell_{place}", on_click=touch,
            args=(told.tell_limit, now.log, now.member.id, place, since, plan.day),
            kwargs={"said": "The coach sees this and since when, until you say that it is over"},
        )  # fmt: skip
    for place in known:
        st.html(f'<p class="plain small">The coach was told: {escape(told.SAID_LIMIT.get(place, place).lower())}.</p>')


def _aches(now: Here, plan: DayPlan) -> None:
    st.html(f'<p class="plain note">{escape(sore.ACHES_SAID)}</p>')
    eased = bool(plan.sore.easier(plan.day))
    st.button(
        "Loads as planned" if eased else f"{sore.EASIER} % lower today", key="aches_ease", on_click=touch,
        args=(sore.ease, now.log, now.member.id, plan.day), kwargs={"easier": not eased, "said": "As planned" if eased else "Lower today"},
    )  # fmt: skip


def _place(now: Here, place: Place, since: str, day: date) -> None:
    said = {LIMITED: "A limited day", ACHES: "Muscles ache", ILL: "Ill"}.get(place, f"Sore: {place}")
    with st.container(key=f"row_sore_{place}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        st.html(f'<p class="plain"><b>{said}</b>, since {since}</p>')
        st.button(
            "I am well again" if place == ILL else "It is good again", key=f"sore_end_{place}", on_click=touch,
            args=(sore.end, now.log, now.member.id, place, day), kwargs={"said": "Good again"},
        )  # fmt: skip


def _offer(now: Here, offer: Offer) -> None:
    chosen = f" Now: {CHOSE[offer.way.how]}." if offer.way else ""
    st.html(f'<p class="plain note"><b>{escape(offer.words)}</b>{escape(chosen)}</p>')
    if offer.way is not None:
        _way(now, offer.lift, "As planned again", "keep", offer)
        return
    _way(now, offer.lift, "Leave it out", "leave", offer)
    for other in offer.others:
        _way(now, offer.lift, f"{first_up(other.name)} instead", "instead", offer, other)
    if not offer.painful:
        _way(now, offer.lift, "Do it as planned", "keep", offer)
    _pain(now, offer.lift, painful=offer.painful)


def _way(now: Here, lift: LiftRecord, label: str, how: sore.How, offer: Offer, other: Other | None = None) -> None:
    said = {"leave": f"{first_up(lift.name)} is left out", "keep": f"{first_up(lift.name)} is as planned"}
    st.button(
        label, key=f"sore_{how}_{lift.id}_{other.name if other else ''}", width="stretch", on_click=touch,
        args=(sore_choice.choose, now.log, now.member.id, lift.id, how),
        kwargs={"other": other, "said": said.get(how, f"{first_up(other.name)} instead" if other else "")},
    )  # fmt: skip


def _pain(now: Here, lift: LiftRecord, *, painful: bool) -> None:
    label = "It hurts no more" if painful else "It hurts: no load for it"
    said = "No more marked as painful" if painful else "Marked as painful: no load is proposed for it"
    st.button(
        label, key=f"sore_pain_{lift.id}", width="stretch", on_click=touch,
        args=(sore.mark_painful, now.log, now.member.id, lift.id), kwargs={"painful": not painful, "said": said},
    )  # fmt: skip


def _signs() -> None:
    body = "".join(f"<li>{escape(each)}</li>" for each in (*STOP, *CLINICIAN))
    st.html(
        f"<details open><summary>When to stop, and when to see a clinician</summary><ul>{body}</ul>"
        f'<p class="plain small">{escape(NO_DIAGNOSIS)} Only you see this.</p></details>'
    )


def ask(now: Here, plan: DayPlan) -> None:
    """Let the member say what is sore; closed as long as nobody opens it."""
    box = st.expander("Something hurts, muscles ache, ill, or a limited day", key="sore_ask", on_change="rerun")
    if not box.open:
        return
    with box:
        st.caption("The day then offers to leave out or to replace what loads it. It ends when you say so.")
        with st.container(horizontal=True, gap="small"):
            for place in PLACES:
                if place not in plan.sore.since:
                    st.button(
                        first_up(place), key=f"sore_begin_{place}", on_click=touch,
                        args=(sore.begin, now.log, now.member.id, place, plan.day), kwargs={"said": "The day offers other ways"},
                    )  # fmt: skip
        if plan.lines:
            st.caption("A movement that hurts gets no load, with whatever it is done:")
            with st.container(horizontal=True, gap="small"):
                for lift in dict.fromkeys(line.lift for line in plan.lines):
                    if not plan.sore.is_painful(lift.name):
                        st.button(
                            first_up(lift.name), key=f"sore_mark_{lift.id}", on_click=touch,
                            args=(sore.mark_painful, now.log, now.member.id, lift.id),
                            kwargs={"said": f"{first_up(lift.name)}: no load is proposed for it"},
                        )  # fmt: skip


def card(now: Here, line: PlannedLine, plan: DayPlan) -> None:
    """Stand in place of the buttons of a set whose lift was marked as painful, or of somebody ill: nothing is proposed."""
    if plan.sore.ill:
        return  # the way out stands with the signs beneath
    with st.container(horizontal=True, gap="small"):
        st.button(
            "Leave it out", key="painful_leave", type="primary", on_click=touch,
            args=(sore_choice.choose, now.log, now.member.id, line.lift.id, "leave"),
            kwargs={"said": f"{first_up(line.lift.name)} is left out"},
        )  # fmt: skip
        st.button(
            "It hurts no more", key="painful_end", on_click=touch,
            args=(sore.mark_painful, now.log, now.member.id, line.lift.id),
            kwargs={"painful": False, "said": "No more marked as painful"},
        )  # fmt: skip
