"""Turns the parse tree of one line into what it says; what can't be is a `TroubleError` at its column."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from lark import Lark, Token, Transformer

from tracker.prescription.sheet import values
from tracker.prescription.sheet.line_parts import (
    Day,
    Heading,
    Rest,
    Sets,
    Tempo,
    Week,
    lift_field,
    with_note,
    with_tempo,
)
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    LiftBlock,
    Load,
    Of,
    Percent,
    Reps,
    Rpe,
    SetGroup,
)
from tracker.prescription.sheet.piece_reading import PieceReader
from tracker.prescription.sheet.printing import set_line
from tracker.prescription.sheet.problems import TroubleError
from tracker.units import Mass  # fmt: skip

STARTS = (
    "title_line", "date_line", "note_line", "piece_line", "session_line", "lift_line", "sets_line",
    "alternative_line", "kind_line", "movement_line", "option_line",
)  # fmt: skip


@cache
def parser() -> Lark:
    """Make the parser of all line kinds, once."""
    grammar = Path(__file__).with_name("sheet.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", start=list(STARTS), maybe_placeholders=False)


class LineReader(PieceReader, Transformer[Token, Any]):
    """Reads every kind of line; methods are named after the rules of the grammar."""

    def title_line(self, parts: list[Token]) -> str:
        return parts[0].strip()

    note_line = piece_line = title_line

    def date_line(self, parts: list[Token]) -> date:
        return values.day(parts[0])

    def week(self, parts: list[Token]) -> Week:
        return Week(values.whole(parts[0], values.MOST_WEEKS, "as a week"))

    def day(self, parts: list[Token]) -> Day:
        return Day(values.whole(parts[0], values.MOST_DAYS, "as a day of the week"))

    def session_line(self, parts: list[Any]) -> Heading:
        found: dict[str, Any] = {}
        for part in parts:
            if isinstance(part, Week):
                found["week"] = part.number
            elif isinstance(part, Day):
                found["day"] = part.number
            elif part.type == "WEEKDAY":
                found["weekday"] = values.weekday(part)
            elif part.type == "DATE":
                found["on"] = values.day(part)
            else:
                found["title"] = part.strip()
        return Heading(**found)

    def of(self, parts: list[Token]) -> Of:
        return Of(values.rep_max(parts[0]), values.name(parts[1]) if len(parts) > 1 else "")

    def rest(self, parts: list[Token]) -> Rest:
        return Rest(values.seconds(parts[0]), parts[0].column or 1)

    def tempo(self, parts: list[Token]) -> Tempo:
        return Tempo(values.tempo(parts[0]), parts[0].column or 1)

    def superset(self, _parts: list[Token]) -> bool:
        return True

    def lift_line(self, parts: list[Any]) -> LiftBlock:
        """Gather a lift with its options, each once."""
        names: list[str] = []
        found: dict[str, Any] = {}
        for part in parts:
            if isinstance(part, Token) and part.type == "NAME":
                names.append(values.name(part))
                continue
            fields = lift_field(part)
            if fields.keys() & found.keys():
                raise TroubleError(1, "The same thing is said twice.", "rep-max, rest, tempo and side once each")
            found |= fields
        return LiftBlock(tuple(names), **found)

    def once(self, parts: list[Token]) -> Reps:
        return Reps((_reps(parts[0]),))

    def out(self, parts: list[Token]) -> Reps:
        return Reps((_reps(parts[0]),), out=True)

    def span(self, parts: list[Token]) -> Reps:
        low, high = _reps(parts[0]), _reps(parts[1])
        if high <= low:
            raise TroubleError(
                parts[1].column or 1,
                f"{high} is not more than {low}.",
                "a range from fewer to more",
                f"3 x {high} to {low}",
            )
        return Reps((low,), high)

    def parts(self, parts: list[Token]) -> Reps:
        """Read one number for each movement of a complex, together no more than a set can have."""
        numbers = [part for part in parts if part.type == "INT"]
        if sum(_reps(part) for part in numbers) > values.MOST_REPS:
            what = "These are more repetitions than a set can have."
            raise TroubleError(numbers[0].column or 1, what, f"at most {values.MOST_REPS} together")
        return Reps(tuple(_reps(part) for part in parts if part.type == "INT"))

    def percent(self, parts: list[Any]) -> Percent:
        amount = values.decimal(parts[0], values.MOST_PERCENT, "%")
        return Percent(amount, parts[2] if len(parts) > 2 else None)

    def rpe(self, parts: list[Token]) -> Rpe:
        value = values.decimal(parts[0], 10, "as an RPE")
        if value < 1 or value * 2 != int(value * 2):
            raise TroubleError(parts[0].column or 1, f"RPE {parts[0]} can't be.", "RPE 1 to 10, halves allowed")
        return Rpe(value)

    def mass(self, parts: list[Token]) -> Mass:
        return values.mass(parts[0], parts[1])

    def reserve(self, parts: list[Token]) -> InReserve:
        value = Decimal(parts[0].replace(",", "."))
        if value > 10 or value * 2 != int(value * 2):
            raise TroubleError(parts[0].column or 1, f"{value} in reserve can't be.", "0 to 10, halves allowed")
        return InReserve(value)

    def group(self, parts: list[Any]) -> SetGroup:
        sets, reps, *load = parts
        number = values.whole(sets, values.MOST_SETS, "sets")
        found: Load | None = load[0] if load else None
        if reps.out and number > 1:
            before = set_line(SetGroup(number - 1, Reps(reps.parts), found))
            raise TroubleError(
                sets.column or 1, f"Which of the {number} sets goes on past {reps.total}?", "1 set before a rep-out set",
                f"{before}, {set_line(SetGroup(1, reps, found))}",
            )  # fmt: skip
        return SetGroup(number, reps, found)

    def find(self, parts: list[Token]) -> FindMax:
        return FindMax(values.rep_max(parts[0]), values.seconds(parts[1]) if len(parts) > 1 else None)

    def sets(self, parts: list[Any]) -> Sets:
        """Gather the groups of a line; a rest or tempo belongs to those before it, back to a semicolon, that have none."""
        done: list[SetGroup | FindMax] = []
        groups: list[SetGroup | FindMax] = []
        for part in parts:
            if isinstance(part, SetGroup | FindMax):
                groups.append(part)
            elif isinstance(part, Rest):
                groups = [replace(each, rest_s=each.rest_s or part.seconds) for each in groups]
            elif isinstance(part, Tempo):
                groups = [with_tempo(each, part) for each in groups]
            elif part.type == "SEMICOLON":
                done, groups = done + groups, []
            else:
                groups[-1] = with_note(groups[-1], part)
        return Sets(tuple(done + groups))

    def sets_line(self, parts: list[Sets]) -> tuple[SetGroup | FindMax, ...]:
        return parts[0].groups

    def alternative_line(self, parts: list[Any]) -> Alternative:
        found: dict[str, Any] = {"rule": "own"}
        for part in parts:
            if isinstance(part, Sets):
                found["sets"] = part.groups
            elif part.type == "NAME":
                found["lift"] = values.name(part)
            elif part.type == "IMPLEMENT":
                found["implement"] = values.implement(part)
            else:
                found["rule"] = "doubled" if part.type == "DOUBLED" else "same"
        return Alternative(**found)


def _reps(token: Token) -> int:
    return values.whole(token, values.MOST_REPS, "repetitions")
