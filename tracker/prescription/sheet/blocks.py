"""Puts the lines of a sheet together: sets under their lift, movements under their piece, all under their session."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from tracker.prescription.sheet import checks
from tracker.prescription.sheet.days import Days
from tracker.prescription.sheet.lines import Line
from tracker.prescription.sheet.model import Alternative, Item, LiftBlock, Session, Sheet, Text, TextKind
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.problems import Problem, SheetErrors
from tracker.prescription.sheet.slips import looks_like_sets, stray
from tracker.prescription.sheet.unknown_lines import looks_like_a_movement, unknown

Read = Callable[[Line, str], Any]
BROKEN = "broken"  # a line above could not be read: sets under it are read for their own problems only
BROKEN_PIECE = "broken piece"  # the same, and any line may be one of its movements


class Builder:
    """The sheet as far as it has been read."""

    def __init__(self, read: Read) -> None:
        self._read = read
        self._problems: list[Problem] = []
        self._title, self._starts, self._starts_line = "", None, 0
        self._notes: list[str] = []
        self._sessions: list[Session] = []
        self._items: list[Item] = []
        self._days = Days()
        self._unread = False  # something of this session could not be read
        self._open: LiftBlock | Text | PieceDraft | str | None = None

    def take(self, line: Line) -> None:
        """Take the next line."""
        try:
            getattr(self, f"_take_{line.kind or 'other'}")(line)
        except SheetErrors as err:
            self._problems += err.problems
            self._unread = True
            if line.kind in ("lift", "piece"):
                self._close()
                self._open = BROKEN if line.kind == "lift" else BROKEN_PIECE

    def finish(self) -> tuple[Sheet, list[Problem]]:
        """Return the sheet and all its problems."""
        self._end_session()
        self._problems += self._days.finish(self._sessions, self._starts, self._starts_line)
        if not self._sessions and not self._problems:
            self._problems.append(
                Problem(1, 1, "There is no session.", "a lift, a piece or a warm-up", checks.EXAMPLE_LIFT)
            )
        return Sheet(tuple(self._sessions), self._title, self._starts, tuple(self._notes)), self._problems

    # headings

    def _take_blank(self, _line: Line) -> None:
        if isinstance(self._open, Text) and self._open.lines:
            self._close()

    def _take_comment(self, line: Line) -> None:
        pass

    def _take_title(self, line: Line) -> None:
        self._end_text()
        if self._title:
            self._complain(
                line, "The sheet has a title already.", "one title", "Note: " + line.text.partition(":")[2].strip()
            )
        self._title = self._read(line, "title_line")

    def _take_date(self, line: Line) -> None:
        self._end_text()
        if self._starts is not None:
            self._complain(line, "The sheet has a date already.", "one date of the first session", "")
        found: date = self._read(line, "date_line")
        self._starts, self._starts_line = found, line.number

    def _take_note(self, line: Line) -> None:
        note = self._read(line, "note_line")
        self._end_text()
        if isinstance(self._open, LiftBlock):
            self._open = replace(self._open, notes=(*self._open.notes, note))
        elif isinstance(self._open, PieceDraft):
            self._open.notes.append(note)
        elif self._days.begun or self._items:
            self._item(Text("note", (note,), line.number))
        elif not isinstance(self._open, str):
            self._notes.append(note)

    def _end_text(self) -> None:
        if isinstance(self._open, Text):
            self._close()

    def _take_text(self, line: Line) -> None:
        self._close()
        words = line.raw.partition(":")[2] if ":" in line.raw else line.raw.partition("：")[2]
        kind: TextKind = "warm-up" if line.text.lower().startswith("w") else "cool-down"
        self._open = Text(kind, (words.strip(),) if words.strip() else (), line.number)

    def _take_session(self, line: Line) -> None:
        self._end_session()
        try:
            self._problems += self._days.heading(self._read(line, "session_line"), line)
        except SheetErrors:
            self._days.unread(line)
            raise

    def _take_lift(self, line: Line) -> None:
        above = self._open
        self._close()
        joined = line.label > 1
        lift: LiftBlock = self._read(line, "lift_line")
        lift = replace(lift, joined=lift.joined or joined, line=line.number, sets=_on(lift.sets, line))
        before = self._items[-1] if self._items else None
        if lift.joined and not isinstance(before, LiftBlock) and not isinstance(above, str):
            self._complain(
                line, "There is no lift above to take turns with.", "a lift above a superset", checks.EXAMPLE_LIFT
            )
        self._open = lift

    def _take_piece(self, line: Line) -> None:
        self._close()
        self._open = PieceDraft(self._read(line, "piece_line"), line.number)

    # lines that hang on what stands above them

    def _take_other(self, line: Line) -> None:
        if isinstance(self._open, Text):
            self._more_text(self._open, line)
        elif isinstance(self._open, LiftBlock):
            self._under_lift(self._open, line)
        elif isinstance(self._open, PieceDraft):
            self._open.take(line, self._read)
        elif line.text.lower().startswith("or "):
            if self._open is None:
                self._open = BROKEN
                self._complain(
                    line,
                    "Nothing stands above that this could replace.",
                    "a lift or a movement above it",
                    checks.EXAMPLE_LIFT,
                )
        elif looks_like_sets(line.text):
            self._read(line, "sets_line")
            if self._open is None:
                self._problems.append(stray(line))
                self._open = BROKEN
        elif self._open != BROKEN_PIECE:
            self._open = BROKEN_PIECE if looks_like_a_movement(line) else BROKEN
            self._problems.append(unknown(line))

    def _more_text(self, text: Text, line: Line) -> None:
        if looks_like_sets(line.text) and "@" in line.text:
            self._complain(
                line, f"These sets stand in the text of the {text.kind}.",
                "an empty line and the lift before its sets, or a word before them if they are text", f"then {line.text}",
            )  # fmt: skip
        self._open = replace(text, lines=(*text.lines, line.words))

    def _under_lift(self, lift: LiftBlock, line: Line) -> None:
        if line.text.lower().startswith("or "):
            other: Alternative = self._read(line, "alternative_line")
            other = replace(other, line=line.number, sets=_on(other.sets, line))
            self._open = replace(lift, alternatives=(*lift.alternatives, other))
        elif looks_like_sets(line.text):
            found = self._or_mark(lift, lambda: self._read(line, "sets_line"))
            self._open = replace(lift, sets=(*lift.sets, *_on(found, line)))
        else:
            self._close()
            self._open = BROKEN_PIECE if looks_like_a_movement(line) else BROKEN
            self._problems.append(unknown(line))

    def _or_mark(self, lift: LiftBlock, read: Callable[[], Any]) -> Any:
        """Read sets; where that fails the lift is taken as having some, so that it is not said to have none."""
        try:
            return read()
        except SheetErrors:
            self._open = replace(lift, sets=(*lift.sets, checks.UNREAD))
            raise

    # closing

    def _complain(self, line: Line, what: str, expected: str, example: str) -> None:
        raise SheetErrors((Problem(line.number, line.offset + 1, what, expected, example, line.words),))

    def _close(self) -> None:
        done, self._open = self._open, None
        if isinstance(done, LiftBlock):
            self._problems += checks.of_lift(done)
            self._item(done)
        elif isinstance(done, PieceDraft):
            piece, problems = done.finish()
            self._problems += problems
            if piece is not None:
                self._item(piece)
            else:
                self._unread = True
        elif isinstance(done, Text):
            if done.lines:
                self._item(done)
            else:
                what = f"Nothing stands after {done.kind.capitalize()}."
                self._problems.append(
                    Problem(done.line, 1, what, "its text", f"{done.kind.capitalize()}: 5 minutes easy row")
                )

    def _item(self, item: Item) -> None:
        self._days.item(item.line)
        self._items.append(item)

    def _end_session(self) -> None:
        self._unread = self._unread or isinstance(self._open, str)
        self._close()
        session, problems = self._days.end(tuple(self._items), broken=self._unread)
        self._problems += problems
        if session is not None:
            self._sessions.append(session)
        self._items, self._unread = [], False


def _on(sets: Any, line: Line) -> Any:
    return tuple(replace(each, line=line.number) for each in sets)
