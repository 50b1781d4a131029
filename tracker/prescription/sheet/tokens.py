"""The words, numbers and signs of one piece of text as tokens: durations, loads, percentages, sets, names of movements.

A token is found from left to right, the first rule that fits taking the text; what no rule takes is a word. Nothing is
dropped: whoever reads a token says so, and the words that nobody read are the coach's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from tracker.prescription.sheet.clock_tokens import CLOCK_RULES
from tracker.prescription.sheet.durations import DUR, Rule, seconds
from tracker.prescription.sheet.durations import in_verbose as _v
from tracker.prescription.sheet.durations import rule as _rule
from tracker.prescription.sheet.names import Found, full_name, longest

N = r"\d+(?:[.,]\d+)?"
UNIT = r"(?:kg\b|kilos?\b|k(?=\s?(?:kb|kettle|db\b|dbs\b|dumb|bell))|lb\b|lbs\b|pounds?\b|\#)"


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its kind, its value (by kind), where it stands in the text, and the text itself."""

    kind: str
    value: Any
    start: int
    end: int
    text: str


def _at_list(found: re.Match[str]) -> tuple[list[Decimal], str] | None:
    """Return loads without a sign behind @, and the sign between them; None for a pair such as 43/30."""
    amounts, text = _numbers(found["l"]), found["l"]
    sign = "-" if "-" in text else "/" if "/" in text else " "
    if sign == "/" and len(amounts) == 2 and amounts[0] > amounts[1]:
        return None
    return (amounts, sign) if min(amounts) >= 20 else None


def _numbers(text: str) -> list[Decimal]:
    return [Decimal(each.replace(",", ".")) for each in re.findall(N, text)]


def _ints(text: str) -> list[int]:
    return [int(each[:7]) for each in re.findall(r"\d+", text)]


_NUMBERED = {"single": 1, "double": 2, "triple": 3}
_LIST_SEP = r"\s*[-/,>]\s*|\s+"
_EACH = (
    r"(?:each|per|a|every|on each|on every|both|ea\.?)\s+(?:side|leg|arm|hand|foot|direction|way)s?\b|e/s\b|e/side\b|ea\.? side\b|/(?:side|leg|arm)\b"
    r"|(?:left|l)\s?(?:/|and|\+)\s?(?:right|r)\b|both (?:sides|legs|arms)\b|eachside\b|e\.s\.?"
)

_D, _U, _E = _v(DUR), UNIT, _v(_EACH)
_NUM = r"\d+(?:\.\d+)?"
_HEAVY_N = r"(?:(?P<w>single|double|triple)s?|(?:sets?[ ]of[ ]|set[ ]of[ ])?(?P<n>\d{1,2})(?:[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max|reps?[ ]max)\b)?(?:[ ]?-?reps?\b)?)"


def _find(found: re.Match[str]) -> tuple[int, bool] | None:
    """Return repetitions, and whether it is a day's heavy set (True) or a test of a max (False); None where it is neither."""
    groups = found.groupdict()
    word = groups.get("w")
    if re.search(r"\bmax\b", found[0]) and not groups.get("rm") and not word and not groups.get("max"):
        return None
    if word == "double" and re.match(r"s?[ -]?under", found.string[found.end() :]):
        return None
    number = _NUMBERED[word] if word else int(groups.get("n") or 1)
    test = bool(groups.get("rm")) or bool(groups.get("max"))
    return number, not test


_TEST = r"(?:find(?:[ ]out)?|test(?:ing)?|establish|set|hit|max[ ]out|go[ ]for|new|determine|check)"
_BUILD = r"(?:(?:build(?:ing)?|work(?:ing)?|climb(?:ing)?|ramp|go|come|get|move|warm)(?:[ ]it)?[ ](?:up[ ])?(?:to|towards)|up[ ]to|then|hit|find|take|do|make|establish)"
_ADJ = r"(?:a|an|the|your|his|her|today'?s|new|current|daily|one|good|real|true|tough|solid|nice|clean|pretty|technical|challenging|moderate|moderately)"

