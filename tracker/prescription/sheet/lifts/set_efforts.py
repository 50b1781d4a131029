"""Reads how sets are done from tokens: effort, rest, tempo, sides, clocks, and what percentages are of."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.limits import MOST_RM
from tracker.prescription.sheet.lifts.set_loads import Loads
from tracker.prescription.sheet.lifts.sets_found import load_words_of, no_load
from tracker.prescription.sheet.model import FindMax, InReserve, Of, Percent, Rpe, SetGroup
from tracker.prescription.sheet.tokens.durations import seconds
from tracker.prescription.sheet.tokens.tokens import Token


class Efforts(Loads):
    """How sets are done."""

    def _on_rpe(self, token: Token) -> bool | None:
        low, high = token.value
        value, top = Decimal(low), Decimal(high) if high else None
        if not 1 <= value <= 10 or (top is not None and not value < top <= 10):
            return False
        self._effort(Rpe(value, top))
        return None

    def _on_rpelist(self, token: Token) -> bool | None:
        """`RPE 7/8/9`: one for each set."""
        if any(not 1 <= value <= 10 for value in token.value):
            return False
        self._load([Rpe(value) for value in token.value])
        return None

    def _on_rir(self, token: Token) -> bool | None:
        low, high = token.value
        value, top = Decimal(low), Decimal(high) if high else None
        if value > 10:
            return False
        self._effort(InReserve(value, top if top and top > value else None))
        return None

    def _effort(self, effort: Any) -> None:
        groups = self.found.groups
        if not groups:
            self.found.loads.append(effort)
            return
        done = False
        behind = [token.text for token in self.tokens[max(0, self.at - 3) : self.at]]
        only_last = "last" in behind or "final" in behind  # "last one @ RPE 9"
        if only_last and no_load(groups[-1]):
            self._last_only(len(groups) - 1)
        for place, group in enumerate(groups):
            if no_load(group) and (not only_last or place == len(groups) - 1):
                groups[place] = replace(group, load=effort)  # type: ignore[arg-type]
                done = True
        if not done:
            last = groups[-1]
            if isinstance(last, SetGroup) and last.effort is None and not isinstance(last.load, Rpe | InReserve):
                groups[-1] = replace(last, effort=effort)
            elif isinstance(last, FindMax):
                self.found.notes.append(load_words_of(effort))

    def _on_rest(self, token: Token) -> bool | None:
        if not 0 < token.value <= 24 * 3600:
            return False
        groups = self.found.groups
        bare = [place for place, group in enumerate(groups) if group.rest_s is None]
        if not bare:
            self.found.rest_s = self.found.rest_s or token.value
        for place in bare:
            groups[place] = replace(groups[place], rest_s=token.value)
        return None

    def _on_tempo(self, token: Token) -> None:
        groups = self.found.groups
        bare = [place for place, group in enumerate(groups) if isinstance(group, SetGroup) and not group.tempo]
        if not bare:
            self.found.tempo = token.value
        for place in bare:
            groups[place] = replace(groups[place], tempo=token.value)  # type: ignore[arg-type]

    def _on_each(self, token: Token) -> None:
        self.found.each_side = True

    def _on_time(self, token: Token) -> bool | None:
        """A time behind a test is the time that it has."""
        last = self._last
        if isinstance(last, FindMax) and last.within_s is None and 60 <= token.value <= 3600:
            self.found.groups[-1] = replace(last, within_s=token.value)
            return None
        before = self.tokens[self.at - 1] if self.at else None
        if (
            isinstance(last, SetGroup)
            and all(each.text == ")" for each in self.tokens[self.at + 1 :])
            and before is not None
            and before.text in (",", ";", "-", "/", "|")
            and 45 <= token.value <= 300
            and last.rest_s is None
        ):  # "4 x 3 @ 95 %, 90s": a length that stands alone behind sets
            return self._on_rest(token)
        if (
            not self.found.groups
            and 60 <= token.value <= 3600
            and any(t.kind == "find" for t in self.tokens[self.at :])
        ):
            self.found.within_s = token.value
            return None
        return False

    def _on_every(self, token: Token) -> bool | None:
        found = token.value
        if found["t"] or found["x"] or found["other"]:
            return False
        self.found.every_s = 60 if found["m"] else seconds(found["d"]) if found["d"] else int(found["n"]) * 60
        return None

    def _on_of(self, token: Token) -> bool | None:
        before = self.tokens[self.at - 1] if self.at else None
        if before is not None and before.text in ("not", "nicht", "pas", "no", "never"):
            return False  # "of your tested 3RM, not of your one-rep max"
        kind, *more = token.value
        of: Of | None
        if kind == "rm":
            of = Of(more[0]) if 1 <= more[0] <= MOST_RM else None
        elif kind == "max":
            of = Of(1)
            self.found.of_unknown = True
        elif kind == "tm":
            of = Of(1, percent=Decimal(-1))
        elif kind == "tmp":
            of = Of(more[1], percent=more[0]) if 1 <= more[1] <= MOST_RM and 0 < more[0] <= 100 else None
        elif kind == "heavy":
            of = Of(more[0], heavy=True) if 1 <= more[0] <= MOST_RM else None
        elif kind == "it":
            of = self.found.of or Of(1, heavy=True)
        else:
            return False
        if of is None:
            return False
        name = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
        if name is not None and name.kind == "name" and kind in ("rm", "max", "tmp"):
            of = replace(of, lift=name.value.name)
            self.at += 1
        mine = [
            place
            for place, group in enumerate(self.found.groups)
            if isinstance(group, SetGroup) and isinstance(group.load, Percent) and group.load.of is None
        ]
        pending = [
            place for place, load in enumerate(self.found.loads) if isinstance(load, Percent) and load.of is None
        ]
        if not mine and not pending:
            self.found.of = of
        for place in mine:
            group = self.found.groups[place]
            assert isinstance(group, SetGroup)
            assert isinstance(group.load, Percent)
            self.found.groups[place] = replace(group, load=replace(group.load, of=of))
        for place in pending:
            self.found.loads[place] = replace(self.found.loads[place], of=of)
        return None
