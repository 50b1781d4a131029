"""Opens a heading of several days into one for each of them: "Mon-Wed-Fri" above lines is that session on each of these days."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.days.weekdays import DAYS, SHORT_DAYS, weekday_of
from tracker.prescription.sheet.lines.line import Line

_DAY = rf"(?:{DAYS})"
# Three days and more with any sign between them; two only with "and" or a stroke, for a line between two is from one to the other
_SAME = re.compile(
    rf"^\W*(?P<a>{_DAY}(?:\s*(?:[-/,&+·]|and|und|et|y)\s*{_DAY}){{2,5}}|{_DAY}\s*(?:[/&+]|and|und|et|y)\s*{_DAY})\s*(?:[:-]\s*|$)(?P<more>.*)$",
    re.IGNORECASE,
)
_ANY_DAY = re.compile(rf"^\W*(?:{DAYS}|{SHORT_DAYS})\b[ .:,-]*(?:$|[:.-])|^\W*(?:week|wk|day|tag)\s*\d", re.IGNORECASE)


def same_days(lines: list[Line]) -> list[Line]:
    """Repeat what stands below a heading of several days, up to the next heading of a day, for each of them."""
    found: list[Line] = []
    place = 0
    while place < len(lines):
        line = lines[place]
        heads = _SAME.match(line.text)
        days = re.findall(_DAY + r"\b", heads["a"], re.IGNORECASE) if heads else []
        if heads is None or len({weekday_of(day) for day in days}) != len(days):
            found.append(line)
            place += 1
            continue
        stop = place + 1
        while stop < len(lines) and not _SAME.match(lines[stop].text) and not _ANY_DAY.match(lines[stop].text):
            stop += 1
        block = lines[place + 1 : stop]
        if heads["more"].strip():
            block = [replace(line, text=heads["more"].strip()), *block]
        if not any(re.search(r"\d", each.text) for each in block):
            found += lines[place:stop]
        else:
            for day in days:
                found += [replace(line, text=f"{day.capitalize()}:", cell=True, day=True), *block]
        place = stop
    return found