RULES: tuple[Rule, ...] = (
    *CLOCK_RULES,
    # effort
    _rule("rpe", rf"(?:@|at)?[ ]?(?:an[ ])?rpe[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to|/)[ ]?(?P<b>{_NUM}))?", lambda found: (found["a"], found["b"])),
    _rule("rpe", rf"(?:@|at)?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to)[ ]?(?P<b>{_NUM}))?[ ]?rpe\b", lambda found: (found["a"], found["b"])),
    _rule("rpe", rf"(?:@|at)?[ ]?(?:an[ ]|a[ ])?(?:effort|difficulty|intensity)(?:[ ]of)?[ ](?P<a>{_NUM})(?P<b>)[ ]?(?:out[ ]of|/|of)[ ]?10", lambda found: (found["a"], found["b"])),
    _rule("rpe", rf"(?:@|at)[ ]?(?:a[ ]|an[ ])?(?P<a>{_NUM})(?P<b>)[ ]?(?:out[ ]of|/)[ ]?10(?:[ ](?:effort|difficulty|hard))?\b", lambda found: (found["a"], found["b"])),
    _rule("rir", rf"(?:@|at|with)?[ ]?rir[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to)[ ]?(?P<b>{_NUM}))?", lambda found: (found["a"], found["b"])),
    _rule("rir", rf"(?:@|at|with|leave|leaving|keep|keeping)?[ ]?(?:about[ ])?(?P<a>{_NUM})(?:[ ]?(?:-|to|or)[ ]?(?P<b>{_NUM}))?[ ]?(?:reps?[ ])?(?:left[ ])?(?:rir\b|in[ ](?:the[ ]|your[ ])?(?:tank|reserve)\b|left[ ]in[ ](?:the[ ]|your[ ])?tank)", lambda found: (found["a"], found["b"])),
    _rule("rir", rf"(?:leave|leaving|keep|keeping)[ ](?:about[ ])?(?P<a>{_NUM})(?:[ ]?(?:-|to|or)[ ]?(?P<b>{_NUM}))?[ ]?(?:good[ ])?reps?(?:[ ](?:left|in[ ](?:the[ ])?bank))?", lambda found: (found["a"], found["b"])),
    _rule("rir", rf"(?:with[ ])?(?P<a>{_NUM})(?P<b>)[ ]?reps?[ ](?:left|short[ ]of[ ]failure|shy[ ]of[ ]failure|from[ ]failure)\b", lambda found: (found["a"], found["b"])),
    _rule("rir", rf"stop[ ](?P<a>{_NUM})(?P<b>)[ ]?reps?[ ](?:before|short|shy|from)\b(?:[ ]of)?(?:[ ](?:failure|ugly|you[ ]fail|form[ ]breaks))?", lambda found: (found["a"], found["b"])),
    _rule("tempo", r"(?:@[ ]?)?(?:tempo|kadenz)[ ]?[:@]?[ ]?\(?(?P<t>[0-9x](?:[ ]?[-/.:,]?[ ]?[0-9x]){2,3})(?![0-9a-z])\)?|@[ ]?(?P<t2>[0-6]{2}x[0-4])(?![0-9a-z])(?:[ ]?tempo\b)?|(?:@[ ]?)?(?P<t3>[0-9x]{4}|[0-9x](?:[-/.][0-9x]){3})[ ]tempo\b|@[ ]?(?P<t4>[1-9][0-9][1-9x][0-9]|[0-9](?:-[0-9x]){3})(?![0-9a-z.,]|[ ]?(?:kg|lb|%))",
          lambda found: "-".join(re.findall("[0-9x]", found["t"] or found["t2"] or found["t3"] or found["t4"])).upper()),
    # percentages and what they are of
    _rule("tm", rf"(?:\(?(?:tm|training[ ]max)\b)[ ]?(?:is|=|:|means|at)[ ]?(?P<p>{_NUM})[ ]?%(?:[ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?:(?P<n>\d+)[ ]?-?rm|max|real[ ]max|true[ ]max))?", lambda found: (Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?:%[ ]?)?(?:of|from)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|his[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:tm|training[ ]max)\b(?:[ ]of[ ](?P<n>\d{{1,2}})[ ]?-?rm\b)?", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?:all[ ])?(?:%'?s?|percent(?:age)?s?)[ ](?:are[ ])?(?:of|from|off)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:of[ ])?(?:the[ ]|your[ ]|ur[ ])?(?:(?P<n>\d{{1,2}})[ ]?-?rm|max)\b", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?<=[(])of[ ](?:your[ ]|the[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?:(?P<n>\d{{1,2}})[ ]?-?rm|max)\b", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", r"(?:%[ ]?)?of[ ]today'?s[ ]heavy[ ](?P<n>\d{1,2})\b", lambda found: ("heavy", int(found["n"]))),
    _rule("of", r"(?:(?:all[ ])?%'?s?[ ]?|percent(?:age)?s?[ ]?)?(?:of|from|off|=|is|are|based[ ]on|vom|del|du|de|on)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|an[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|est\.?[ ]|best[ ]|real[ ]|true[ ]|recent[ ]|old[ ]|tested[ ]|their[ ]){0,3}(?:training[ ]?-?max(?:es)?|tm)\b(?:,?[ ]?not[ ](?:of[ ])?(?:your[ ]|the[ ]|ur[ ])?(?:real[ ]|true[ ]|actual[ ]|tested[ ])?(?:1[ ]?rm|max)\b)?", lambda found: ("tm",)),
    _rule("of", r"%?[ ]?(?:training[ ]max|tm)\b(?![ ]?test)", lambda found: ("tm",)),
    _rule("of", r"(?:%'?s?[ ]?)?(?:of|from|off|based[ ]on|vom|del|du|de)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|an[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|est\.?[ ]|best[ ]|e|real[ ]|true[ ]|recent[ ]|tested[ ]|today'?s[ ]|heavy[ ]){0,3}(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm\b|rep[ -]?max\b|reps?[ ]max\b)", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?:%'?s?[ ]?)?(?:of|from|off|based[ ]on)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|best[ ]|real[ ]|true[ ]|recent[ ]|one[ ]|1[ ]|old[ ]){0,3}(?:one[ ]?-?rep[ -]?)?(?:max(?:imum|es)?|pr|pb)\b(?![ ](?:reps|cal(?:s|orie\w*)?\b))", lambda found: ("max",)),
    _rule("of", r"(?:of|off)[ ](?:it|that|this|those|heaviest|today'?s(?:[ ]\w+)?|what[ ]you[ ](?:hit|got|did))\b(?:[ ](?:snatch|clean|single|double|triple|top[ ]set|heavy|weight|load)(?:[ ]of[ ]today|[ ]today)?)?", lambda found: ("it",)),
    _rule("of", r"(?<=%[ ])(?P<n>\d{1,2})[ ]?-?rm\b", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?<=%[ ])(?:of[ ])?(?:bw|bodyweight|body[ ]weight)\b", lambda found: ("bw",)),
    _rule("pctoff", r"(?:(?:drop|take|reduce(?:[ ]by)?|minus|-)[ ]?(?:about[ ])?)?(?P<l>\d{1,2})(?:[ ]?(?:-|to)[ ]?\d{1,2})?[ ]?%[ ]?(?:off|less|drop|down|lighter)\b|(?:drop|minus|reduce(?:[ ]by)?|take[ ]off)[ ](?:about[ ])?(?P<m>\d{1,2})[ ]?%|(?<![\d%.][ ])(?<![\d%.])-(?P<k>5|[1-3]\d)[ ]?%", lambda found: 100 - int(found["l"] or found["m"] or found["k"])),
    _rule("pct", rf"(?:@|at|about)?[ ]?(?:about[ ]|around[ ]|~|ca\.?[ ]|up[ ]to[ ])?(?P<l>{_NUM}[ ]?%?(?:[ ]?(?:-|to|,|/|>|;|and|&)[ ]?{_NUM}[ ]?%?){{1,11}})(?<=%)", lambda found: (_numbers(found["l"]), found["l"])),
    _rule("pct", rf"(?:@|at|about)?[ ]?(?:about[ ]|around[ ]|~[ ]?|ca\.?[ ]|max\.?[ ]|up[ ]to[ ])?(?P<l>{_NUM})[ ]?%", lambda found: (_numbers(found["l"]), found["l"])),
    _rule("pct", rf"@?[ ]?%[ ]?(?P<l>{_NUM}(?:[ ]?[-/,][ ]?{_NUM}){{0,9}})", lambda found: (_numbers(found["l"]), found["l"])),
    _rule("pct", r"(?:take[ ]|@[ ]?|at[ ]|about[ ])?(?P<l>\d{2,3})[ ](?=of[ ](?:that|it|this|your[ ]max|the[ ]max|max|1[ ]?rm|your[ ]1[ ]?rm)\b)", lambda found: (_numbers(found["l"]), found["l"])),
    # a test or a heavy set
    _rule("find", rf"(?:{_BUILD}[ ])?(?:{_ADJ}[ ]){{0,3}}(?:heavy|hvy|heaviest|max|top)[ ](?:{_ADJ}[ ]){{0,2}}{_HEAVY_N}(?![ ]?(?:x|kg|lb|%|cal(?:s|orie\w*)?\b|m\b|min|sec|'|:|\.|-|/))(?:[ ]of[ ](?:the[ ])?day|[ ]today|[ ]for[ ](?:the[ ]day|today))?", _find),
    _rule("find", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{0,3}}(?:heavy[ ])?(?P<n>\d{{1,2}})[ ]?-?(?P<rm>rm|rep[ -]?max)\b(?:[ ]of[ ](?:the[ ])?day|[ ]for[ ]the[ ]day)?", _find),
    _rule("find", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{1,3}}(?:(?P<w>single|double|triple)s?|sets?[ ]of[ ](?P<n>\d{{1,2}}))(?P<rm>)(?:[ ]of[ ](?:the[ ])?day|[ ]for[ ]the[ ]day|[ ]for[ ]today)?(?![ ]?(?:x|kg|lb|%))", _find),
    _rule("find", rf"(?:{_TEST})[ ](?:for[ ])?(?:{_ADJ}[ ]){{0,3}}(?P<n>\d{{1,2}})[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max|reps?[ ]max)\b(?:[ ]test)?", _find),
    _rule("find", r"(?P<n>\d{1,2})[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max)[ ]?(?:test|attempts?|day)\b", _find),
    _rule("find", r"(?:new[ ]|daily[ ])?(?P<max>max)[ ](?P<w>single|double|triple)\b", _find),
    _rule("find", r"(?:find|test|establish|hit|build[ ]up[ ]to|build[ ]to|work[ ]up[ ]to|go[ ]for)[ ](?:(?:a|your|the|new|today'?s|daily)[ ]){0,3}(?P<max>max|1[ ]rep[ ]max|one[ ]rep[ ]max|pr)\b(?![ ](?:reps|cal(?:s|orie\w*)?\b|distance))", _find),
    _rule("find", r"(?:heavy|hvy)[ ](?P<w>single|double|triple)s?\b", _find),
    _rule("rm", r"(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm\b|rep[ ]max\b)", lambda found: int(found["n"])),
    # repetitions without a number
    _rule("max", r"(?:as[ ]many[ ](?:good[ ]|clean[ ]|unbroken[ ])?(?:reps?[ ])?as[ ](?:possible|you[ ](?:can|like)|nice|u[ ]can)|as[ ]many[ ]reps?[ ]as[ ]you[ ]can|max(?:imum|\.)?[ ](?:unbroken[ ])?(?:effort[ ])?reps?|amreps?|to[ ]failure|failure|rep[ -]?out|max[ ]effort|max[ ]ub|(?:one|1)[ ](?:go[ ])?max\b|max(?:imum)?)\b\.?(?![ ](?:hang|height|heart|\d+[ ]?(?:min|tries|attempts)))"),
    _rule("rounds", r"(?P<n>\d{1,2})[ ](?:super|giant|tri)?[ -]?sets?[ ]of[ ]?:?[ ]?$", lambda found: int(found["n"])),
    # sets and repetitions
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?[x*][ ]?(?P<r>\(?[ ]?\d+[ ]?(?:\+[ ]?\d+[ ]?)+\)?)(?![ ]?(?:kg|lb|\d|\.\d))", lambda found: (int(found["s"]), _ints(found["r"]), "complex")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?|rounds?|rds?)[ ]?(?:of|x|:|at|[*]|-|@|,)?[ ]?(?P<r>\(?[ ]?\d+[ ]?(?:\+[ ]?\d+[ ]?)+\)?)", lambda found: (int(found["s"]), _ints(found["r"]), "complex")),
    _rule("setsx", r"(?P<s>1?\d|20)[ ]?x[ ]?(?P<r>1(?:\.1){1,5})(?![\d.])", lambda found: (int(found["s"]), [found["r"].count("1")], "plain")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?x[ ]?(?P<r>\d+)[ ]?x[ ]?(?P<t>\d+(?:\.\d+)?)(?![\d.]|[ ]?(?:sets?|m\b|cal(?:s|orie\w*)?\b|sec|s\b|min))(?P<u>[ ]?(?:kg|lb)\b)?(?P<pc>[ ]?%)?", lambda found: (int(found["s"]), [int(found["r"])], "load", Decimal(found["t"]), (found["u"] or "").strip(), bool(found["pc"]))),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*])[ ]?(?P<r>\d{1,3}(?:[ ]?[-/,][ ]?\d{1,3}){2,9}\+?)(?![\d:%]|[ ]?(?:kg|lb|m|min|sec|s)\b)", lambda found: (int(found["s"]), _ints(found["r"]), "list")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*]|of)[ ]?(?P<r>\d{1,3})[ ]?(?:-|to)[ ]?(?P<h>\d{1,3})(?![\d:%x-]|[ ]?(?:kg|lb|%|min\b|-)|[ ]?s\b|[ ]?sec)", lambda found: (int(found["s"]), [int(found["r"]), int(found["h"])], "range")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?x[ ]?(?P<r>\d{1,3})[ ]?/[ ]?(?P<h>\d{1,3})(?![\d:%x/]|[ ]?(?:kg|lb|%|min\b)|[ ]?s\b|[ ]?sec|\.\d)", lambda found: (int(found["s"]), [int(found["r"]), int(found["h"])], "pair")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*]|of)[ ]?(?:amrap\b|amreps?\b|max\b(?:[ ]?(?:reps?|effort|unbroken))?|failure\b|me\b|maxi?\b|as[ ]many[ ](?:reps[ ])?as[ ](?:possible|you[ ]can|nice)|to[ ]failure|submax\b|all[ ]out)", lambda found: (int(found["s"]), [], "max")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:more[ ]|working[ ]|work[ ]|heavy[ ]|straight[ ]|good[ ]|light[ ]|back[ -]?off[ ]|easy[ ]|hard[ ])?sets?[ ]?(?:of|x|:|at|[*]|-|@|,|with|à|de|á|a)?[ ]?(?:as[ ]many[ ](?:reps[ ])?as[ ](?:possible|you[ ]can|nice)|max(?:imum)?[ ]?(?:reps?|effort)?|amrap|to[ ]failure|failure)\b", lambda found: (int(found["s"]), [], "max")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?(?:more[ ]|working[ ]|work[ ]|heavy[ ]|straight[ ]|good[ ]|light[ ]|back[ -]?off[ ]|easy[ ]|hard[ ])?sets?[ ]?(?:of|x|:|[*]|-|,|with|à|de|á|a)?[ ]?(?P<r>\d{1,3})(?:[ ]?(?:-|to)[ ]?(?P<h>\d{1,3}))?(?P<p>\+)?(?![\d:.%]|[ ]?(?:kg|lb|%|min\b|m\b|cal(?:s|orie\w*)?\b|sec|s\b|'|\"|rounds))(?:[ ]?reps?\b)?", lambda found: (int(found["s"]), [int(found["r"]), int(found["h"])] if found["h"] else [int(found["r"])], "range" if found["h"] else "plus" if found["p"] else "plain")),
    _rule("setsx", r"(?P<r>\d{1,3})[ ]?reps?[ ]?(?:x|for|[*]|,|in)[ ]?(?P<s>\d{1,2})[ ]?(?:sets?|rounds?)\b", lambda found: (int(found["s"]), [int(found["r"])], "plain")),
    _rule("setsx", r"(?P<s>1?\d|20)(?<!\d\d\d)[ ]?[x*][ ]?(?P<r>\d{1,3})(?P<p>[ ]?\+(?![ ]?\d|[ ]?[a-z]))?(?![\d:%]|\.\d|,\d|[ ]?(?:kg|lb|cm|%|m\b|km|cal(?:s|orie\w*)?\b|sec|s\b|min\b|'|\"|ft\b|mile))(?:[ ]?reps?\b)?", lambda found: (int(found["s"]), [int(found["r"])], "plus" if found["p"] else "plain")),
    _rule("sets", r"(?P<n>1?\d|20)[ ](?P<w>singles|doubles|triples)\b(?![ ]?under)", lambda found: (int(found["n"]), _NUMBERED[found["w"][:-1]])),
    _rule("setcount", r"(?P<s>\d{1,2})[ ](?:more[ ]|working[ ]|work[ ]|total[ ]|all[ ]|heavy[ ]|light[ ])?sets?\b", lambda found: int(found["s"])),
    _rule("setlabel", r"(?:set|serie|satz)s?[ ]?\#?(?P<a>\d{1,2})(?:(?:-|[ ]?(?:to|&|and|\+)[ ]?)(?P<b>\d{1,2})(?=[ ]?[:.)=]))?[ ]?(?:[:.)=]|-(?=[ ]))", lambda found: (int(found["a"]), int(found["b"] or found["a"]))),
    _rule("loadx", r"(?P<l>\d+(?:\.\d+)?)[ ]?(?P<u>kg|lb|\#)[ ]?[x*][ ]?(?P<r>\d{1,2})(?P<p>\+)?(?:[ ]?x[ ]?(?P<s>\d{1,2}))?(?![\d.])(?:[ ]?sets)?", lambda found: (Decimal(found["l"]), found["u"], int(found["r"]), bool(found["p"]), int(found["s"] or 1))),
    _rule("loadx", r"(?P<l>\d{2,3}(?:\.\d+)?)[ ]?[x*][ ]?(?P<r>\d{1,2}(?:(?:[ ]|/|,)\d{1,2}(?!\d|[ ]?x|[ ]?%|[ ]?(?:kg|lb))){0,4})(?P<p>\+)?(?:[ ]?x[ ]?(?P<s>\d{1,2}))?(?![\d.])(?![ ]?(?:kg|lb|m\b|cal(?:s|orie\w*)?\b|sec|s\b|%))(?P<u>)", lambda found: (Decimal(found["l"]), "", _ints(found["r"]), bool(found["p"]), int(found["s"] or 1))),
    _rule("setsxm", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*]|of)[ ]?(?P<n>\d+(?:\.\d+)?)[ ]?-?(?P<u>km|k|m|metres?|meters?|cal(?:orie)?s?|ft|feet|yards?|yd|miles?|mi)\b(?![ ]?(?:box|high|hurdle))", lambda found: (int(found["s"]), *_distance(found["n"], found["u"]))),
    _rule("setsxt", rf"(?P<s>\d{{1,2}})[ ]?(?:sets?[ ]?)?(?:x|[*]|of)[ ]?(?P<t>{_D})(?:[ ]?(?:-|to)[ ]?{_D})?", lambda found: (int(found["s"]), seconds(found["t"]))),
    _rule("setsxt", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*])[ ]?(?P<a>\d+)[ ]?-[ ]?\d+[ ]?(?P<u>s|sec|seconds|min)\b", lambda found: (int(found["s"]), seconds(f"{found['a']} {found['u']}"))),
    # loads
    _rule("added", rf"\+[ ]?(?P<a>{_NUM})(?:[ ]?/[ ]?\+?[ ]?(?P<b>{_NUM}))?[ ]?(?P<u>{_U})", lambda found: ([Decimal(each) for each in (found["a"], found["b"]) if each], found["u"])),
    _rule("mass", rf"(?:@|at|with)?[ ]?(?:(?P<i>[12])[ ]?x[ ]?)?(?P<a>{_NUM})[ ]?(?P<u1>{_U})?[ ]?(?P<sep>/|\||-|to(?=[ ]\d)|or(?=[ ]\d))[ ]?(?:(?:[12])[ ]?x[ ]?)?(?P<b>{_NUM})[ ]?(?P<u>{_U})", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], found["u"], int(found["i"] or 1), found["sep"])),
    _rule("mass", rf"(?:@|at|with)?[ ]?(?:(?P<i>[12])[ ]?x[ ]?)?(?P<a>{_NUM})[ ]?(?P<u>{_U})", lambda found: ([Decimal(found["a"])], found["u"], int(found["i"] or 1), "")),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d+(?:\.\d+)?)[ ]?/[ ]?2[ ]?x[ ]?(?P<b>\d+(?:\.\d+)?)(?![\d.])", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2)),
    # amounts
    _rule("cm", rf"(?P<a>{_NUM})(?:[ ]?/[ ]?(?P<b>{_NUM}))?[ ]?cm\b(?:[ ](?:high|box))?", lambda found: [Decimal(each) for each in (found["a"], found["b"]) if each]),
    _rule("inch", r"(?P<a>\d{1,2})[ ]?(?:\"|''|in\b|inch(?:es)?\b)?[ ]?/[ ]?(?P<b>\d{1,2})[ ]?(?:\"|''|in\b(?![ ](?:the|a|one|\d))|inch(?:es)?\b)(?:[ ]box)?|(?P<c>\d{1,2})[ ]?(?:\"|''|-?inch(?:es)?\b)(?=[ ]?(?:box|$|\)|,|high|deficit))(?:[ ]box)?", lambda found: found[0]),
    _rule("feet", r"(?:to[ ](?:a[ ])?)?(?P<a>\d{1,2})[ ]?(?:ft|')?[ ]?/[ ]?(?P<b>\d{1,2})[ ]?(?:ft\b|feet\b|foot\b|')|to[ ](?:a[ ])?(?P<c>\d{1,2})[ ]?-?(?:ft|feet|foot|')(?:[ ]target)?", lambda found: found[0]),
    _rule("calpair", r"(?P<a>\d+)[ ]?/[ ]?(?P<b>\d+)[ ]?-?(?:cal(?:orie)?s?)\b", lambda found: (int(found["a"]), int(found["b"]), "cal")),
    _rule("distpair", r"(?P<a>\d+)[ ]?/[ ]?(?P<b>\d+)[ ]?-?(?:m|metres?|meters?)\b", lambda found: (int(found["a"]), int(found["b"]), "m")),
    _rule("cal", r"(?P<a>\d+)[ ]?-?cal(?:orie)?s?\b", lambda found: int(found["a"])),
    _rule("calword", r"cal(?:orie)?s?\b"),
    _rule("maxcal", r"max(?:imum)?[ ]cal(?:orie)?s?\b"),
    _rule("maxdist", r"max(?:imum)?[ ](?:distance|met(?:re|er)s?|m)\b"),
    _rule("miles", r"(?P<f>\d)/(?P<g>\d)[ ]?-?miles?\b|(?P<h>half)[ ]?-?(?:a[ ])?mile\b|(?P<a>\d+(?:\.\d+)?|\.\d+)[ ]?-?(?:miles?|mi)\b", lambda found: _miles(found)),  # noqa: PLW0108 - it stands below
    _rule("dist", r"(?P<a>\d+(?:\.\d+)?)[ ]?-?(?P<u>km|kilomet(?:re|er)s?|k(?=[ ]|$|[,.;)])|m|metres?|meters?|mtr|ft|feet|foot|yards?|yds?)\b(?![ ]?(?:box|high|target|amrap))", lambda found: _distance(found["a"], found["u"])),
    _rule("time", rf"(?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("minutesmark", r"(?:m|min|mins|minutes?)[ ]?(?P<a>\d{1,2})(?:[ ]?(?:-|to)[ ]?(?P<b>\d{1,2}))?\b[ ]?[:.)-]?", lambda found: (int(found["a"]), int(found["b"] or found["a"]))),
    _rule("rounds", r"(?P<n>\d{1,3})[ ]?(?:more[ ]|full[ ]|good[ ]|easy[ ])?(?:rounds?|rnds?|rds?|circuits?|times[ ]through|times[ ]thru|laps?)\b(?:[ ]of\b)?", lambda found: int(found["n"])),
    _rule("each", _E),
    # bare lists and pairs of numbers
    _rule("list", r"(?P<a>\d{1,2})[ ]?(?:down[ ])?(?:to|-)[ ]?1(?![\d.:%-])(?=[ ]*(?:ladder|reps?[ ]of|$))", lambda found: (list(range(int(found["a"]), 0, -1)), None, False)),
    _rule("list", r"1[ ]?(?:up[ ])?(?:to|-)[ ]?(?P<a>\d{1,2})(?![\d.:%-])(?=[ ]*ladder)", lambda found: (list(range(1, int(found["a"]) + 1)), None, False)),
    _rule("list", r"(?:x[ ]?)?(?P<l>\d{1,3}(?:[ ]?-[ ]?\d{1,3}){2,})(?P<m>[ ]?-?[ ]?(?:\.\.+|…|etc\.?)(?:[ ]?-?[ ]?\d{1,3}\b)?|-(?=\s|$))?(?P<p>\+)?(?![\d:]|[ ]?%)", lambda found: (_ints(found["l"]), _until(found["m"]), bool(found["p"]))),
    _rule("list", r"(?:x[ ]?)?(?P<l>\d{1,3}(?:[ ]?/[ ]?\d{1,3}){2,})(?P<p>\+)?(?![\d:.]|[ ]?(?:%|kg|lb))", lambda found: (_ints(found["l"]), None, bool(found["p"]))),
    _rule("list", r"(?P<l>\d{1,3}(?:[ ]?,[ ]?\d{1,3}){2,})(?P<m>[ ]?,?[ ]?(?:\.\.+|etc\.?)(?:[ ]?,?[ ]?\d{1,3}\b)?)?(?P<p>\+)?(?![\d:.]|[ ]?(?:%|kg|lb|x))", lambda found: (_ints(found["l"]), _until(found["m"]), bool(found["p"]))),
    _rule("list", r"(?P<l>\d{1,2}(?:[ ]\d{1,2}){2,})(?P<p>\+)?(?![\d:.x%]|[ ]?(?:%|kg|lb|x|m|cal(?:s|orie\w*)?\b|min|sec|s|reps?|rounds?)\b|[ ]?%)(?=[ ]*(?:$|[a-z@,.(]))", lambda found: (_ints(found["l"]), None, bool(found["p"]))),
    _rule("complex", r"\(?(?P<l>\d{1,2}(?:[ ]?\+[ ]?\d{1,2})+)\)?(?![\d.]|[ ]?(?:kg|lb))", lambda found: _ints(found["l"])),
    _rule("range", r"(?P<a>\d{1,4})[ ]?(?:-|to)[ ]?(?P<b>\d{1,4})(?![\d:.%-])", lambda found: (int(found["a"]), int(found["b"]))),
    _rule("pair", r"(?:@|at)?[ ]?(?P<a>\d{1,3}(?:\.\d+)?)[ ]?/[ ]?(?P<b>\d{1,3}(?:\.\d+)?)(?![\d/]|[ ]?(?:poods?|pd)\b)", lambda found: (Decimal(found["a"]), Decimal(found["b"]))),
    _rule("word", r"(?:\d+(?:\.\d+)?[ ]?/[ ]?)?\d+(?:\.\d+)?[ ]?(?:poods?|pd)\b"),
    _rule("plus", r"(?P<a>\d{1,3})\+(?![ ]?\d)", lambda found: int(found["a"])),
    _rule("atlist", r"@[ ]?(?P<l>\d{2,3}(?:\.\d)?(?:(?:[ ]?[,-][ ]?|[ ]|[ ]?/[ ]?)\d{2,3}(?:\.\d)?){1,9})(?![\d.]|[ ]?(?:%|kg|lb|x|m\b|sec|s\b|min))", _at_list),
    _rule("atx", r"@[ ]?(?P<a>\d+(?:\.\d+)?)(?![\d%])", lambda found: Decimal(found["a"])),
    _rule("xnum", r"x[ ]?(?P<a>\d{1,3})(?![\d.:]|[ ]?(?:kg|lb|%|m\b|cal(?:s|orie\w*)?\b))", lambda found: int(found["a"])),
    _rule("reps", r"(?P<a>\d{1,4})[ ]?-?(?:reps?|x)\b(?=[ ]|$|[,.;:)@-])", lambda found: int(found["a"])),
    _rule("num", r"(?P<a>\d+(?:\.\d+)?)(?![\d])", lambda found: Decimal(found["a"])),
    # words with a meaning
    _rule("buyin", r"buy[ ]?-?in\b"),
    _rule("cashout", r"cash(?:es)?[ ]?-?out\b"),
    _rule("odd", r"odd\b(?:[ ]?(?:minutes?|mins?))?"),
    _rule("even", r"even\b(?:[ ]?(?:minutes?|mins?))?"),
    _rule("alternate", r"alternat(?:e|es|ing|ely)\b(?![ ](?:arms?|legs?|hands?|sides?|dumbbell|db|lunge|step|snatch))|in[ ]turn\b"),
    _rule("men", r"(?:for[ ](?:the[ ])?)?(?:men|guys|males?|boys|herren|männer|gents|rx)\b"),
    _rule("women", r"(?:for[ ](?:the[ ])?)?(?:women|ladies|girls|females?|gals|damen|frauen)\b"),
    _rule("same", r"(?:at[ ]|with[ ]|@[ ]?)?(?:the[ ])?same[ ](?:weight|load|bar)\b(?:[ ]as[ ](?:above|before|last[ ](?:week|time)|a\d?))?"),
    _rule("lastweek", rf"(?:last[ ](?:week|time)|letzte[ ]week)(?:'s)?(?:[ ](?:weight|load))?[ ]?(?:\+|plus)[ ]?(?P<a>{_NUM})[ ]?(?P<u>kg|lb)?|\+[ ]?(?P<a2>{_NUM})[ ]?(?P<u2>kg|lb)[ ](?:to|on|from|over|vs)[ ]last[ ](?:week|time)"),
    _rule("emptybar", r"(?:the[ ]|an[ ])?empty[ ](?:bar|barbell)\b|just[ ]the[ ]bar\b|bar[ ]only\b|\bleere[ ]stange\b"),
    _rule("climb", r"(?:and[ ])?(?:climb(?:ing)?|ascending|building|build|add(?:ing)?[ ]weight|heavier[ ]each[ ]set|go(?:ing)?[ ]up[ ]each[ ]set|build[ ]up|across|increas(?:e|ing)(?:[ ]each[ ]set)?)\b"),
    _rule("implement", r"(?:(?P<two>two|2|one|1|pair[ ]of|single)[ ])?(?P<i>barbells?|bb|dumbbells?|dbs?|kettlebells?|kbs?|machine|cable|body[ ]?weight|sandbag|sled|rings?|band(?:ed)?)(?=[ ]*(?:[,:;()]|$))", lambda found: (found["i"], found["two"] or "")),
    _rule("orword", r"or\b|none\?|otherwise\b"),
    _rule("andword", r"(?:and[ ])?then\b|and\b|&|plus\b"),
    _rule("sep", r"[,;+/]|-(?=[ ])|>|\||:|\(|\)|\.(?=[ ]|$)"),
    _rule("word", r"[^\W\d_][^\s,;:()|/+@]*|[^\s]"),
)  # fmt: skip
_SPACE = re.compile(r"\s+")
_NAME_WORD = re.compile(r"[^\W_]+(?:[&+][^\W_]+)?")
_STARTS_NAME = re.compile(r"[^\W_]")
# Rules that only fit at a digit or at certain letters are not tried elsewhere; found by trying each rule's first sign.
_NO_FIRST = frozenset({"single", "and", "or", "go", "to", "for", "with"})
_NOT_NAMES = frozenset({"rest", "rope", "sumo", "single", "singles", "get up", "course", "flexion"})


