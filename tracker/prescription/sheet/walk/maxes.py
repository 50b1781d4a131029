"""Reads what all percentages are of: those of a lift, or of the whole sheet."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.prescription.sheet.lifts.marks import ALL_OF
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lifts.sets_reading import read_sets
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Of
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.people import People
from tracker.prescription.sheet.words.names import full_name

# "that is 85 % of the training max, so 90 % of your 1RM": a share of the 1RM, in words below the sets
_SHARE_TOLD = re.compile(
    r"\b(?:of|du|vom|del|off) (?:the |your |a )?(?:training max|tm)\b[^%]{0,30}?\b(?P<p>[89]\d(?:\.5)?) ?% (?:of|du|de|vom|del) (?:the |your |a |true |real )*(?:1 ?rm|max)\b"
)
# "% of your clean & jerk 1RM" below another lift
_OTHERS_MAX = re.compile(
    r"^\W*(?:all )?(?:%'?s? )?(?:of|off|from) (?:your |the |ur )?(?:best )?(?P<x>[a-z][a-z &+-]{2,30}?) (?P<n>\d{1,2}) ?-?rm\W*$"
)


class Maxes(People):
    """What percentages are of."""

    def _all_of(self, line: Line, text: str) -> bool:
        """`% = training max`, `(% of your snatch)`: what all percentages of the lift, or of the sheet, are of."""
        self._training_max(text, line)
        tokens = tokens_of(text)
        kinds = {token.kind for token in tokens}
        if (
            (share := _SHARE_TOLD.search(text))
            and isinstance(self.open, LiftDraft)
            and not self.gap
            and "name" not in kinds
        ):
            lift, said = self.open, Of(1, percent=Decimal(share["p"]))
            self.defaults.share = self.defaults.share or said.percent
            lift.of = lift.of or said
            self._about(line, lift)
            return True
        if "tm" in kinds and not kinds & (SETS_KINDS - {"pct"}) and not any(token.kind == "name" for token in tokens):
            self._note(line, line.raw)
            return True
        if (other := _OTHERS_MAX.match(text)) and isinstance(self.open, LiftDraft) and not self.gap:
            self.open.of = self.open.of or Of(int(other["n"]), full_name(other["x"], lift=True)[0])
            self._about(line, self.open)
            return True
        if not ALL_OF.match(text.strip()) or kinds & (SETS_KINDS - {"pct", "max", "plus"}):
            return False
        told = [
            token
            for place, token in enumerate(tokens)
            if token.kind in ("of", "name", "rest")
            and not (place and tokens[place - 1].text in ("not", "nicht", "pas"))
        ]
        read = read_sets(told, self._scene(line))
        if read.of is None and (
            found := re.search(r"%\s*of\s*(?:your |the )?(?:best |1rm )?([^,;.]+?)\)?(?:[,;.]|$)", text)
        ):
            name, entry = full_name(found[1].strip(" )."), lift=True)
            if entry is not None:
                read.of = Of(1, name)
        if read.of is None:
            return False
        lift = self.open_lift
        if lift is not None and not self.gap:
            lift.of, lift.rest_s = lift.of or read.of, lift.rest_s or read.rest_s
            if read.of.percent is not None or text.lstrip(" (").startswith(("all", "%s", "%'s", "percentages")):
                self.defaults.of = self.defaults.of or read.of  # a training max is that of all lifts
        else:
            self.defaults.of = self.defaults.of or read.of
        self._note(line, line.raw)
        return True

    def _training_max(self, text: str, line: Line) -> None:
        for token in tokens_of(text):
            if token.kind == "tm" and 50 <= token.value[0] <= 100:
                self.defaults.share = token.value[0]
