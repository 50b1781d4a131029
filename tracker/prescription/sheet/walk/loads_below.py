"""Reads the loads of movements that are told below them: `wall ball is 9 kg boys 6 kg girls, kettlebell 24 or 16`."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from tracker.prescription.sheet.pieces.draft import PieceDraft, takes_load
from tracker.prescription.sheet.pieces.usual_movements import mass_or_pair, wanted_place
from tracker.prescription.sheet.words.names import known

_AMOUNT = r"\d{1,3}(?:\.\d)?"
_MEN, _WOMEN = r"(?:for )?(?:the )?(?:men|boys|guys|lads|m)", r"(?:for )?(?:the )?(?:women|girls|ladies|f)"
_TOLD = re.compile(
    rf"\W*(?:the )?(?P<w>[a-z][a-z' -]{{1,22}}?)(?: (?:is|are|weighs?|at)|:| ?=| ?@)? (?P<a>{_AMOUNT}) ?(?P<u>kg|lb)?(?: {_MEN})?(?:(?: ?[/,] ?| or | and | )(?P<b>{_AMOUNT}) ?(?P<v>kg|lb)?(?: {_WOMEN})?)?(?: or (?:what|whatever)\b[a-z' ]*| if you .*)?\W*"
)
_IMPLEMENTS = {
    "kettlebell": ("kettlebell",), "kb": ("kettlebell",), "bell": ("kettlebell",), "dumbbell": ("dumbbell", "dumbbells"), "db": ("dumbbell", "dumbbells"),
    "bar": ("barbell",), "barbell": ("barbell",), "ball": ("ball",),
}  # fmt: skip


def loads_below(text: str, piece: PieceDraft, unit: str) -> bool:
    """Take the loads of movements of a piece that have none; False where a part of the sentence tells something else."""
    sentence = re.split(r"(?<!\d)\.(?= |$)|\. (?=[a-z])", text, maxsplit=1)[0]
    parts = [part for part in re.split(r"[,;](?=\s*(?:the )?[a-z])| and (?=(?:the )?[a-z])", sentence) if part.strip()]
    found: dict[int, object] = {}
    for part in parts:
        told = _TOLD.fullmatch(part)
        if told is None:
            return False
        word = told["w"].strip().removesuffix("s")
        kinds = _IMPLEMENTS.get(word)
        meant = wanted_place(told["w"], piece.moves)
        places = (
            [
                at
                for at, move in enumerate(piece.moves)
                if (entry := known(move.name)) is not None and entry.implement in kinds
            ]
            if kinds is not None
            else [meant]
            if meant is not None
            else []
        )
        said = told["u"] or told["v"] or unit
        amounts = [Decimal(each) for each in (told["a"], told["b"]) if each]
        if (
            not places
            or not said
            or any(not 2 <= each <= 200 for each in amounts)
            or (kinds is None and not (told["u"] or told["b"]))
        ):
            return False
        load = mass_or_pair(amounts, said)
        if load is None or any(
            piece.moves[at].load is not None or not takes_load(piece.moves[at].name) for at in places
        ):
            return False
        found |= dict.fromkeys(places, load)
    for at, load in found.items():
        piece.moves[at] = replace(piece.moves[at], load=load)  # type: ignore[arg-type]
    return bool(found)
