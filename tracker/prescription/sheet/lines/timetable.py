"""The hours of a class that stand at the start of its lines: `18:00 warm-up`, `18:12 back squat`. They are no part of the work."""

from __future__ import annotations

import itertools
import re

_HOUR = re.compile(
    r"^\W*(?:at |um |à |a las )?(?P<h>[5-9]|0[5-9]|1\d|2[0-2])[:.h](?P<m>[0-5]\d)(?:\s?(?:am|pm|h|uhr)\b)?"
    r"(?:\s*(?:-|to|until|till|bis|à|a)\s*\d{1,2}[:.h][0-5]\d(?:\s?(?:am|pm|h|uhr)\b)?)?(?=$|[\s:,)-])\s*[:,)-]*\s*",
    re.IGNORECASE,
)
LEAST_HOURS = 3  # of a timetable; two may be lengths of pieces; design choice
LONGEST = 180  # minutes from the first to the last of them; a running clock of minutes goes on for more; design choice


def timetable_of(texts: list[tuple[int, str]]) -> dict[int, str]:
    """Return lines by their number without the hour that leads them; none where these hours are no timetable.

    They rise from line to line and lie within three hours of a day, so that marks of a running clock (`5:00`, `10:00`,
    `15:00`) and lengths of pieces (`12:00 AMRAP` twice) are none.
    """
    if by_minutes := _of_minutes(texts):
        return by_minutes
    rows = [(number, found, text) for number, text in texts if (found := _HOUR.match(text))]
    minutes = [int(found["h"]) * 60 + int(found["m"]) for _, found, _ in rows]
    if len(minutes) > 1 and minutes[0] == minutes[1] and re.search(r"\d\D+\d{1,2}[:.h]\d\d", rows[0][1][0]):
        minutes = minutes[1:]  # "12:00 to 12:45, Tuesday" above its first hour
    rising = all(one < two for one, two in itertools.pairwise(minutes))
    if len(minutes) < LEAST_HOURS or not rising or minutes[-1] - minutes[0] > LONGEST:
        return {}
    if all(each % 60 == 0 for each in minutes):
        return {}
    return {number: text[found.end() :].strip() for number, found, text in rows}


_MINUTES = re.compile(
    r"^\W*(?:min(?:utes?)? )?(?P<a>\d{1,2})\s?(?:-|–|to)\s?(?P<b>\d{2})(?: ?(?:min(?:utes?)?|'))?\s*[:,)-]*\s+(?=(?:warm|strength|skill|lift|work|wod|met-?con|conditioning|cool|mobility|stretch|technique|finisher|accessor|brief|teams?)[a-z-]*)",
    re.IGNORECASE,
)


def _of_minutes(texts: list[tuple[int, str]]) -> dict[int, str]:
    """Return lines without the minutes of a class that lead them: `0-10 warm-up`, `10-28 strength`, each from where the one before ends, or some minutes later."""
    rows = [(number, found, text) for number, text in texts if (found := _MINUTES.match(text))]
    on = all(0 <= int(two["a"]) - int(one["b"]) <= 5 for (_, one, _), (_, two, _) in itertools.pairwise(rows))
    if len(rows) < 2 or not on or int(rows[0][1]["a"]) > 5:
        return {}
    return {number: text[found.end() :].strip() for number, found, text in rows}