def _distance(number: str, unit: str) -> tuple[Any, str]:
    value = Decimal(number.replace(",", "."))
    if unit.startswith(("km", "kilo")) or unit == "k":
        return int(value * 1000), "m"
    if unit.startswith("cal"):
        return int(value), "cal"
    if unit.startswith(("mi", "mile")):
        return round(float(value) * 1609), "m"
    if unit.startswith(("ft", "feet", "foot")):
        return int(value), "ft"
    if unit.startswith("y"):
        return int(value), "yd"
    return int(value), "m"


def _miles(found: re.Match[str]) -> tuple[int, str]:
    if found["f"]:
        return round(1609 * int(found["f"]) / max(int(found["g"]), 1)), "m"
    if found["h"]:
        return round(1609 / 2), "m"
    return round(1609 * float(found["a"])), "m"


def _until(more: str | None) -> int | str | None:
    """What a list that goes on says of its end: a last number, "on" without one, None where it does not go on."""
    if not more:
        return None
    numbers = _ints(more)
    return numbers[0] if numbers else "on"


def tokens_of(text: str, *, lift: bool = False) -> list[Token]:
    """Part a text (lower case, see `plain_words`) into tokens.

    Args:
        text: The text.
        lift: Whether names are looked up as lifts (a "squat" is a barbell's) or as movements of a piece (an air squat).
    """
    return list(_cached(text, lift))


