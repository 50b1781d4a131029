"""What became of each line of a sheet, in words, to stand beside the line as it was typed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from tracker.components.frame.words import first_up, full_day
from tracker.desk.sheet.sheets import SheetPreview
from tracker.prescription.sheet.model import WEEKDAYS, FindMax, Item, LiftBlock, Of, Percent, Session, SetGroup, Text
from tracker.prescription.sheet.piece import Movement, PieceBlock
from tracker.prescription.sheet.written.printing import kind_line, movement_line
from tracker.prescription.sheet.written.said_back import alternative_words, group_words, of_words
from tracker.wording import counted

# How an implement is said in a sheet; where no such word stands beside the lift, it was taken as usual. Common practice.
_SAID = {
    "barbell": r"barbell|\bbb\b|\bbar\b|langhantel|barra|barre", "dumbbells": r"dumbbell|\bdbs?\b|hantel|haltère|mancuerna",
    "dumbbell": r"dumbbell|\bdbs?\b|hantel|haltère|mancuerna", "kettlebell": r"kettlebell|\bkbs?\b|goblet", "kettlebells": r"kettlebell|\bkbs?\b",
    "machine": r"machine|maschine|press", "body": r".", "rings": r"ring", "band": r"band", "ball": r"ball", "sandbag": r"bag", "sled": r"sled",
    "other": r".", "unasked": r".",
}  # fmt: skip
_OF_SAID = r"\d\s*-?\s*rm\b|\bmax|\btm\b|\b1\s*wh\b|heavy|top set|best"
LABELS = {
    "title": "Title", "day": "Day", "lift": "Lift", "sets": "Sets", "piece": "Piece", "movement": "Movement", "option": "Or",
    "words": "Words", "heading": "Heading", "remark": "Remark",
}  # fmt: skip
READ = frozenset({"day", "lift", "sets", "piece", "movement", "option"})  # what a touch can turn into words alone


@dataclass(frozen=True, slots=True)
class Became:
    """A part of what a line became; `taken` says that the line does not say it, `head` that it names what follows."""

    words: str
    taken: bool = False
    head: bool = False


@dataclass
class LineSaid:
    """One line: its number, how it was typed, what kind of thing it is, and what it became."""

    number: int
    typed: str
    kind: str
    became: list[list[Became]] = field(default_factory=list)

    @property
    def blank(self) -> bool:
        return not self.typed.strip()


def lines_said(preview: SheetPreview) -> tuple[LineSaid, ...]:
    """Say of each line of a sheet that is not blank what became of it."""
    made: dict[int, list[tuple[str, list[Became]]]] = {}
    for session in preview.sheet.sessions:
        for line, kind, words in _session(session):
            if (kind, words) not in made.setdefault(line, []):
                made[line].append((kind, words))
    found: list[LineSaid] = []
    for read in preview.lines:
        here = made.get(read.number, [])
        kind = next((each for each, _ in here if each != "day"), "day") if here else _kind(read.role)
        became = [words for _, words in here] or [[Became(_plain(read.role, preview, read.session, read.item))]]
        said = LineSaid(read.number, read.typed, kind, became)
        if not said.blank:
            found.append(said)
    return tuple(found)


def glance(preview: SheetPreview) -> str:
    """Count what was read: 2 lifts with 7 sets, 1 piece."""
    items = [item for session in preview.sheet.sessions for item in session.items]
    lifts = [item for item in items if isinstance(item, LiftBlock)]
    sets = sum(each.sets if isinstance(each, SetGroup) else 1 for lift in lifts for each in lift.sets)
    pieces = sum(isinstance(item, PieceBlock) for item in items)
    days = len(preview.sheet.sessions)
    parts = [
        counted(days, "session") if days > 1 else "", f"{counted(len(lifts), 'lift')} with {counted(sets, 'set')}" if lifts else "",
        counted(pieces, "piece") if pieces else "",
    ]  # fmt: skip
    return first_up(", ".join(part for part in parts if part) or "words alone") + "."


def kept_as_words(preview: SheetPreview) -> str:
    """Count the lines that are no more than the coach's words; empty where there are none."""
    words = sum(line.kind == "words" for line in lines_said(preview))
    return f"{counted(words, 'line')} kept as words" if words else ""


def _session(session: Session) -> Iterator[tuple[int, str, list[Became]]]:
    if day := _day(session):
        yield session.line, "day", [Became(day, head=True)]
    for item in session.items:
        if isinstance(item, LiftBlock):
            yield from _lift(item, f"{session.day_words}: " if session.day_words and session.week else "")
        elif isinstance(item, PieceBlock):
            yield from _piece(item)


def _day(session: Session) -> str:
    if session.on is not None:
        return first_up(f"{WEEKDAYS[session.on.weekday()]} {full_day(session.on)}")
    return first_up(session.day_words)


