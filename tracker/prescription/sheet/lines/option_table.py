"""Tables of a piece with a column for each way of doing it: `# | Rx | Scaled | Home`, a row for each movement.

A row becomes the line that would be typed without a table: `12 wall balls 9/6 kg (scaled: wall balls 6/4 kg; home: air
squats)`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_MAIN = re.compile(
    r"rx(?:'?d|x)?|as (?:written|prescribed)|prescribed|standard|full|main|class|performance", re.IGNORECASE
)
_OTHER = re.compile(
    r"scal(?:ed?|ing|es)|sc|home|at home|beginners?|intermediate|foundations?|fitness|masters|easier|lighter|modified|mod|no (?:kit|gear|equipment|bar|rig)|travel|hotel|level [1-4]|l[1-4]",
    re.IGNORECASE,
)
_COUNT = re.compile(r"#|reps?|count|number|no\.?|nr\.?|how many|amount|wdh\.?|", re.IGNORECASE)
_NAME = re.compile(r"movements?|exercises?|what|", re.IGNORECASE)
_AMOUNT = re.compile(r"\d{1,4}(?:/\d{1,4})?(?: ?(?:m|cals?|s|sec|min))?", re.IGNORECASE)
_LOAD_ALONE = re.compile(
    r"@? ?\d{1,3}(?:[.,]\d+)?(?: ?/ ?\d{1,3}(?:[.,]\d+)?)? ?(?:kg|lbs?|#|cm|in|\")?", re.IGNORECASE
)
_COUNTED = re.compile(
    r"\d{1,4}(?:/\d{1,3})? ?(?!(?:kgs?|lbs?|cm|in)\b)[^\W\d_]", re.IGNORECASE
)  # "8 wall balls": its own count
_SAME = re.compile(r"(?:same|as rx|rx|=|[-–—.]|n/?a)?", re.IGNORECASE)


@dataclass(frozen=True)
class OptionColumns:
    """Which column holds what is asked, which the other ways with their titles, which the count or the name."""

    main: int
    others: tuple[tuple[int, str], ...]
    first: int  # the column of counts or names; -1 where there is none

    def line(self, text: str) -> str:
        """Return a row as one line; empty where it names no movement."""
        cells = _cells(text)
        if len(cells) <= self.main:
            return ""
        first = cells[self.first] if 0 <= self.first < len(cells) else ""
        main = _told(first, cells[self.main])
        told = [
            f"{title}: {_told('' if _AMOUNT.fullmatch(first) else first, cells[place])}"
            for place, title in self.others
            if place < len(cells) and not _SAME.fullmatch(cells[place])
        ]
        if not re.search(r"[^\W\d_]{2}", main):
            return ""
        return f"{main} ({'; '.join(told)})" if told else main


def option_columns(text: str) -> OptionColumns | None:
    """Return the columns where a line is a row of such titles; None where it is none."""
    titles = _cells(text)
    main = [place for place, title in enumerate(titles) if title and _MAIN.fullmatch(title)]
    others = tuple((place, title.lower()) for place, title in enumerate(titles) if title and _OTHER.fullmatch(title))
    left = [place for place in range(len(titles)) if place not in main and place not in dict(others)]
    if len(main) != 1 or not others or len(left) > 1:
        return None
    if left and not (left[0] == 0 and (_COUNT.fullmatch(titles[0]) or _NAME.fullmatch(titles[0]))):
        return None
    return OptionColumns(main[0], others, left[0] if left else -1)


def _cells(text: str) -> list[str]:
    if "|" in text:
        parts = text.strip().removeprefix("|").removesuffix("|").split("|")
    else:
        parts = text.rstrip().split("\t") if "\t" in text else re.split(r"\s{3,}", text.strip())
    return [re.sub(r"[*_`]", "", part).strip() for part in parts]


def _told(first: str, cell: str) -> str:
    """Put a count or a name with what stands in a cell: `12` and `wall balls`, `wall ball` and `9/6 kg`."""
    if not first:
        return cell
    if _AMOUNT.fullmatch(first):
        return cell if _COUNTED.match(cell) else f"{first} {cell}"
    if _SAME.fullmatch(cell):
        return first
    if _LOAD_ALONE.fullmatch(cell) and not _AMOUNT.fullmatch(cell):
        return f"{first} {cell}"
    return f"{cell} {first}" if _AMOUNT.fullmatch(cell) else cell
