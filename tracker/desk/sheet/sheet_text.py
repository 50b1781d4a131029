"""A sheet's text as the log keeps it: as it was typed, with what was answered of it in remarks at its end.

So it reads the same later, whatever is answered then. A remark is a line of the sheet itself, which nobody else is shown;
whoever sees the text can read it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

_ANSWER = re.compile(r"--\s*read as:\s*(?P<key>.+?)\s*=\s*(?P<code>[^=]+?)\s*")
_DAY = re.compile(r"--\s*read on:\s*(?P<day>\d{4}-\d{2}-\d{2})\s*")


@dataclass(frozen=True, slots=True)
class Noted:
    """A sheet's text without these remarks, the answers in them, and the day from which a date without a year was counted."""

    text: str
    answers: Mapping[str, str] = field(default_factory=dict[str, str])
    day: date | None = None


def noted(text: str, answers: Mapping[str, str], day: date | None = None) -> str:
    """Write what was answered below a sheet."""
    plain = without(text)
    lines = [f"-- read as: {key} = {code}" for key, code in sorted(answers.items()) if "\n" not in key + code]
    lines += [f"-- read on: {day.isoformat()}"] if day else []
    return "\n".join([plain.rstrip("\n"), *lines]) + "\n" if lines else plain


def without(text: str) -> str:
    """Return a sheet's text without such remarks."""
    return split(text).text


def split(text: str) -> Noted:
    """Take the answers out of a sheet's text."""
    if "-- read" not in text:
        return Noted(text)
    answers: dict[str, str] = {}
    day: date | None = None
    kept: list[str] = []
    for line in text.split("\n"):
        if found := _ANSWER.fullmatch(line.strip()):
            answers[found["key"]] = found["code"]
        elif found := _DAY.fullmatch(line.strip()):
            day = _day(found["day"])
        else:
            kept.append(line)
    return Noted("\n".join(kept), answers, day)


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
