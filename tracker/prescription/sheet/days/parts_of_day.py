"""Which part of a day a session is of, where a day has several: morning and evening, AM and PM, an hour, session 2."""

from __future__ import annotations

import re

from tracker.prescription.sheet.days.weekdays import HOUR

PARTS = (
    r"(?:early )?morning|forenoon|noon|midday|lunch(?:time)?|afternoon|evening|night|a\.m\b\.?|p\.m\b\.?|am|pm"
    r"|früh|morgens?|vormittags?|mittags?|nachmittags?|abends?|matin|midi|après-midi|soir|mañana|tarde|noche"
)
_SESSION = r"(?: (?:session|class|workout|training|einheit))?"
# Alone on a line or behind a day: "AM:", "Morning session", "(pm)"
ALONE = re.compile(rf"\W*(?:the )?(?P<part>{PARTS}){_SESSION}\W*", re.IGNORECASE)
# Before what is done then: "AM: back squat 5x5", "PM - bench press 4x8"
LEADS = re.compile(rf"[\s(\[-]*(?P<part>{PARTS}){_SESSION}[)\]]*\s*(?::|[–-]\s)\s*(?=\S)", re.IGNORECASE)
_FIRST = re.compile(rf"(?P<part>{PARTS})(?![\w-])|session (?P<n>\d)\b", re.IGNORECASE)
_HOUR = re.compile(r"\D{0,4}(?P<h>\d{1,2})(?:[:.h](?P<m>\d\d))?\s*(?P<half>am|pm)?", re.IGNORECASE)
_AT = (
    (6, ("am", "a.m", "früh", "morgen", "morning", "early", "forenoon", "vormittag", "matin", "mañana")),
    (12, ("noon", "midday", "lunch", "mittag", "midi")),
    (15, ("afternoon", "nachmittag", "après-midi", "tarde")),
    (18, ("pm", "p.m", "evening", "abend", "soir", "night", "noche")),
)  # fmt: skip


def rank(words: str) -> float:
    """Return how late in a day words begin that name a part of it, in hours or by the number of a session; 0 for others.

    >>> rank("Morning"), rank("PM, bench"), rank("Session 2"), rank("18:30"), rank("6 pm"), rank("Heavy day")
    (6, 18, 2, 18.5, 18.0, 0)
    """
    if found := _FIRST.match(words):
        if found["n"]:
            return int(found["n"])
        lower = found["part"].lower()
        return next((hour for hour, names in _AT if lower.startswith(names)), 0)
    hour = _HOUR.match(words) if HOUR.match(words) else None
    if hour is None:
        return 0
    late = 12 if (hour["half"] or "").lower() == "pm" and int(hour["h"]) < 12 else 0
    return int(hour["h"]) + late + int(hour["m"] or 0) / 60


def is_later(now: str, before: str) -> bool:
    """Whether a session is of a later part of the day than the one before it on the sheet."""
    return rank(now) > rank(before)


def with_part(part: str, title: str) -> str:
    """Return a title that begins with the part of the day: two sessions of one day are told apart by it."""
    if not part or rank(title):
        return title
    named = part.strip(" .,:-()[]·@").replace("a.m", "am").replace("p.m", "pm")
    named = named.upper() if len(named) == 2 else named[:1].upper() + named[1:]
    return f"{named}, {title}" if title else named