@lru_cache(maxsize=4096)
def _cached(text: str, lift: bool) -> tuple[Token, ...]:
    return tuple(_tokens(text, lift=lift))


def _tokens(text: str, *, lift: bool) -> Iterator[Token]:
    at = 0
    words = list(_NAME_WORD.finditer(text))
    starts = {word.start(): index for index, word in enumerate(words)}
    while at < len(text):
        if space := _SPACE.match(text, at):
            at = space.end()
            continue
        name = _name_at(text, words, starts, at, lift=lift)
        made: Token | None = None
        for kind, pattern, value in RULES:
            if found := pattern.match(text, at):
                if found.end() == at:
                    continue
                if (
                    name is not None
                    and (name.end >= found.end() or kind in ("word", "sep", "setlabel"))
                    and kind not in _STRONGER
                ):
                    break
                given = value(found)
                if given is None and kind in ("find", "atlist"):
                    continue
                made = Token(kind, given, at, found.end(), found[0])
                break
        if made is None and name is not None:
            made = Token("name", name, at, name.end, text[at : name.end])
        if made is None:
            made = Token("word", text[at], at, at + 1, text[at])
        yield made
        at = made.end


_STRONGER = frozenset({"rest", "onoff", "emom", "every", "amrap", "amrapx", "buyin", "cashout"})