def _lift(lift: LiftBlock, day: str) -> Iterator[tuple[int, str, list[Became]]]:
    said = implement_said(lift)
    name = [Became(first_up(("in turn with the lift above: " if lift.joined else "") + lift.name), head=True)]
    if lift.implement != "unasked":
        name += [Became(", "), Became(lift.implement, taken=not said)]
    name += [Became(", each side")] if lift.each_side else []
    yield lift.line, "lift", name
    for group in lift.sets:
        if group.line not in (0, lift.line):
            yield group.line, "sets", [*([Became(first_up(day))] if day else []), *_group(group, lift)]
        else:
            yield lift.line, "lift", _group(group, lift)
    for other in lift.alternatives:
        when = f"{other.when}: " if other.when else "or "
        yield other.line or lift.line, "option", [Became(first_up(when + alternative_words(other, lift)))]


def implement_said(lift: LiftBlock) -> bool:
    """Whether the sheet says with what a lift is done; else it was taken as usual."""
    return re.search(_SAID[lift.implement], "\n".join(lift.text).lower()) is not None


def of_said(lift: LiftBlock) -> bool:
    """Whether the sheet says of what its percentages are; else it was taken as usual."""
    return re.search(_OF_SAID, "\n".join(lift.text).lower()) is not None


def _group(group: SetGroup | FindMax, lift: LiftBlock) -> list[Became]:
    words = first_up(group_words(group, lift.of, lift))
    of: Of | None = (
        (group.load.of or lift.of) if isinstance(group, SetGroup) and isinstance(group.load, Percent) else None
    )
    if of is not None and not of_said(lift):
        share = f" of {of_words(of)}"
        before, found, after = words.partition(share)
        if found:
            return [Became(f"{before} "), Became(found.strip(), taken=True), *([Became(after)] if after else [])]
    return [Became(words)]


def _piece(piece: PieceBlock) -> Iterator[tuple[int, str, list[Became]]]:
    head = ", ".join(part for part in (piece.title, kind_line(piece)) if part)
    yield piece.line, "piece", [Became(first_up(head), head=True)]
    for movement in piece.movements:
        yield movement.line or piece.line, "movement", [Became(first_up(movement_words(movement)))]
        for option in movement.options:
            when = f"{option.when}: " if option.when else "or "
            line = option.line or movement.line or piece.line
            yield line, "option", [Became(first_up(when + movement_words(option).removeprefix(when)))]


_SAME_IN_PLURAL = re.compile(r"(?:\bto .*|(?<![-\w])over|s)$")  # "box jump over", and yet step-overs


def movement_words(movement: Movement) -> str:
    """Say a movement as one speaks: 10 wall balls, 9/6 kg; 200 m run."""
    one = movement.count is not None and movement.count.reps == (1,) and not movement.count.step
    counted = (movement.count is not None or movement.sides or movement.most) and movement.measure == "reps"
    name = movement.name if one or not counted or _SAME_IN_PLURAL.search(movement.name) else _plural(movement.name)
    return movement_line(replace(movement, name=name))


def _plural(name: str) -> str:
    if name.endswith(("sh", "ch", "x")):
        return f"{name}es"
    return f"{name[:-1]}ies" if name.endswith("y") and name[-2:-1] not in "aeiou" else f"{name}s"


def _kind(role: str) -> str:
    known = {
        "title": "title",
        "date": "day",
        "day": "day",
        "remark": "remark",
        "clock": "piece",
        "alternative": "option",
        "option": "option",
    }
    return known.get(role, "heading" if role in ("heading", "table heading", "rule") else "words")


_WITHOUT_MORE = {
    "remark": "A remark: members do not see it", "heading": "A heading", "table heading": "Heads of the columns",
    "rule": "A line between two parts", "warm-up": "Warm-up, as written", "cool-down": "Cool-down, as written",
}  # fmt: skip


def _plain(role: str, preview: SheetPreview, session: int, item: int) -> str:
    """Say what became of a line that made nothing of its own."""
    own = _item(preview, session, item)
    said = _WITHOUT_MORE.get(role, "")
    if role == "title":
        said = preview.sheet.title
    elif role == "date" and preview.sheet.starts:
        said = f"From {full_day(preview.sheet.starts)}"
    elif isinstance(own, PieceBlock):
        said = said or (
            first_up(kind_line(own)) if role in ("clock", "piece") else "Kept as the coach's words with the piece"
        )
    elif isinstance(own, LiftBlock):
        said = said or f"Kept as the coach's words with {own.name}"
    elif isinstance(own, Text) and own.kind != "note":
        said = said or _WITHOUT_MORE[own.kind]
    return said or "Kept as the coach's words"


def _item(preview: SheetPreview, session: int, item: int) -> Item | None:
    sessions = preview.sheet.sessions
    if 0 <= session < len(sessions) and 0 <= item < len(sessions[session].items):
        return sessions[session].items[item]
    return None
