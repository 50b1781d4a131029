"""Reads the lines of a conditioning piece: its kind, its movements, and their options."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from lark import Token

from tracker.prescription.sheet import values
from tracker.prescription.sheet.marks import MOST_COUNT, free_words, mark, option
from tracker.prescription.sheet.piece import Count, Movement, PieceKind
from tracker.prescription.sheet.problems import TroubleError

MOST_ROUNDS, MOST_INTERVALS = 500, 500


@dataclass(frozen=True, slots=True)
class Kind:
    """What the second line of a piece says, as the fields of a `Piece`."""

    fields: dict[str, Any]


class PieceReader:
    """The rules of a piece's lines."""

    def listed(self, parts: list[Token]) -> Count:
        return Count(tuple(values.whole(part, MOST_COUNT, "repetitions") for part in parts))

    of_each = listed

    def rise(self, parts: list[Token]) -> Count:
        first, step = values.whole(parts[0], MOST_COUNT, "repetitions"), values.whole(parts[2], MOST_COUNT, "more")
        return Count((first,), step if parts[1].lower().startswith("up") else -step)

    def there_and_back(self, parts: list[Token]) -> Count:
        """Read `2 up by 2 to 10 and back`, the turning point once, or the same downwards."""
        count = self.rise(parts[:3])
        first, end = count.reps[0], values.whole(parts[3], MOST_COUNT, "repetitions")
        rounds, rest = divmod(end - first, count.step)
        if rest or not 0 < rounds <= MOST_ROUNDS:
            raise TroubleError(
                parts[3].column or 1, f"From {first} {parts[1]} {abs(count.step)} it never comes to {end}.",
                "an end that whole steps reach", f"{first} up by {abs(count.step)} to {first + 4 * abs(count.step)} and back",
            )  # fmt: skip
        way = [first + count.step * index for index in range(rounds + 1)]
        return Count((*way, *reversed(way[:-1])))

    def rounds(self, parts: list[Token]) -> Kind:
        return Kind({"rounds": values.whole(parts[0], MOST_ROUNDS, "rounds")})

    def _timed(self, kind: PieceKind, parts: list[Token]) -> Kind:
        return Kind({"kind": kind} | ({"cap_s": values.seconds(parts[0])} if parts else {}))

    def as_many(self, parts: list[Token]) -> Kind:
        return self._timed("as many as possible", parts)

    def for_time(self, parts: list[Token]) -> Kind:
        return self._timed("for time", parts)

    def distance(self, parts: list[Token]) -> Kind:
        return self._timed("distance", parts)

    def calories(self, parts: list[Token]) -> Kind:
        return self._timed("calories", parts)

    def heaviest(self, parts: list[Token]) -> Kind:
        return self._timed("heaviest", parts)

    def unscored(self, parts: list[Token]) -> Kind:
        return self._timed("unscored", parts)

    def every_minute(self, parts: list[Token]) -> Kind:
        return self.every([Token("TIME", "1:00", column=parts[0].column), parts[-1]])

    def every(self, parts: list[Token]) -> Kind:
        """Read intervals without a rest of their own: every 1:30, 8 times; or every 1:30 for 12:00."""
        work, last = values.seconds(parts[0]), parts[1]
        if last.type == "INT":
            number = values.whole(last, MOST_INTERVALS, "intervals")
        else:
            number, over = divmod(values.seconds(last), work)
            if over or not number:
                raise TroubleError(
                    last.column or 1, f"{last} is not a whole number of intervals of {parts[0]}.",
                    "a time that whole intervals fill, or how many there are", f"every {parts[0]}, {number + 1} times",
                )  # fmt: skip
            if number > MOST_INTERVALS:
                raise TroubleError(
                    last.column or 1, f"{number:,} intervals can't be.", f"1 to {MOST_INTERVALS} intervals"
                )
        return Kind({"kind": "every minute", "work_s": work, "intervals": number})

    def work_and_rest(self, parts: list[Token]) -> Kind:
        number = values.whole(parts[0], MOST_INTERVALS, "intervals")
        times = {"work_s": values.seconds(parts[1]), "rest_s": values.seconds(parts[2])}
        return Kind({"kind": "work and rest", "intervals": number} | times)

    def kind(self, parts: list[Kind]) -> Kind:
        return parts[0]

    def cap(self, parts: list[Token]) -> Token:
        return Token("CAP", parts[0], column=parts[0].column)

    def tie(self, parts: list[Token]) -> Kind:
        return Kind({"tie_break": values.name(parts[0])})

    def partners(self, parts: list[Token]) -> Kind:
        return Kind({"partners": values.whole(parts[0], 10, "partners")})

    def kind_line(self, parts: list[Any]) -> Kind:
        """Gather the kind with its options, each once."""
        found: dict[str, Any] = {}
        for part in parts:
            fields = (
                part.fields
                if isinstance(part, Kind)
                else {"scheme": part}
                if isinstance(part, Count)
                else option(part, found)
            )
            if fields.keys() & found.keys():
                what = "The same thing is said twice."
                raise TroubleError(1, what, "rounds, scheme, cap and the like once each")
            found |= fields
        return Kind(found)

    def movement(self, parts: list[Any]) -> Movement:
        """Read a movement with its count and marks; marks of no known form are its standard, in the coach's words."""
        found: dict[str, Any] = {}
        standard: list[str] = []
        for part in parts:
            if isinstance(part, Count):
                found["count"] = part
            elif part.type == "FREE":
                standard.append(free_words(part))
            else:
                fields = mark(part)
                if part.type != "NAME" and fields.keys() & found.keys():
                    what = f"{part.strip()!r} is a second mark of the same kind."
                    raise TroubleError(
                        part.column or 1, what, "one of each; another load in a line below that begins with or"
                    )
                found |= fields
        return Movement(**found, standard=", ".join(standard))

    def movement_line(self, parts: list[Movement]) -> Movement:
        return parts[0]

    option_line = movement_line
