"""Reads the sets of a lift from tokens: how many, of how many repetitions, at which load, with which rest and effort."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.lifts.set_heavy import Heavy
from tracker.prescription.sheet.lifts.set_rows import in_order
from tracker.prescription.sheet.lifts.sets_found import Group, Scene, SetsRead, no_load, ramped
from tracker.prescription.sheet.model import FindMax
from tracker.prescription.sheet.tokens.tokens import Token


def read_sets(tokens: list[Token], scene: Scene) -> SetsRead:
    """Read sets from tokens; what says nothing of sets is in `left`."""
    reader = _Reader(in_order(tokens), scene)
    reader.run()
    return reader.found


class _Reader(Heavy):
    """Goes through the tokens."""

    def run(self) -> None:
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            handler = getattr(self, f"_on_{token.kind}", None)
            if handler is None or handler(token) is False:
                self.found.left.append(token)
            else:
                self.found.used += 1
            self.at += 1
        self._settle()

    def spread(self, groups: list[Group], loads: list[Any], *, last_only: bool) -> list[Group]:
        self.found.groups, self.last_only = list(groups), last_only
        self._load(list(loads))
        return self.found.groups

    def _settle(self) -> None:
        """Give loads that wait to the sets that have none."""
        self.found.groups = ramped(self.found.groups, " ".join(token.text for token in self.tokens))
        if self.found.loads and any(no_load(group) for group in self.found.groups):
            loads, self.found.loads = self.found.loads, []
            self._load(loads)
        if self.found.within_s:
            for place, group in enumerate(self.found.groups):
                if isinstance(group, FindMax) and group.within_s is None:
                    self.found.groups[place] = replace(group, within_s=self.found.within_s)


def spread(groups: list[Group], loads: list[Any], scene: Scene, *, last_only: bool = False) -> list[Group]:
    """Give loads that stand on a line of their own to the sets above that have none; `last_only`: to the last of them."""
    return _Reader([], scene).spread(groups, loads, last_only=last_only)
