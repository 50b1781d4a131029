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
