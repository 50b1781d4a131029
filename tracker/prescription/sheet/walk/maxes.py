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
_MAX = r"(?P<n>\d{1,2}) ?-?(?:rm\b|reps? max\b)"
# Which max a sentence or a heading goes by: "percents are of your 3RM tested in May", "we go by your 3-rep max today", "3RM = the one from May"
_GOES_BY = (
    re.compile(
        rf"(?:(?<![\d.] )(?<![\d.])%|\bpercent\w*|\bpcts?\b|\bnumbers\b|\bloads\b|\bweights\b)[^.;:!?%\d]{{0,40}}?\b{_MAX}"
    ),
    re.compile(
        rf"\b(?:go(?:ing)? by|use|using|based (?:on|off)|work(?:ing)? (?:off|from|with)|calculat\w+ (?:on|off|from|with)|refers? to|off|from)\b[^.;:!?%\d]{{0,30}}?\b{_MAX}"
        r"(?=[^.;:!?]{0,30}(?:%|\b(?:percent\w*|numbers?|all|today|everything|throughout)\b)|\W*$)"
    ),
    re.compile(rf"^\W*{_MAX}\W{{0,3}}(?:=|is|means|being) ?(?:the |your |that )"),
)
_TO_BE_FOUND = re.compile(r"\b(?:find|test|build|establish|work (?:up )?to|new|hit|attempt|go for|max out)\b")


def goes_by(text: str) -> Of | None:
    """Return what percentages are of where a sentence or a heading says so of all; None where it says that of none, or of a lift."""
    found = next((each for way in _GOES_BY if (each := way.search(text))), None)
    if found is None or _TO_BE_FOUND.search(text) or re.search(r"\bnot\W+(?:\w+ )?$", text[: found.start("n")]):
        return None
    kinds = {token.kind for token in tokens_of(text)}
    return None if "name" in kinds or kinds & {"setsx", "sets", "loadx", "mass", "pct"} else Of(int(found["n"]))


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
        if (
            (other := _OTHERS_MAX.match(text))
            and isinstance(self.open, LiftDraft)
            and not self.gap
            and (named := full_name(other["x"], lift=True))[1] is not None  # "% of your 5RM" names no other lift
        ):
            self.open.of = self.open.of or Of(int(other["n"]), named[0])
            self._about(line, self.open)
            return True
        if (said := goes_by(text)) is not None and not (ALL_OF.match(text.strip()) and "of" in kinds):
            return self._goes_by(line, text, said)
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

    def _goes_by(self, line: Line, text: str, said: Of) -> bool:
        """Take what a sentence says all percentages are of: for the lift above, for the day, or before all of it for the sheet."""
        lift = self.open_lift
        if lift is not None and not self.gap:
            lift.of = lift.of or said
        if lift is None or self.gap or re.search(r"\b(?:all|everything|percent\w*|numbers)\b", text):
            if self.session.headed or self.session.items or self.sessions:
                self.session.of = self.session.of or said
            else:
                self.defaults.of = self.defaults.of or said
        self._note(line, line.raw)
        return True

    def _training_max(self, text: str, line: Line) -> None:
        for token in tokens_of(text):
            if token.kind == "tm" and 50 <= token.value[0] <= 100:
                self.defaults.share = token.value[0]
