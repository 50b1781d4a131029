"""What has been read of a sheet so far, and how items, notes and roles are added to it."""

from __future__ import annotations

import re
from typing import Any

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.days.sections import Section
from tracker.prescription.sheet.lifts.sets_found import Scene
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import lettered, numbered
from tracker.prescription.sheet.lines.windows import windows_of
from tracker.prescription.sheet.model import Percent
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.walk.drafts import Defaults, LiftDraft, SessionDraft, TextDraft
from tracker.prescription.sheet.words.letters import clean, harmless
from tracker.units import Mass

_UNIT = re.compile(r"\d\s*(?:kg|lb|kilo)", re.IGNORECASE)
_SIGN = re.compile(r"%|per ?cent", re.IGNORECASE)


def _has(pattern: re.Pattern[str], lines: list[str]) -> bool:
    return any(pattern.search(line) for line in lines)


class State:
    """What has been read of a sheet so far."""

    def __init__(self, lines: list[Line], asker: Asker, defaults: Defaults) -> None:
        self.lines, self.asker, self.defaults = lines, asker, defaults
        self.title, self.starts = "", None
        self.notes: list[str] = []
        self.sessions: list[SessionDraft] = []
        self.session = SessionDraft()
        self.open: LiftDraft | PieceDraft | TextDraft | None = None
        self.section: Section = ""
        self.kit = ""  # the one implement that a line above says everybody has
        self.gap = False  # a blank line stands directly above
        self.label = ""
        self.roles: dict[int, list[tuple[str, Any]]] = {}
        self.join_next = False
        self.at = 0
        self.week: int | None = None
        self.numbered = numbered(lines)
        self.lettered = lettered(lines)
        self.windows = windows_of([(line.number, line.text) for line in lines])
        self.team: dict[str, Any] = {}  # how many do what stands under the running clock together
        self.target: Any = None  # what scaled lines and options belong to
        self.level = -1  # which movement the next line of a scaled or home block stands for; -1: told by its name
        self.prose = False
        self.later = ""  # the sentences behind the one that is read, on the same line
        self.percent_near = self.mass_near = False  # the sheet has percentages, loads with units
        self.row_of_loads = False
        self.took = False
        self.block_sets = 0  # how many sets a line above asks of each lift below it, up to the next blank line
        self.block_rest: int | None = None  # how long that line says to rest
        self.clock_above: PieceDraft | None = None  # the clock on which the sets of each day below begin
        self.above: LiftDraft | None = None  # the lift without sets under whose name a warm-up stands
        self.remarks: list[str] = []
        self.hinted: dict[str, Any] = {}  # how the next piece is done, from words above it

    @property
    def open_lift(self) -> LiftDraft | None:
        return self.open if isinstance(self.open, LiftDraft) else None

    @property
    def open_piece(self) -> PieceDraft | None:
        return self.open if isinstance(self.open, PieceDraft) else None

    @property
    def unit(self) -> str:
        """The unit of loads that stand without one."""
        return self.defaults.unit or "kg"

    def _last_item(self) -> LiftDraft | PieceDraft | None:
        """The last lift or piece of the session."""
        return next((item for item in reversed(self.session.items) if not isinstance(item, TextDraft)), None)

    def _words_below(self) -> str:
        """The next line, where no more than one blank line stands before it; else nothing."""
        return next((other.text.strip() for other in self.lines[self.at + 1 : self.at + 3] if not other.blank), "")

    def _role(self, line: Line, role: str, item: Any = None) -> None:
        if role in ("lift", "sets", "piece", "movement"):
            self.gap = False
        self.roles.setdefault(line.number, []).append((role, item))

    def _end_text(self) -> None:
        if isinstance(self.open, TextDraft):
            self.open = None

    def _keep_words(self, line: Line, words: str) -> None:
        item = self.open if isinstance(self.open, LiftDraft | PieceDraft) else None
        if item is not None:
            item.notes.append(words)
        self._role(line, "note", item)

    def _scene(self, line: Line) -> Scene:
        """What stands around sets: where a rep-max is in force, a number without a sign is rather a percentage of it."""
        lift = self.open_lift
        in_force = lift is not None and (lift.percents or (lift.of is not None and lift.of.percent is None))
        return Scene(
            self.asker,
            line.number,
            harmless(line.raw).strip(),
            self.defaults.unit,
            self.percent_near or in_force,
            self.mass_near and not in_force,
            self.row_of_loads,
            self.defaults.all_mass
            or (
                lift is not None
                and any(isinstance(getattr(each, "load", None), Mass) for each in lift.groups)
                and _has(_UNIT, lift.text)
            ),
            lift is not None
            and (in_force or any(isinstance(getattr(each, "load", None), Percent) for each in lift.groups))
            and (lift.percents or _has(_SIGN, lift.text)),
            tuple(lift.groups) if lift is not None else (),
            lift is not None and (lift.strict or len(lift.names) > 1),
            f" of the {lift.of.reps}RM" if in_force and lift is not None and lift.of is not None else "",
        )

    def _about(self, line: Line, item: LiftDraft | PieceDraft) -> None:
        item.notes.append(harmless(line.raw).strip())
        item.text.append(line.raw.rstrip())
        self._role(line, "note", item)

    def _item(self, item: LiftDraft | PieceDraft | TextDraft) -> None:
        if not self.session.line:
            self.session.line = item.line
        self.session.items.append(item)
        self.open = item

    def _moved(self, old: Any, new: Any) -> None:
        for roles in self.roles.values():
            for place, (role, item) in enumerate(roles):
                if item is old:
                    roles[place] = (role, new)

    def _remove(self, item: Any) -> None:
        if item in self.session.items:
            self.session.items.remove(item)

    def _new_text(self, kind: Any, line: Line, words: str, *, explicit: bool = False) -> TextDraft:
        raw = harmless(line.raw).strip()
        colon = re.match(r"^(?!\W*\d{1,2}[:.]\d\d\b)[^:：]{0,40}[:：]\s*(.*)$", raw)
        after = (
            colon[1].strip() if colon and (not words.strip() or clean(colon[1]).strip() == clean(words).strip()) else ""
        )
        draft = TextDraft(kind, line.number, [after] if after else [raw] if words.strip() else [], explicit)
        self._item(draft)
        self._role(line, kind, draft)
        return draft

    def _note(self, line: Line, words: str) -> None:
        words = harmless(words).strip()
        item = self.open
        if isinstance(item, LiftDraft | PieceDraft) and not self.gap:
            item.notes.append(words)
            item.text.append(line.raw.rstrip())
            self._role(line, "note", item)
            return
        if isinstance(item, TextDraft) and item.kind == "note":
            item.lines.append(words)
            self._role(line, "note", item)
            return
        draft = TextDraft("note", line.number, [words])
        keep = self.open
        self._item(draft)
        self._role(line, "note", draft)
        if isinstance(keep, PieceDraft | LiftDraft):
            self.open = keep
        else:
            self.open = draft

    def _note_words(self, line: Line) -> None:
        self.session.items.append(TextDraft("note", line.number, [harmless(line.raw).strip()]))
        if not self.session.line:
            self.session.line = line.number
