"""What a percentage of a lift of the body is of: asked at the set where the sheet leaves it open, and changed by a touch."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here, here
from tracker.components.frame.words import load_words
from tracker.desk.day import body_percent
from tracker.desk.day.lines import PlannedLine
from tracker.log.records import LiftRecord
from tracker.prescription.body_share import BodyShare


def ask(line: PlannedLine, day: date) -> None:
    """Offer both, each with what it comes to, where nobody said which is meant."""
    if line.body_ways:
        with st.container(key="body_percent", gap="small"):
            for of, made in line.body_ways:
                words = load_words(made.load, line.lift) if made else ""
                _button(here(), line.lift, of, day, body_percent.label(of, words))


def other(line: PlannedLine, day: date) -> None:
    """Offer the other one, where the member said it before."""
    basis = line.of.basis if line.of else None
    if basis is not None and basis.by == "as you said":
        other: BodyShare = "whole" if basis.of == "added" else "added"
        _button(here(), line.lift, other, day, f"It is of {body_percent.OF[other]}", quiet=True)


def choice(now: Here, lift: LiftRecord, of: BodyShare) -> None:
    """Offer the other one beside loads of any percentages."""
    other: BodyShare = "whole" if of == "added" else "added"
    _button(now, lift, other, now.today, f"Take it of {body_percent.OF[other]}", quiet=True)


def _button(now: Here, lift: LiftRecord, of: BodyShare, day: date, label: str, *, quiet: bool = False) -> None:
    st.button(
        label, key=f"percent_of_{of}", on_click=touch, args=(body_percent.say, now.log, now.member.id, lift.id, of, day),
        kwargs={"said": f"Kept for {lift.name}: percentages are of {body_percent.OF[of]}"},
        type="tertiary" if quiet else "secondary",
    )  # fmt: skip
