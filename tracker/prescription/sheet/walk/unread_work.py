"""Asks about lines that were kept as words though they look like work: sets with a load, of a lift or of none."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import PieceBlock
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import TextDraft
from tracker.prescription.sheet.walk.state import State
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain

_SETS = frozenset({"setsx", "loadx", "sets", "loadpairx"})
_LOADS = frozenset({"pct", "mass", "atx", "atlist", "loadx", "loadpairx", "rpe", "rir"})


def ask_of_words(walker: State, lines: Sequence[Line], asker: Asker) -> None:
    """Ask of each line that is nothing but a note of the sheet, and tells sets and a load, whether it is to be done."""
    for line in lines:
        roles = walker.roles.get(line.number, [])
        if line.words or not roles or any(role != "note" for role, _ in roles):
            continue
        kinds = {token.kind for token in tokens_of(plain(line.text))}
        beside = any(item is not None and not isinstance(item, TextDraft) for _, item in roles)
        if kinds & _SETS and kinds & _LOADS and not (beside and "name" not in kinds):
            typed = harmless(line.raw).strip()
            choices = (Choice("words", "no, words of the coach"), Choice("work", "yes: to be typed with its lift"))
            asker.choose(f"sets among words: {typed}", line.number, typed, "Is this work to be done?", choices)
    for session in walker.sessions:
        if not session.headed or not session.items or not all(isinstance(item, TextDraft) for item in session.items):
            continue
        for item in session.items:
            assert isinstance(item, TextDraft)
            told = " ".join(item.lines)
            kinds = {token.kind for token in tokens_of(plain(_HOUR.sub("", told)))}
            if item.kind == "note" and kinds & _LENGTHS and not kinds & {"rest"} and not _NO_WORK.search(told):
                choices = (
                    Choice("words", "no, words of the coach"),
                    Choice("work", "yes: to be typed with what is done"),
                )
                asker.choose(f"a day of words: {told}", item.line, told, "Is this work to be done?", choices)


def ask_of_movements(piece: PieceDraft, block: PieceBlock, asker: Asker, typed: str) -> None:
    """Ask where a share of a max was kept among the words of a movement, whose load nobody would reckon then."""
    if piece.explicit or piece.printed:
        return
    for move in block.movements:
        if found := _SHARE.search(move.standard):
            choices = (
                Choice("words", "words of the coach, no load"),
                Choice("load", "a load: to be typed as sets of a lift, or in kg"),
            )
            key = f"beside {move.name}: {found[0].strip()}"
            asker.choose(key, move.line or piece.line, typed, f"Is '{found[0].strip()}' only said beside it?", choices)


_SHARE = re.compile(
    r"(?:@ ?)?\d{2,3}(?:[.,]\d)?(?: ?[-/] ?\d{2,3})? ?%(?! ?(?:effort|speed|pace|intensity))|@ ?\d{2,3}\b(?! ?(?:\"|'|in\b|inch|cm|kg|lb|rpm|spm|w\b|bpm|s\b|sec|min|m\b|/|:))"
)
_LENGTHS = frozenset({"time", "dist", "miles", "cal", "setsxm", "setsxt", "setsx"})
_HOUR = re.compile(r"\b\d{1,2}[:.]\d\d\b|\b\d{1,2} ?(?:h|am|pm|uhr)\b", re.IGNORECASE)
_NO_WORK = re.compile(
    r"\b(?:rest|off|mobility|stretch\w*|yoga|walk|closed?|shut|clos\w+|pm|am|o'?clock|uhr|sleep|massage|travel|weigh)\b",
    re.IGNORECASE,
)
