"""Sets and loads that a line tells beside its own: of another day, of a best, or as the other of two that may be done."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.words.letters import harmless

_X = r"\d{1,2} ?[x×] ?\d{1,3}"
_SETS = re.compile(_X, re.IGNORECASE)
_CLAUSE = r"(?:[^,;.()]|(?<=\d)[.,](?=\d))*"
# "..., last time we did 5x5 @ 70 %", "..., next week 4x8 @ 62.5 kg": sets of another day behind those of this one
_OTHER_DAY = re.compile(
    rf"[,;.(–-]\s*(?:but |and )?(?:(?:last|previous|next) (?:time|week|month|session)|yesterday|gestern|letzte woche|nächste woche|hier\b(?! ?:)|la semaine (?:dernière|prochaine)|ayer|la semana (?:pasada|que viene))\b(?! ?\+){_CLAUSE}?{_X}{_CLAUSE}\)?",
    re.IGNORECASE,
)
# "My best is 180 kg": no load of these sets
_BEST = re.compile(
    rf"(?:^|[,;.(–-])\s*(?:my|your|his|her|our|current|mein|meine|mon|mi) (?:current |old |all-time |5RM |3RM )?(?:best|pr|pb|record|max|1RM|bestleistung|marca)\b(?! ?%)[^,;.()\d]{{0,16}}\d{{2,3}}(?:[.,]5)? ?(?:kg|lb)?{_CLAUSE}\)?",
    re.IGNORECASE,
)
# "(last year: 5 rounds)", "(my score: 7+4)": what came of it
_RESULT = re.compile(
    r"\(\s*(?:(?:last|previous) (?:year|time|month)|my (?:score|time|best|result)|pr|pb|record|letztes (?:jahr|mal))\b(?! ?\+)[^()+]*\d[^()]*\)",
    re.IGNORECASE,
)
# What was done the day before, said at the start of a line
_YESTERDAY = re.compile(
    rf"^\W*(?:yesterday|gestern|ayer)\b:?{_CLAUSE}?{_X}(?:[^.;]|(?<=\d)\.(?=\d))*[.;]?\s*", re.IGNORECASE
)
# "5x5 or 3x8 @ 70 %": one of two
_EITHER = re.compile(
    rf"^(?P<head>[^\d]*?)(?P<one>{_X}(?P<load>(?: ?(?:@|at|mit|à) ?)?\d[\d.]*(?:-\d[\d.]*)? ?(?:%|kg|lb))?),? (?:or|oder|ou|o) (?P<two>{_X}(?P<other>(?: ?(?:@|at|mit|à))? ?\d[\d.]*(?:-\d[\d.]*)? ?(?:%|kg|lb))?)(?P<rest>.*)$",
    re.IGNORECASE,
)


def told_beside(lines: list[Line], asker: Asker) -> list[Line]:
    """Return the lines with what they only tell beside their sets as words of their own."""
    return [part for line in lines for part in (_parted(line, asker) if _told(line) else [line])]


def _told(line: Line) -> bool:
    return not line.words and (
        _RESULT.search(line.text) is not None
        or _SETS.search(line.text) is not None
        or _BEST.search(line.text) is not None
    )


def _parted(line: Line, asker: Asker) -> list[Line]:
    words: list[Line] = []
    text = line.text
    if (found := _YESTERDAY.match(text)) is not None:
        words.append(_said(line, found[0]))
        text = text[found.end() :]
    for pattern in (_OTHER_DAY, _BEST, _RESULT):
        if (found := pattern.search(text)) and (pattern is not _OTHER_DAY or _SETS.search(text[: found.start()])):
            words.append(_said(line, found[0]))
            text = f"{text[: found.start()]} {text[found.end() :]}".strip()
    if (found := _EITHER.match(text)) is not None:
        text = _one_of_two(line, found, asker)
        words.append(_said(line, found[0][len(found["head"]) :]))
    if not words:
        return [line]
    return [replace(line, text=text), *words] if any(map(str.isalnum, text)) else words


def _said(line: Line, told: str) -> Line:
    return replace(line, text=told.strip(" ,;.()–-"), words=True, cell=True)


def _one_of_two(line: Line, found: re.Match[str], asker: Asker) -> str:
    one = found["one"] if found["load"] else found["one"] + (found["other"] or "")
    told = [" ".join(each.split()) for each in (one, found["two"])]
    code = asker.choose(
        f"one of two: {told[0]}, {told[1]}",
        line.number,
        harmless(line.raw).strip(),
        "Which of the two is done?",
        (
            Choice("first", f"{told[0]}; the other stays as words"),
            Choice("second", f"{told[1]}; the other stays as words"),
        ),
    )
    rest = found["rest"] if re.match(r"\s*[,;.)]", found["rest"]) else ""
    return f"{found['head']}{told[0] if code == 'first' else told[1]}{rest}"
