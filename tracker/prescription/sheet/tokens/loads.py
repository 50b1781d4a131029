"""Rules of tokens that say how heavy or how hard: efforts, tempos, percentages and what they are of, loads with a unit."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.tokens.durations import NOT, Rule
from tracker.prescription.sheet.tokens.durations import rule as _rule

UNIT = r"(?:kg\b|kilos?\b|k(?=\s?(?:kb|kettle|db\b|dbs\b|dumb|bell))|lb\b|lbs\b|pounds?\b|\#)"
_U = UNIT
_NUM = r"\d+(?:\.\d+)?"


def numbers(text: str) -> list[Decimal]:
    return [Decimal(each) for each in re.findall(_NUM, text)]


_ABOUT = r"(?:(?:@|at|about)[ ]?)?(?:about[ ]|around[ ]|roughly[ ]|~[ ]?|ca\.?[ ]|max\.?[ ]|up[ ]to[ ]|[(@][ ]?)?"


def _effort(found: re.Match[str]) -> Any:
    low, high = found["a"], found["b"]
    return NOT if high and not float(low) < float(high) <= 10 else (low, high)


def _percents(found: re.Match[str]) -> Any:
    """Percentages whose last one alone has the sign; a small number before them is of repetitions."""
    amounts = numbers(found["l"])
    return (amounts, found["l"]) if min(amounts) >= 20 else NOT


def _in_brackets(found: re.Match[str]) -> Any:
    """Four counts in brackets are a tempo where one of them is none, or where the line says so: `(3-1-1-0)`."""
    counts = re.findall("[0-9x]", found["t"])
    told = re.search(r"\btempo\b|\bkadenz\b", found.string) is not None
    return "-".join(counts).upper() if told or {"0", "x"} & set(counts) else NOT


LOAD_RULES: tuple[Rule, ...] = (
    # effort; where the second number is no end of a range, the first stands alone
    _rule("rpelist", rf"(?:@|at)?[ ]?rpe[ ]?[:=~@]?[ ]?(?P<l>{_NUM}(?:[ ]?[/,>][ ]?{_NUM}){{2,9}})(?![\d.]|[ ]?(?:x|min|sec|s\b))", lambda found: numbers(found["l"])),
    _rule("rpe", rf"(?:@|at)?[ ]?(?:an[ ])?rpe[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to|/)[ ]?(?P<b>{_NUM})(?!\d|[ ]?(?:min|mins|m|s|sec|secs|seconds?|minutes?|x)\b|[ ]?['\":]))?", _effort),
    _rule("rpe", rf"(?:@|at)?[ ]?(?:an[ ])?rpe[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?P<b>)", _effort),
    _rule("rpe", rf"(?:@|at)?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to)[ ]?(?P<b>{_NUM}))?[ ]?rpe\b", _effort),
    _rule("rpe", rf"(?:@|at)?[ ]?(?:an[ ]|a[ ])?(?:effort|difficulty|intensity)(?:[ ]of)?[ ](?P<a>{_NUM})(?P<b>)[ ]?(?:out[ ]of|/|of)[ ]?10", _effort),
    _rule("rpe", r"(?:like[ ]|about[ ]|around[ ]|at[ ]|@[ ]?)*(?:an?[ ])?(?P<a>10|[1-9](?:\.5)?)(?P<b>)[ ]out[ ]of[ ](?:10|ten)\b(?:[ ](?:effort|difficulty|hard))?", _effort),
    _rule("rpe", r"(?:@|at)[ ]?(?:a[ ]|an[ ])?(?P<a>10|[1-9](?:\.5)?)(?P<b>)[ ]?(?:out[ ]of|/)[ ]?10(?:[ ](?:effort|difficulty|hard))?\b", _effort),
    _rule("rir", rf"(?:@|at|with)?[ ]?rir[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?:[ ]?(?:-|to)[ ]?(?P<b>{_NUM})(?!\d|[ ]?(?:min|mins|m|s|sec|secs|seconds?|minutes?|x)\b|[ ]?['\":]))?", _effort),
    _rule("rir", rf"(?:@|at|with)?[ ]?rir[ ]?[:=~@]?[ ]?(?P<a>{_NUM})(?P<b>)", _effort),
    _rule("rir", rf"(?:@|at|with|leave|leaving|keep|keeping)?[ ]?(?:about[ ])?(?P<a>{_NUM})(?:[ ]?(?:-|to|or)[ ]?(?P<b>{_NUM}))?[ ]?(?:reps?[ ])?(?:left[ ])?(?:rir\b|in[ ](?:the[ ]|your[ ])?(?:tank|reserve)\b|left[ ]in[ ](?:the[ ]|your[ ])?tank)", _effort),
    _rule("rir", rf"(?:leave|leaving|keep|keeping)[ ](?:about[ ])?(?P<a>{_NUM})(?:[ ]?(?:-|to|or)[ ]?(?P<b>{_NUM}))?[ ]?(?:good[ ])?reps?(?:[ ](?:left|in[ ](?:the[ ])?bank))?", _effort),
    _rule("rir", rf"(?:with[ ])?(?P<a>{_NUM})(?P<b>)[ ]?reps?[ ](?:left|short[ ]of[ ]failure|shy[ ]of[ ]failure|from[ ]failure)\b", _effort),
    _rule("rir", rf"stop(?:ping)?[ ](?:about[ ])?(?P<a>{_NUM})(?:[ ]?(?:-|to|or)[ ]?(?P<b>{_NUM}))?[ ](?:reps?[ ])?(?:before|short|shy|from)\b(?:[ ]of)?(?:[ ](?:failure|ugly|you[ ]fail|form[ ]breaks))?", _effort),
    _rule("tempo", r"(?:@[ ]?)?(?:tempo|kadenz)[ ]?[:@]?[ ]?\(?(?P<t>[0-9x](?:[ ]?[-/.:,]?[ ]?[0-9x]){2,3})(?![0-9a-z])\)?|@[ ]?(?P<t2>[0-6]{2}x[0-4])(?![0-9a-z])(?:[ ]?tempo\b)?|(?:@[ ]?)?(?P<t3>[0-9x]{4}|[0-9x](?:[-/.][0-9x]){3})[ ]tempo\b|@[ ]?(?P<t4>[0-6][0-6][0-6x][0-6](?<!00)|[0-9](?:-[0-9x]){3}|[2-6]-[0-3]-[0-2x])(?![0-9a-z.]|,\d|-\d|[ ]?(?:kg|lb|%|m\b))",
          lambda found: "-".join(re.findall("[0-9x]", found["t"] or found["t2"] or found["t3"] or found["t4"])).upper()),
    _rule("tempo", r"\([ ]?(?P<t>[0-9](?:[ ]?[-/.][ ]?[0-9x]){3})[ ]?\)", _in_brackets),
    # percentages and what they are of
    _rule("of", rf"(?:(?:all[ ])?%'?s?[ ]?)?(?:of|off|from)[ ](?:your[ ]|the[ ]|ur[ ])?(?:tm|training[ ]max)[ ]?[(=,:][ ]?(?:=[ ]?|which[ ]is[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?:(?P<n>\d{{1,2}})[ ]?-?rm|max)\b\)?", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("tm", rf"(?:\(?(?:tm|training[ ]max)\b)[ ]?(?:is|=|:|means|at)[ ]?(?P<p>{_NUM})[ ]?%(?:[ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?:(?P<n>\d+)[ ]?-?rm|max|real[ ]max|true[ ]max))?", lambda found: (Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?:%[ ]?)?(?:of|from)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|his[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:tm|training[ ]max)\b(?:[ ]of[ ](?P<n>\d{{1,2}})[ ]?-?rm\b)?", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?:all[ ])?(?:%'?s?|percent(?:age)?s?)[ ](?:are[ ])?(?:of|from|off)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:of[ ])?(?:the[ ]|your[ ]|ur[ ])?(?:(?P<n>\d{{1,2}})[ ]?-?rm|max)\b", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", rf"(?<=[(])of[ ](?:your[ ]|the[ ])?(?P<p>{_NUM})[ ]?%[ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?:(?P<n>\d{{1,2}})[ ]?-?rm|max)\b", lambda found: ("tmp", Decimal(found["p"]), int(found["n"] or 1))),
    _rule("of", r"(?:of|off)[ ](?:today'?s|the[ ]day'?s|your|the)[ ]heavy[ ](?P<w>single|double|triple)\b(?:[ ](?:of[ ])?(?:the[ ]day|today))?", lambda found: ("heavy", {"single": 1, "double": 2, "triple": 3}[found["w"]])),
    _rule("of", r"(?:%[ ]?)?of[ ]today'?s[ ]heavy[ ](?P<n>\d{1,2})\b", lambda found: ("heavy", int(found["n"]))),
    _rule("of", r"(?:(?:all[ ])?%'?s?[ ]?|percent(?:age)?s?[ ]?)?(?:of|from|off|=|is|are|based[ ]on|vom|del|du|de|on)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|an[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|est\.?[ ]|best[ ]|real[ ]|true[ ]|recent[ ]|old[ ]|tested[ ]|their[ ]){0,3}(?:training[ ]?-?max(?:es)?|tm)\b(?:,?[ ]?not[ ](?:of[ ])?(?:your[ ]|the[ ]|ur[ ])?(?:real[ ]|true[ ]|actual[ ]|tested[ ])?(?:1[ ]?rm|max)\b)?", lambda found: ("tm",)),
    _rule("of", r"%?[ ]?(?:training[ ]max|tm)\b(?![ ]?test)", lambda found: ("tm",)),
    _rule("of", r"(?:(?:%'?s?[ ]?)?(?:of|from|off|based[ ]on|vom|del|du|de)|(?:all[ ])?%'?s?[ ]?(?:=|is|are|:))[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|an[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|est\.?[ ]|best[ ]|e|real[ ]|true[ ]|recent[ ]|tested[ ]|today'?s[ ]|heavy[ ]){0,3}(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm\b|rep[ -]?max\b|reps?[ ]max\b)", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?:%'?s?[ ]?)?(?:of|from|off|based[ ]on)[ ](?:the[ ]|your[ ]|ur[ ]|a[ ]|my[ ]|last[ ]|current[ ]|new[ ]|estimated[ ]|best[ ]|real[ ]|true[ ]|recent[ ]|one[ ]|1[ ]|old[ ]){0,3}(?:one[ ]?-?rep[ -]?)?(?:max(?:imum|es)?|pr|pb)\b(?![ ](?:reps|cal(?:s|orie\w*)?\b))", lambda found: ("max",)),
    _rule("of", r"(?:(?:in|as|by|using|with)[ ])?(?:(?:your|the|ur|a)[ ])?(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm|rep[ -]?max)[ ]?(?:-?[ ]?(?:based|derived)\b(?:[ ](?:loads?|weights?|percent(?:age)?s?|%))?|%'?s?(?![ ]?\d)|percent(?:age)?s?\b|per[ ]cent\b)", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?:work(?:ing)?|calculate[d]?|reckon(?:ed)?|taken?|figured?|numbers?|loads?|weights?|all|everything)[ ](?:off|from|on|of)[ ](?:the[ ]|your[ ]|ur[ ]){0,2}(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm|rep[ -]?max)\b", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"\([ ]?(?:of[ ])?(?:your[ ]|the[ ])?(?P<n>\d{1,2})[ ]?-?rm[ ]?\)", lambda found: ("rm", int(found["n"])) if re.search(r"%|@ ?\d{2}", found.string[: found.start()]) else NOT),
    _rule("of", r"(?:base|basis|reference|ref)[ ]?(?:is|=|:)[ ]?(?:the[ ]|your[ ]|ur[ ]){0,2}(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm|rep[ -]?max)\b", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?:of|off)[ ](?:it|that|this|those|heaviest|today'?s(?:[ ]\w+)?|what[ ]you[ ](?:hit|got|did))\b(?:[ ](?:snatch|clean|single|double|triple|top[ ]set|heavy|weight|load)(?:[ ]of[ ]today|[ ]today)?)?", lambda found: ("it",)),
    _rule("of", r"(?<=%[ ])of[ ](?:the|your|today'?s)[ ](?:heavy[ ]|top[ ])?(?:single|double|triple)(?:[ ](?:of[ ])?(?:the[ ]day|today))?", lambda found: ("it",)),
    _rule("of", r"(?<=%[ ])(?P<n>\d{1,2})[ ]?-?rm\b", lambda found: ("rm", int(found["n"]))),
    _rule("of", r"(?<=%[ ])(?:of[ ])?(?:bw|bodyweight|body[ ]weight)\b", lambda found: ("bw",)),
    _rule("pctoff", r"(?:(?:drop|take|reduce(?:[ ]by)?|minus|-)[ ]?(?:about[ ])?)?(?P<l>\d{1,2})(?:[ ]?(?:-|to)[ ]?\d{1,2})?[ ]?%[ ]?(?:off|less|drop|down|lighter)\b|(?:drop|minus|reduce(?:[ ]by)?|take[ ]off)[ ](?:about[ ])?(?P<m>\d{1,2})[ ]?%|(?<![\d%.])-[ ]?(?P<k>5|10|15|20|25|30)[ ]?%", lambda found: 100 - int(found["l"] or found["m"] or found["k"])),
    # a list of percentages has its sign behind each of them, or behind the last one alone
    _rule("pct", rf"{_ABOUT}(?P<l>{_NUM}[ ]?%(?:[ ]?(?:->|-|to|,|/|>|;|and|&)[ ]?{_NUM}[ ]?%){{1,11}})(?![ ]?(?:x[ ]?\d|[:(][ ]?\d|for[ ]\d|-[ ]\d|\d+[ ]?x|,[ ]\d+\+?[ ]?reps))", lambda found: (numbers(found["l"]), found["l"])),
    _rule("pct", rf"{_ABOUT}(?P<l>{_NUM}(?:[ ]?(?:->|-|to|,|/|>|;|and|&)[ ]?{_NUM}){{1,11}}[ ]?\+?%)", _percents),
    _rule("pct", rf"{_ABOUT}(?P<l>[3-9]\d(?:\.5)?(?:[ ]+(?:[3-9]\d|10\d)(?:\.5)?){{2,11}}[ ]?%)", _percents),
    _rule("bells", rf"@[ ](?P<l>{_NUM})[ ]bells\b", lambda found: Decimal(found["l"])),
    _rule("pct", rf"{_ABOUT}(?P<l>{_NUM})[ ]?\+?%", lambda found: (numbers(found["l"]), found["l"])),
    _rule("pct", rf"@?[ ]?%[ ]?(?P<l>{_NUM}(?:[ ]?[-/,][ ]?{_NUM}){{0,9}})", lambda found: (numbers(found["l"]), found["l"])),
    _rule("pct", r"(?:take[ ]|@[ ]?|at[ ]|about[ ])?(?P<l>\d{2,3})[ ](?=of[ ](?:that|it|this|your[ ]max|the[ ]max|max|1[ ]?rm|your[ ]1[ ]?rm)\b)", lambda found: (numbers(found["l"]), found["l"])),
)  # fmt: skip


def _masses(found: re.Match[str]) -> Any:
    """Loads of sets one by one, in one unit."""
    units = {"lb" if each.startswith(("lb", "#", "pound")) else "kg" for each in re.findall(r"[a-z#]+", found["l"])}
    amounts = numbers(found["l"])
    return (amounts, found["l"], units.pop()) if len(units) == 1 and min(amounts) >= 5 else NOT


MASS_RULES: tuple[Rule, ...] = (
    # three and more loads, or two with a comma or an arrow, are those of sets one by one
    _rule("masslist", rf"{_ABOUT}(?P<l>{_NUM}(?:[ ]?{_U})?(?:[ ]?(?:->|-|,|/|>|;)[ ]?{_NUM}(?:[ ]?{_U})?){{2,11}})(?<=[a-z\#])(?<!k(?=[ ]?kb))", _masses),
    _rule("masslist", rf"{_ABOUT}(?P<l>{_NUM}[ ]?{_U}[ ]?(?:->|,|>)[ ]?{_NUM}[ ]?{_U})(?![ ]?(?:for[ ])?(?:men|women|ladies|guys|girls|males?|females?))", _masses),
    # loads
    _rule("added", rf"\+[ ]?(?P<a>{_NUM})(?:[ ]?/[ ]?\+?[ ]?(?P<b>{_NUM}))?[ ]?(?P<u>{_U})", lambda found: ([Decimal(each) for each in (found["a"], found["b"]) if each], found["u"])),
    _rule("mass", rf"(?:@|at|with)?[ ]?(?:about[ ]|around[ ]|~)?(?:(?P<i>[12])[ ]?x[ ]?)?(?P<a>{_NUM})[ ]?(?P<u1>{_U})?[ ]?(?P<sep>/|\||-|to(?=[ ]\d)|or(?=[ ]\d))[ ]?(?:(?:[12])[ ]?x[ ]?)?(?P<b>{_NUM})[ ]?(?P<u>{_U})", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], found["u"], int(found["i"] or 1), found["sep"])),
    _rule("mass", rf"(?:@|at|with)?[ ]?(?:about[ ]|around[ ]|~)?(?:(?P<i>[12])(?:[ ]?x[ ]?|[ ](?=\d+(?:\.\d+)?[ ]?(?:kg|lb)[ ]?(?:kb|db|kettleb|dumbb))))?(?P<a>{_NUM})[ ]?(?P<u>{_U})", lambda found: ([Decimal(found["a"])], found["u"], int(found["i"] or 1), "")),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d+(?:\.\d+)?)[ ]?/[ ]?2[ ]?x[ ]?(?P<b>\d+(?:\.\d+)?)(?![\d.]|[ ]?%)", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2)),
)  # fmt: skip
