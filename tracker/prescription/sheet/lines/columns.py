"""Tables whose columns have titles: the row of a lift becomes one line, as it would be typed without a table.

A title says what its column holds: the lift, sets, repetitions, load, effort, rest, tempo, remarks, the day, a label; or a
week, and then each week has its own sets. Columns are parted by strokes, tabs, semicolons, or three and more spaces.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

_ROLES: tuple[tuple[str, str], ...] = (
    ("both", r"sets? ?(?:x|/|×|\*|&|and|,) ?reps?|s ?x ?r|scheme|volume|sätze ?x ?wdh\.?|séries ?x ?reps|series ?x ?reps|prescription|set[s-]? ?rep scheme"),
    ("name", r"exercises?|(?:main |main-)?lifts?|main|movements?|übung(?:en)?|uebung|ejercicio|exercice|exercise name|name|what"),
    ("sets", r"(?:work(?:ing)? ?)?sets?|sätze?|saetze|séries?|series|# ?sets"),
    ("reps", r"reps?|repetitions?|wdhl?\.?|wiederholungen|répétitions?|repeticiones|reps?/set"),
    ("percent", r"% ?(?:of )?(?:1 ?rm|max|tm|5 ?rm|3 ?rm)?|percent|prozent|%-?age|pct"),
    ("rpe", r"rpe"),
    ("rir", r"rir|reserve|reps? in reserve"),
    ("unit", r"units?|einheit|unidad|unité|unità"),
    ("kg", r"kgs?|kilos?"),
    ("lb", r"lbs?|pounds?"),
    ("load", r"loads?|weights?|intensity|effort|intensität|intensidad|intensité|gewicht|last|charge|carga|peso|load/effort|@"),
    ("rest", r"rest(?: ?(?:time|between|s|sec|min))?(?: ?/ ?notes?)?|pausen?|descanso|repos|récup(?:ération)?|recovery"),
    ("tempo", r"tempo|kadenz"),
    ("day", r"day|tag|día|dia|jour|when|wann"),
    ("label", r"block|order|#|no\.?|nr\.?|group|part|teil|station"),
    ("more", r"accessor(?:y|ies)|assistance|then|extras?|plus|second(?:ary)? lift|second|finisher|conditioning|wod|metcon"),
    ("way", r"easier|harder|easy|hard|regressions?|progressions?|scaled?|scaling|home|beginners?|advanced|option|alternatives?"),
    ("note", r"notes?|comments?|remarks?|cues?|focus|bemerkung(?:en)?|notas?|info"),
)  # fmt: skip
_TITLES = tuple((role, re.compile(rf"(?:{pattern})", re.IGNORECASE)) for role, pattern in _ROLES)
_WEEK = re.compile(r"(?:w|wk|week|woche|semana|semaine|s)\.? ?(?P<n>\d{1,2})", re.IGNORECASE)
_RULE = re.compile(r"^[\s|+:=-]*[-=]{2,}[\s|+:=-]*$")
_EMPTY = re.compile(r"[-–—./\s]*|n/?a|bw|bodyweight|body weight|none|kg", re.IGNORECASE)
_NUMBERS = re.compile(r"\d+(?:[.,]\d+)?(?:\s*[-/]\s*\d+(?:[.,]\d+)?)*\+?")
# Columns of a table below the name of a lift, one row a set; "set" above numbers counts them, "sets" says how many
_OF_ONE_LIFT = frozenset(
    {"sets", "label", "reps", "percent", "kg", "lb", "load", "rpe", "rir", "rest", "tempo", "note"}
)
_NUMBER_OF_SET = re.compile(r"set|satz|serie|série|#|no\.?|nr\.?", re.IGNORECASE)
Cells = Callable[[str], list[str]]


@dataclass(frozen=True)
class Columns:
    """The titles of a table: the role of each column, and how its rows are parted."""

    roles: tuple[str, ...]
    titles: tuple[str, ...]
    cells: Cells
    numbered: bool = False  # its sets are told by their numbers: 1-3, 4-6, 7-10

    def of_rows(self, rows: Sequence[str]) -> Columns:
        """The same columns, which know by the rows whether "sets" counts them or says how many there are."""
        if "sets" not in self.roles:
            return self
        place = self.roles.index("sets")
        spans = [
            re.fullmatch(r"(\d{1,2})(?: ?[-–] ?(\d{1,2}))?", (self.cells(row) + [""] * 9)[place].strip())
            for row in rows
        ]
        at, ranged = 0, False
        for span in spans:
            if span is None or int(span[1]) != at + 1:
                return self
            at, ranged = int(span[2] or span[1]), ranged or span[2] is not None
        return replace(self, numbered=True) if ranged and len(spans) > 1 else self

    @property
    def weeks(self) -> list[int]:
        return [place for place, role in enumerate(self.roles) if role == "week"]


@dataclass(frozen=True)
class Row:
    """One row, as a line: the day, label and lift that it names, and its sets."""

    day: str
    label: str
    name: str
    sets: str
    more: str = ""  # what is done besides, of another lift
    ways: tuple[tuple[str, str], ...] = ()  # other ways of it, with the titles of their columns

    @property
    def line(self) -> str:
        head = f"{self.label}. {self.name}" if self.label else self.name
        return f"{head}: {self.sets}" if self.sets and head else head or self.sets


def _numbered_weeks(titles: list[str]) -> list[str]:
    """`Wk1 | Wk2 | Wk3 | Deload`: the last one is a week too."""
    weeks = [int(found["n"]) for title in titles if (found := _WEEK.fullmatch(title))]
    last = re.fullmatch(
        r"(?:deload|test|taper|peak|retest|max)(?: week| wk| day)?", titles[-1] if titles else "", re.IGNORECASE
    )
    return [*titles[:-1], f"Week {max(weeks) + 1}"] if len(weeks) > 1 and last else titles


def _named_first(cells: Cells) -> Cells:
    """Cells of which the first holds the lift and its sets: parted before its first number."""

    def parted(text: str) -> list[str]:
        first, *rest = cells(text)
        found = re.match(r"(?P<n>\D*[^\W\d][^\d]*?)[\s:,-]*(?=\d)(?P<s>.*)$", first)
        return [found["n"].strip(), found["s"], *rest] if found else [first, *rest]

    return parted


def _pipes(text: str) -> list[str]:
    return [cell.strip() for cell in text.strip().removeprefix("|").removesuffix("|").split("|")]


def _tabs(text: str) -> list[str]:
    return [cell.strip() for cell in text.rstrip().split("\t")]


def _semicolons(text: str) -> list[str]:
    return [cell.strip() for cell in text.split(";")]


def _commas(text: str) -> list[str]:
    return [cell.strip() for cell in text.split(",")]


def _spaces(text: str) -> list[str]:
    return re.split(r"\s{2,}", text.strip())


def _below(head: str) -> Cells:
    """Cells that stand below the titles of a line; those of a line that is not in step are parted by its spaces."""
    starts = [found.start() for found in re.finditer(r"(?:(?<=\s\s)|^)\S", head.rstrip())]
    if starts and starts[0] >= 6:
        starts = [0, *starts]  # the first column has no title
    elif starts:
        starts[0] = 0

    def cells(text: str) -> list[str]:
        if any(0 < at < len(text) and text[at - 1] not in " " for at in starts):
            return _spaces(text)
        ends = [*starts[1:], len(text)]
        return [text[start:end].strip() for start, end in zip(starts, ends, strict=True)]

    return cells


def ways_to_part(head: str) -> Iterator[Cells]:
    """The ways in which a row of titles may be parted, each as what parts the rows below it."""
    for parted, sign in ((_pipes, "|"), (_tabs, "\t"), (_semicolons, ";"), (_commas, ","), (_spaces, "  ")):
        if sign in head.strip(" |"):
            yield _below(head) if parted is _spaces else parted


def columns_of(text: str) -> Columns | None:
    """Return the columns where a line is a row of titles; None where it is none.

    Args:
        text: The line as typed; tabs are needed.
    """
    for cells in ways_to_part(text):
        titles = _numbered_weeks([re.sub(r"[*_`]", "", cell).strip() for cell in cells(text)])
        roles = tuple(_role(title) for title in titles)
        known = [role for role in roles if role]
        weeks = known.count("week")
        if weeks >= 2 and weeks == len(titles):  # "Week 1 | Week 2" above "Squat 5x5 @ 70 % | 5x4 @ 75 %"
            return Columns(("name", *roles), ("", *titles), _named_first(cells))
        if weeks >= 2 and weeks + 1 >= len(titles):
            return Columns(("name", *roles[1:]), tuple(titles), cells)
        if (
            len(titles) >= 2
            and "name" in known
            and {"both", "sets", "reps"} & set(known)
            and 4 * len(known) >= 3 * len(titles)
        ):
            return Columns(roles, tuple(titles), cells)
        if (
            len(titles) >= 2
            and all(roles)
            and "reps" in known
            and set(known) & {"percent", "kg", "lb", "load", "rpe"}
            and set(known) <= _OF_ONE_LIFT
        ):
            numbered = tuple(
                "label" if role == "sets" and _NUMBER_OF_SET.fullmatch(title) else role
                for role, title in zip(roles, titles, strict=True)
            )
            return Columns(numbered, tuple(titles), cells)
        if len(titles) >= 3 and roles[0] in ("", "note", "day") and all(roles[1:]) and _of_sets(roles[1:]):
            return Columns(("name", *roles[1:]), tuple(titles), cells)  # the day, or nothing, above the lifts
    return None


def _of_sets(roles: tuple[str, ...]) -> bool:
    return "name" not in roles and ("both" in roles or {"sets", "reps"} <= set(roles))


def _role(title: str) -> str:
    if _WEEK.fullmatch(title):
        return "week"
    return next(
        (role for role, pattern in _TITLES if pattern.fullmatch(title.strip(" .:()"))), "note" if title == "" else ""
    )


def is_rule(text: str) -> bool:
    return _RULE.match(text) is not None


def row_of(columns: Columns, text: str, clean: Callable[[str], str]) -> Row | None:
    """Return a row of a table of lifts; None where the line is none of its rows."""
    cells = [clean(cell).strip() for cell in columns.cells(text)]
    if len(cells) < 2 or len(cells) > len(columns.roles) + 1:
        return None
    found: dict[str, str] = {}
    ways: list[tuple[str, str]] = []
    for role, title, told in zip(columns.roles, columns.titles, cells, strict=False):
        cell = _how_many(told) if columns.numbered and role == "sets" else told
        if role == "way":
            if cell.strip(" -–—"):
                ways.append((title, cell))
            continue
        if cell and role and not _EMPTY.fullmatch(cell):
            typed = _typed(role, title, cell)
            found[role] = f"{found[role]}, {typed}" if role in found else typed
    if "unit" in columns.roles:
        _with_unit(found, dict(zip(columns.roles, cells, strict=False)))
    name = found.get("name", "")
    if "name" not in columns.roles:
        return Row("", "", "", _sets(found)) if found.get("reps") or found.get("both") else None
    if not name or not any(sign.isalpha() for sign in name):
        return None
    return Row(
        found.get("day", ""),
        found.get("label", ""),
        name.replace(",", " "),
        _sets(found),
        found.get("more", ""),
        tuple(ways),
    )


def _how_many(numbers: str) -> str:
    """How many sets their numbers are: `4-6` are three."""
    span = re.fullmatch(r"(\d+) ?[-–] ?(\d+)", numbers)
    return str(int(span[2]) - int(span[1]) + 1) if span else "1"


def _with_unit(found: dict[str, str], cells: dict[str, str]) -> None:
    """Put the unit of a row to its load: 72.5 and %1RM, 80 and kg."""
    unit, load = cells.get("unit", "").strip().lower(), cells.get("load", "")
    found.pop("unit", None)
    if not _NUMBERS.fullmatch(load):
        return
    if unit.startswith("%"):
        of = re.sub(r"^%\s*(?:of\s*)?", "", unit)
        found["load"] = f"{load} % of {of}" if of else f"{load} %"
    elif re.fullmatch(r"(?:kg|lb)s?", unit):
        found["load"] = f"{load} {unit[:2]}"


def _typed(role: str, title: str, cell: str) -> str:
    """A cell with what its title says of it: 82.5 below "%" is 82.5 %."""
    bare = _NUMBERS.fullmatch(cell) is not None
    if role == "percent" and bare:
        of = re.sub(r"^% ?(?:of )?", "", title, flags=re.IGNORECASE) if title.startswith("%") else ""
        return f"{cell} % of {of}" if of else f"{cell} %"
    if role in ("kg", "lb") and bare:
        return f"{cell} {role}"
    if role in ("rpe", "rir") and bare:
        return f"{role.upper()} {cell}"
    if role == "rest":
        if bare:
            seconds = re.search(r"\bs(?:ec)?\b", title, re.IGNORECASE) or float(_first(cell)) >= 20
            return f"rest {cell} {'s' if seconds else 'min'}"
        return cell if re.match(r"rest\b", cell, re.IGNORECASE) else f"rest {cell}"
    if role == "tempo":
        return f"tempo {cell}"
    return cell


def _first(cell: str) -> str:
    return re.match(r"\d+(?:[.,]\d+)?", cell)[0].replace(",", ".")  # type: ignore[index]


def _sets(found: dict[str, str]) -> str:
    both, sets, reps = found.get("both", ""), found.get("sets", ""), found.get("reps", "")
    work = both
    if sets and reps:
        work = (
            reps
            if re.search(r"\d ?[x×*] ?\d", reps)
            else f"{sets} x {reps}"
            if sets[-1:].isdigit()
            else f"{sets}, {reps}"
        )
    elif sets or reps:
        work = reps if reps else sets
        if sets and sets.isdigit():
            work = f"{sets} sets"
        elif reps and not sets and reps.isdigit():
            work = f"1 x {reps}"
    loads = [found[role] for role in ("percent", "kg", "lb", "load") if role in found]
    efforts = [found[role] for role in ("rpe", "rir") if role in found]
    rest = [found[role] for role in ("tempo", "rest", "note") if role in found]
    at = f" @ {loads[0]}" if loads and loads[0][:1].isdigit() else f", {loads[0]}" if loads else ""
    return ", ".join(each for each in (work + at, *loads[1:], *efforts, *rest) if each)


def week_rows(
    columns: Columns, rows: Sequence[tuple[int, str]], clean: Callable[[str], str]
) -> list[tuple[int, list[tuple[int, str]]]]:
    """Return, for each week of a table with weeks as columns, the lines of its lifts, each with the number of its row.

    Args:
        columns: The titles.
        rows: The rows: their place, as typed.
        clean: How a cell is cleaned.
    """
    found: list[tuple[int, list[tuple[int, str]]]] = []
    for place in columns.weeks:
        number = int(_WEEK.fullmatch(columns.titles[place])["n"])  # type: ignore[index]
        lines: list[tuple[int, str]] = []
        for at, text in rows:
            cells = [clean(cell).strip() for cell in columns.cells(text)]
            if len(cells) > place and not _EMPTY.fullmatch(cells[place]) and cells[0]:
                lines.append((at, f"{cells[0].rstrip(':')}: {cells[place]}"))
        found.append((number, lines))
    return found


_HEAD_OF_PIECE = re.compile(
    r"\b(?:amrap|e\d?mom|for time|rft|tabata|rounds? (?:for|of)|\d+ rounds?|every \d)\b", re.IGNORECASE
)
_SETS_OF_LIFT = re.compile(r"\d ?[x×] ?\d|%|\brpe\b|^\d{1,2}$", re.IGNORECASE)
_TITLE_OF_PIECE = re.compile(r"\W*(?:wod|met-?con|conditioning|workout|finisher|cardio)\W*", re.IGNORECASE)
_WEEKDAY = re.compile(
    r"\W*(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun|mo|di|mi|do|fr|sa|so)(?:day|tag)?\W*", re.IGNORECASE
)
_MINUTE = re.compile(
    r"^(?P<m>(?:min(?:ute)?|m) ?\d{1,2}(?: ?[/+&-] ?\d{1,2})*|odd|even)\s*[:.-]\s*(?P<rest>.+)$", re.IGNORECASE
)


WARM_UP = re.compile(r"\W*(?:w/?u|warm(?:ing)?[ -]?up)\W*", re.IGNORECASE)  # the label of a row


def head_of_piece(row: Row) -> str | None:
    """Return the heading of a piece that stands in a row: in its name, or in a cell beside "Metcon"; None for other rows."""
    beside = row.sets.strip()
    if _HEAD_OF_PIECE.search(row.name) and not _SETS_OF_LIFT.search(beside):
        return f"{row.name}, {beside}" if beside else row.name
    if _TITLE_OF_PIECE.fullmatch(row.name) and _HEAD_OF_PIECE.search(beside):
        return re.sub(r"^(?P<k>amrap|e\d?mom) ?x ?", r"\g<k> ", beside, flags=re.IGNORECASE)
    return None


def day_alone(columns: Columns, text: str, clean: Callable[[str], str]) -> str | None:
    """Return the weekday of a row that holds nothing else."""
    told = [cell for cell in map(clean, columns.cells(text)) if cell.strip()]
    return told[0].strip() if len(told) == 1 and _WEEKDAY.fullmatch(told[0]) else None


def movement_of(columns: Columns, text: str, clean: Callable[[str], str]) -> str:
    """Return a row below the heading of a piece as a movement is typed: amount, name, load."""
    told = dict(zip(columns.roles, map(clean, columns.cells(text)), strict=False))
    name = told.pop("name", "").strip()
    minute = _MINUTE.match(name)
    told["name"] = minute["rest"] if minute else name
    parts = (told.get(role, "").strip() for role in ("reps", "both", "name", "load", "percent", "kg", "lb", "note"))
    words = " ".join(part for part in parts if part and not _EMPTY.fullmatch(part))
    return f"{minute['m']}: {words}" if minute else words