def _name_at(text: str, words: list[re.Match[str]], starts: dict[int, int], at: int, *, lift: bool) -> Found | None:
    index = starts.get(at)
    if index is None or (
        words[index].group() in _NO_FIRST
        and not (
            words[index].group() == "single"
            and index + 1 < len(words)
            and words[index + 1].group() in ("under", "unders", "leg", "arm")
        )
    ):
        return None
    if (
        words[index].group().startswith("cluster")
        and index + 1 < len(words)
        and words[index + 1].group() in ("set", "sets")
    ):
        return None
    found = longest(words, index, lift=lift)
    if found is not None and found[0] == 1 and words[index].group() == "single":
        found = None  # "single" begins another name; "singles" are single unders
    if found is None:
        found = _composed(words, index, lift=lift)
    if found is None:
        return None
    count, known = found
    end = words[index + count - 1].end()
    typed = text[at:end]
    if any(sign in typed for sign in ",;:()|/"):
        return None
    name, entry = full_name(typed, lift=lift)
    return Found(at, end, name, entry or known, typed)


def _composed(words: list[re.Match[str]], index: int, *, lift: bool) -> tuple[int, Any] | None:
    """Find a name behind words that make another one of it, such as "strict" or "db"."""
    for skip in range(1, 4):
        if index + skip >= len(words):
            return None
        between = words[index + skip - 1]
        if not re.fullmatch(r"[\s'-]*", between.string[between.end() : words[index + skip].start()]):
            return None
        if found := longest(words, index + skip, lift=lift):
            count = skip + found[0]
            typed = between.string[words[index].start() : words[index + count - 1].end()]
            name, entry = full_name(typed, lift=lift)
            if entry is not None and name != typed:
                return count, entry
            if entry is not None:
                return count, entry
            return None
    return None
