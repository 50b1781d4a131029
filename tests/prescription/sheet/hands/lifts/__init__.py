"""Hands that type lifts: from known facts, texts as coaches type them, in every mixture of habits. All invented.

What coaches type here is common practice of the trade, put together by chance from a seed.
"""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.lifts.habits import a_text as a_habit
from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.layout import a_text, typed_lift
from tests.prescription.sheet.hands.lifts.short import a_text as a_short
from tests.prescription.sheet.hands.lifts.signed import a_text as a_signed
from tests.prescription.sheet.hands.lifts.told import a_text as a_told
from tests.prescription.sheet.hands.lifts.tongues import a_text as a_tongue
from tests.prescription.sheet.hands.lifts.truth import a_lift
from tests.prescription.sheet.hands.lifts.voice import a_text as a_voice


def of_seed(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """A text of one to three sessions, with its facts."""
    hand = Hand(seed)
    text, gold = a_text(hand, hand.random.choice((1, 1, 1, 2, 3)))
    return hand, text, gold


def of_one_lift(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """A single lift: what goes wrong is laid to its own choices alone."""
    hand = Hand(seed)
    lift = a_lift(hand)
    text = "\n".join(typed_lift(hand, lift)) + "\n"
    return hand, text, {"sessions": [{"day": None, "items": [lift.gold()]}], "asks": []}


def of_voice(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts that are said in one breath."""
    hand = Hand(seed)
    text, gold = a_voice(hand)
    return hand, text, gold


def of_tongue(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts of a German, French or Spanish hand, or in an English mail."""
    hand = Hand(seed)
    text, gold = a_tongue(hand)
    return hand, text, gold


def of_told(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts whose sets are told in parts: by minute, one after the other, for groups, put right."""
    hand = Hand(seed)
    text, gold = a_told(hand)
    return hand, text, gold


def of_habit(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts that hang on one habit: the day in the first words, what is held, openers, holds, tables without a title."""
    hand = Hand(seed)
    text, gold = a_habit(hand)
    return hand, text, gold


def of_short(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts in lifters' shorthand, with slips, several things on one line, and what is put right."""
    hand = Hand(seed)
    text, gold = a_short(hand)
    return hand, text, gold


def of_signed(seed: int) -> tuple[Hand, str, dict[str, Any]]:
    """Lifts in which a sign means something else: strokes, numbers of sets, what is less, what is put right."""
    hand = Hand(seed)
    text, gold = a_signed(hand)
    return hand, text, gold
