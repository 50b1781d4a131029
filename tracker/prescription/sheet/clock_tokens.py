"""Rules of tokens that say how a piece is done: clocks, as many as possible, for time, work and rest, caps, rests."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.durations import DUR, Rule, seconds
from tracker.prescription.sheet.durations import in_verbose as _v
from tracker.prescription.sheet.durations import rule as _rule

_BETWEEN = (
    r"(?:\s*(?:between|b/w|btw|btwn|bet\.?|after|nach|zwischen|entre|before)\s*(?:each|every|all|the|jeder|den|les|cada|jede)?\s*"
    r"(?:sets?|rounds?|rds?|rnds?|efforts?|pairs?|attempts?|tries|intervals?|movements?|exercises?)?\b)?"
)
_D, _B = _v(DUR), _v(_BETWEEN)
_R = rf"(?:{_D}|[1-9][ ]?m\b)"  # beside the word rest, `m` is minutes


def _rest(found: re.Match[str]) -> Any:
    text = found["t"] or found["t2"] or ""
    if any(unit in text for unit in (":", "'", '"')) or re.search("[a-z]", text):
        later = found["u"] if "u" in found.re.groupindex and found["u"] else ""
        return seconds(text + later)
    number = float(re.match(r"[\d.]+", text)[0])  # type: ignore[index]
    unit = found["u"] or ""
    if unit:
        return seconds(f"{text} {unit}")
    return int(number * 60) if number <= 5 else int(number)


CLOCK_RULES: tuple[Rule, ...] = (
    # time under way: work and rest, clocks
    _rule("onoff", rf"(?:(?P<x>\d{{1,2}})[ ]?(?:x|\*|rounds?[ ]of|rds[ ]of|sets[ ]of|times)[ ]?:?[ ]?)?(?P<a>{_D}|\d+(?=[ ](?:on|work|hard)\b))[ ]?(?:of[ ])?(?:on|work|hard|go|work[ ]time|max[ ]effort|an|arbeit|fast)\b[ ]?(?:[,/|;:+&-]|and|then)?[ ]?(?P<b>{_D}|\d+(?=[ ](?:off|rest|easy)\b))[ ]?(?:of[ ])?(?:off|rest|easy|aus|rests|slow|recovery|pause|(?:to[ ])?(?:change|switch|rotate|transition)(?:[ ](?:over|stations?))?)\b",
          lambda found: (seconds(found["a"], bare=1), seconds(found["b"], bare=1), int(found["x"] or 0))),
    _rule("onoff", rf"work[ ](?P<a>{_D})[ ]?[,/;-]?[ ]?(?:and[ ])?rest[ ](?P<b>{_D})", lambda found: (seconds(found["a"]), seconds(found["b"]))),
    # work and rest that fill a minute or two, never the larger first: that would be a pair of loads
    _rule("onoff", r"(?P<x>\d{1,2})[ ]?x[ ]?(?P<a>10|15|20|30|45|60)/(?P<b>(?<=10/)50|(?<=15/)45|(?<=20/)(?:40|70)|(?<=30/)(?:30|60|90)|(?<=45/)(?:45|75)|(?<=60/)60)(?=[ ]*$)", lambda found: (int(found["a"]), int(found["b"]), int(found["x"]))),
    _rule("onoff", r"(?P<a>\d{2})[ ]?/[ ]?(?P<b>\d{2})[ ]?(?:s|sec|seconds)\b", lambda found: (int(found["a"]), int(found["b"]))),
    _rule("onoff", r":(?P<a>\d{2})[ ]?(?:on)?[ ]?/[ ]?:(?P<b>\d{2})[ ]?(?:off)?", lambda found: (int(found["a"]), int(found["b"]))),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,2}(?:\.\d+)?)[ ]?/[ ]?(?P<b>\d{1,2}(?:\.\d+)?)[ ]?(?P<u>kg|lb|[#])(?![\w])", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "kg" if found["u"] == "kg" else "lb", 2)),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,2}\.\d+)[ ]?/[ ]?(?P<b>\d{1,2}(?:\.\d+)?)(?![\d.x]|[ ]?x)", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2)),
    _rule("mass2", r"(?:@|at)?[ ]?(?P<a>\d{1,3})[ ]?'?s[ ]?(?:or|/)[ ]?(?P<b>\d{1,3})[ ]?'?s\b", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 1)),
    _rule("tabata", r"tabatas?\b"),
    _rule("emom", r"e(?P<k>\d(?:[.]5)?|)mom\b(?:[ ]?(?:for|x|of)?[ ]?(?P<t>\d+(?![\d:.]*[ ]?(?:@|%|reps?\b|x[ ]?\d+[ ]?(?:@|kg)))(?::\d\d)?)(?P<u>[ ]?(?:minutes?|mins?\b|min\b|')?)(?:[ ]?(?:rounds?|sets?)\b)?)?",
          lambda found: found),
    _rule("emom", r"e(?P<e>\d+(?:[.:]\d+)?)[ ]?(?P<eu>s|sec|min|m)\b(?:o(?:t)?m)?(?:[ ]?(?:for|x)[ ]?(?P<t>\d+(?::\d\d)?)(?P<u>[ ]?(?:minutes?|mins?|min|')?)(?:[ ]?(?:rounds?|sets?)\b)?)?",
          lambda found: found),
    _rule("emom", r"(?P<t>\d+)[ ]?-?(?P<u>minutes?|mins?\.?|min|'|:00)?[ ]?-?e(?P<k>\d|)mom\b", lambda found: found),
    _rule("every", rf"every[ ](?:(?P<m>minute)(?:[ ]on[ ]the[ ]minute)?|(?P<d>{_D})|(?P<n>\d+)(?![ ]?(?:round|set|rep|%))|(?P<other>other[ ]minute))"
          rf"(?:[ ]?,?[ ]?(?:(?:for|x)[ ])?[ ]?(?:(?P<t>{_D})|x?[ ]?(?P<x>\d+)(?:[ ]?(?:times|rounds?|sets?|x)\b)?(?![ ]?[./@%x\d]|-)(?!:\d)(?![ ]?(?:m|cal(?:s|orie\w*)?\b|k|kg|lb|reps)\b)(?:(?<=times)|(?<=s)|(?<=x)|(?=[ ]?(?:[:,(;-]|$))))(?:[ ]total)?)?",
          lambda found: found),
    _rule("onminute", r"(?:\d+[ ])?on[ ]the[ ](?:minute|min)\b|otm\b"),
    _rule("amrapx", rf"(?P<x>\d{{1,2}})[ ]?(?:x|rounds[ ]of|sets[ ]of|times)[ ]?(?:an?[ ])?(?P<t>{_D}|\d+)[ ]?-?[ ]?(?:min(?:utes?)?[ ]?)?amraps?\b", lambda found: (int(found["x"]), seconds(found["t"]))),
    _rule("amrap", rf"(?P<t>{_D}|\d+)[ ]?-?[ ]?(?:time[ ]cap[ ])?(?:of[ ])?(?:amraps?|amreps?|amqrap)\b|(?:amrap|amqrap)[ ]?-?[ ]?(?:in|for|x|=)?[ ]?(?P<t2>{_D}|\d+(?!\d|[.,]\d|[ ]?(?:%|kg\b|lb\b|rounds|cal(?:s|orie\w*)?\b|reps|m\b|x\b)))(?:[ ]?(?:minutes?|min|m)\b)?|(?:amrap|amqrap)[ ]?(?:of|:)[ ]?(?P<t3>{_D}(?![ ](?:row|run|bike|plank))|\d+(?=[ ]*$))",
          lambda found: seconds(found["t"] or found["t2"] or found["t3"])),
    _rule("amrap", rf"(?:as[ ]many|max(?:imum)?)[ ](?:good[ ])?(?:rounds?|reps?|sets?)?(?:[ ]?(?:and|&|/|\+|\()[ ]?(?:rounds?|reps?)\)?)?(?:[ ]as[ ](?:possible|you[ ]can))?[ ](?:in|for|within)[ ](?P<t>{_D}|\d+)(?:[ ]?(?:minutes?|min|m)\b)?",
          lambda found: seconds(found["t"])),
    _rule("amrap", rf"(?:in|for)?[ ]?(?P<t>{_D}|\d+[ ]min)[ ]?,?[ ]?(?:do[ ])?:?[ ]?as[ ]many[ ](?:rounds?|reps?)(?:[ ](?:and|&)[ ]reps)?[ ]as[ ](?:possible|you[ ]can)", lambda found: seconds(found["t"])),
    _rule("amrap", rf"(?:for[ ])?(?P<t>{_D})[ ]?[,:;-]?[ ]?(?:and[ ])?(?:count(?:ing)?|how[ ]many)[ ](?:(?:your|the|ur|all)[ ])?(?:rounds?|reps?)\b(?:[ ]can[ ]you[ ](?:do|get|make))?", lambda found: seconds(found["t"])),
    _rule("amrap", rf"(?P<t>{_D})[ ]?[,:-]?[ ]?(?:(?:ascending|rising|climbing|growing|up)[ ])?ladder\b(?!.*for[ ]time)", lambda found: seconds(found["t"])),
    _rule("amrap", rf"(?P<t>{_D})[ ](?:of|de)\b(?=[^.]*\bscore[ ]?(?:=|:|is)?[ ]?(?:your[ ]|the[ ])?(?:total|reps?|rounds?|max|number)\b)", lambda found: seconds(found["t"])),
    _rule("amrap", rf"^[ ]*(?P<t>{_D})[ ]?:(?=.*\b(?:keep[ ](?:going|moving)|start[ ](?:over|again)|again[ ]and[ ]again|count(?:ing)?[ ](?:your[ ]|the[ ])?rounds)\b)", lambda found: seconds(found["t"])),
    _rule("amrap", r"amrap\b(?!s\b)", lambda found: None),
    _rule("far", rf"as[ ]far[ ]as[ ]possible[ ](?:in|for)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("mostcal", rf"as[ ]many[ ]cal(?:orie)?s?[ ]as[ ]possible[ ](?:in|for)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("mostload", rf"(?P<t>{_D})[ ](?:to|for)[ ](?:find|build(?:[ ]up)?|establish|hit|work[ ]up)[ ](?:to[ ])?(?:a|an|your|the)[ ](?:heavy|heaviest|max(?:imum)?)[ ](?:complex|of|single[ ]complex)\b(?:[ ]of\b)?", lambda found: seconds(found["t"])),
    _rule("mostload", rf"(?:the[ ])?heaviest[ ](?:load[ ])?(?:in|within)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("unscored", r"(?:not|no)[ ](?:for[ ]time|scored?|timed|timing)\b|nft\b|for[ ](?:quality|fun|form|practice)\b|without[ ](?:a[ ])?(?:clock|time)|untimed\b|no[ ]clock\b"),
    _rule("rft", r"(?P<n>\d+)?[ ]?(?:rft|rounds?[ ]for[ ]time|rnds?[ ]for[ ]time|rds?[ ]for[ ]time)\b(?:[ ]of)?", lambda found: int(found["n"]) if found["n"] else None),
    _rule("fortime", r"\btime[ -]?trial\b|^\s*test[ ]?[:-]?[ ]?(?=\d+(?:\.\d+)?[ ]?(?:m|km|k)[ ](?:row|run|ski|bike|swim)\b)|(?:all[ ](?:of[ ]it[ ])?)?(?:its[ ])?(?:all[ ])?for[ ]time\b(?:[ ]of)?|^\s*ft\b(?![ ]?\d*[ ]?(?:high|box))|\bafap\b|as[ ]fast[ ]as[ ](?:possible|you[ ]can)|against[ ](?:the|a)[ ](?:clock|watch)|(?<!not[ ])(?<!be[ ])\btimed(?=[ ]*(?:$|[.,;:!)-]))|\b(?:the[ ])?(?:clock|watch)[ ](?:is[ ])?running\b|score[ ]?(?:=|:|is)[ ]?(?:your[ ]|the[ ]|total[ ])?time\b|(?:write|note|log|tell[ ]me|post)[ ](?:your[ ]|ur[ ]|the[ ])?time\b"),
    _rule("cap", rf"(?:with[ ])?(?:a[ ])?(?:time[ ]?-?cap|cap(?:ped)?|tc|t\.c\.|time[ ]limit|limit|zeitlimit|tope)\b[ ]?(?:on[ ]\d[ ]?)?(?:[:=]|of|at|is|in)?[ ]?(?P<t>{_D}|\d+(?![\d.]*[ ]?(?:rounds|reps|kg|lb)))(?:[ ]?(?:minutes?|min|m)\b)?",
          lambda found: seconds(found["t"])),
    _rule("cap", rf"(?P<t>{_D}|\d+)[ ]?-?[ ]?(?:time[ ]?-?)?(?:cap\b|tc\b|limit\b|time[ ]limit\b)", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:you|u|ihr)[ ](?:have|habt|get|got)[ ](?P<t>{_D})(?![ ]rest)", lambda found: seconds(found["t"])),
    _rule("clock", r"(?P<a>\d{1,2}:\d{2})[ ]?(?:-|to)[ ]?(?P<b>\d{1,2}:\d{2})(?![\d:])", lambda found: (seconds(found["a"]), seconds(found["b"]))),
    # rest
    _rule("rest", rf"(?<!active[ ])(?:rest(?:s|ing)?|recover(?:y|ies)?|r)[ ]?(?:a[ ]good[ ])?[:=]?[ ]?(?:of|for|about|exactly|around|is|as|ca\.?|~|approx\.?|only|at[ ]least)?[ ]?~?(?P<t>{_R}|(?:(?<=rest[ ])|(?<=rest:[ ])|(?<=rest:))\d+(?:\.\d+)?)(?:[ ]?(?:-|to|or|/)[ ]?(?:{_D}|\d+(?:\.\d+)?)[ ]?(?P<u>min(?:utes?|s)?\b|sec(?:onds?|s)?\b|s\b|'|\")?)?(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?P<t>\d+(?:\.\d+)?)[ ]?(?:-|to|or)[ ]?\d+(?:\.\d+)?[ ]?(?P<u>min(?:utes?|s)?\b\.?|sec(?:onds?|s)?\b|s\b|'|\")[ ]?(?:of[ ])?(?:rest|recovery|break|between|off)\b(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?P<t>{_R})[ ]?(?:min(?:utes?)?\b)?[ ]?(?:of[ ])?(?:rests?|recovery|break|off)\b(?P<u>)(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?P<t>{_R})[ ]?(?:between|b/w|btwn|after[ ](?:each|every))[ ](?:the[ ]|each[ ]|every[ ]|all[ ]|your[ ])?(?:sets?|rounds?|rds?|efforts?|pairs?|tries|intervals?|attempts?)?(?P<u>)(?P<t2>)", _rest),
)  # fmt: skip
