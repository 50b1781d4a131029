"""Sets, rests and maxes as lifters jot them down, put into the form that is read: `sn 70/2 75/2 80/1x3`, `2' off`, `1st wave`."""

from __future__ import annotations

import re
from collections.abc import Callable

_LONG = r"(?:\d{1,3}(?:[.:]\d{1,2})?(?:-\d(?:\.5)?)? ?(?:min(?:ute)?s?\b|secs?\b|seconds?\b|s\b|'(?!\d)|\"))"
_ENDS = r"(?=\s*(?:$|[.,;)](?!\d)))"
_ORDER = {"first": 1, "second": 2, "third": 3, "fourth": 4, "one": 1, "two": 2, "three": 3, "four": 4, "i": 1, "ii": 2, "iii": 3, "iv": 4, "last": 9}  # fmt: skip
# What is done is the lift that the coach names next: "we squat first: back squats, 5 sets"
_NAMED_NEXT = re.compile(
    r"(?:^\W*|\b(?:we|you|you'll|we'll|i|let's|today|tonight|first|then) )(?P<v>squat|press|bench|deadlift|pull|clean|snatch|jerk)(?:s|ing)?(?: (?:first|today|heavy|again|tonight|day|time|next|then))*\s*(?:[:(-]|,(?= (?:back|front|box|overhead|push|strict|bench|power|hang)\b))\s*"
    r"(?=(?:the |our |we do |today )?(?:[a-z]+ ){0,2}(?P=v))"
)
_KIND_BEHIND = re.compile(
    r"\bsquats?(?: (?:first|today|again|heavy|tonight))?,? ?[(:] ?(?P<k>back|front|overhead|box|goblet)\b(?! squat)[^)\d]{0,12}\)?(?P<e>:?)"
)
# A lift and its loads with their repetitions and sets: "cj 70/1+1 75/1+1 80/1+1x2", "fs 80/3x3"
_JOTTED = re.compile(
    r"^(?P<n>\W*[a-z&][a-z&() .+-]{0,28}?):? +(?P<all>(?:\d{2,3}(?:\.5)? ?%?/[1-9](?:\+[1-9])*(?:x[1-9]\d?)?(?:[ ,;]+|$))+)\W*$"
)
_ONE_JOTTED = re.compile(r"(\d{2,3}(?:\.5)?)( ?%)?/([1-9](?:\+[1-9])*)(?:x([1-9]\d?))?")
_LIGHTEST_JOTTED = 35.0  # less than this over a small number is rather a pair for two groups; design choice


def _wave(found: re.Match[str]) -> str:
    word = found["a"] or found["b"] or ""
    number = _ORDER.get(word) or int(re.match(r"\d+", word)[0])  # type: ignore[index]
    return f"wave {number}: " if re.search(r"wave\W*$", found[0]) else ""


def _jotted(found: re.Match[str]) -> str:
    parts = list(_ONE_JOTTED.finditer(found["all"]))
    if any(float(each[1]) < _LIGHTEST_JOTTED for each in parts):
        return found[0]
    told = [f"{each[4] or 1} x {each[3]} @ {each[1]}{each[2] or ''}" for each in parts]
    return f"{found['n']} {', '.join(told)}"


def _as_many(found: re.Match[str]) -> str:
    count = len(re.findall(r"\d{2,3}(?:\.\d)?", found["l"]))
    return f"{count}x{found['r']} @ {found['l']}"


def _attempts(found: re.Match[str]) -> str:
    count = len(re.findall(r"\d{2,3}(?:\.\d)?", found["l"]))
    return found[0] if found["n"] and int(found["n"]) != count else f"{count}x1 @ {found['l']}"


_RULES: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = tuple(
    (re.compile(pattern), word)
    for pattern, word in (
        # waves are numbered, and no lift
        (r"^\W*(?:(?P<a>first|second|third|fourth|last|[1-4] ?(?:st|nd|rd|th)) wave|wave (?P<b>one|two|three|four|iv|i{1,3}|\d))\s*[:.)=-]*\s+(?=\d)", _wave),
        # every two minutes, without "on the minute"
        (r"\be ?(\d(?:[:.]\d+)?) ?m\b(?= ?(?:x ?\d|\d+ ?min|for\b|\d{1,2}\b|:|$))", r"e\1mom"),
        (r"(?<=\d) ?(?:tng|t&g|tap and go)\b(?= ?(?:@|at\b))", " reps touch and go "),
        # sets that a stroke parts
        (r"(@ ?\d{2,3}(?:\.5)?) ?/ ?(?=(?:\d{1,2} ?x ?)?\d{1,2}\+? ?@ ?\d|(?:amrap|max)\b)", r"\1, "),
        # a scheme by name, then its sets: "5/3/1: 65 % x5, 75 % x3, 85 % x1+"
        (r"\b\d{1,2}(?:[/-]\d{1,2}){2,}\+? ?[:(-] ?(?=\d{2,3} ?% ?x ?\d{1,2}\+?(?:\W+\d{2,3} ?% ?x ?\d{1,2}\+?)+)", ""),
        (r"(?<=x)( ?)\((\d(?:\.\d)+)\)", r"\1\2"), (r"^\W*cluster sets? ?[:-] ?(?=\d)", ""),
        (r"\bof what (?:you|u|we) (?:hit|did|got|lifted|made|managed) for (?:a )?(?:set of )?(\d{1,2})\b", r"of your \1rm"),
        # attempts at so much each
        (r"\b(?:(?P<n>[2-6]) )?attempts? ?(?:at|@|[:-])? ?(?P<l>\d{2,3}(?:\.5)?(?: ?%| ?kg)?(?: ?[/,-] ?\d{2,3}(?:\.5)?(?: ?%| ?kg)?){1,5})(?!\d)", _attempts),
        # whose max: "of last week's 3RM", "of your best 3"
        (r"(?<= of )(?:(?:the |your )?(?:last|this|that) (?:week|month|year|test(?:ing)?|mon|tues|wednes|thurs|fri|satur|sun)(?:day|s)?'?s?|yesterday'?s|(?:the |your )?(?:most )?recent|your newest) (?=\d{1,2} ?-?rm\b)", "your "),
        (r"(?<=% of )(?:the |your |a )?(?:best|heaviest|top) (?:set of )?(?P<n>[1-9]|10)(?: reps?)?(?=\s*(?:$|[,;.)]|from\b|of\b))", r"your \g<n>rm"),
        (r"(?<=% of )(?:the |your |a )?(?:best|heaviest) (?:triple)\b", "your 3rm"), (r"(?<=% of )(?:the |your |a )?(?:best|heaviest) (?:double)\b", "your 2rm"),
        (r"\byr\b(?=[ ]+(?:\d{1,2} ?-?rm|max|tm|best|own|time|score))", "your"),
        (r"^\W*work ?/ ?(?:rest|off) ?[:=-] ?(?=\d)", ""),
        (r"(?<=x)( ?\d{1,2}\+)(?= (?:at |@ ?|with |on )?(?:the |that )?same\b)", r"\1,"),
        (r"\b(?:its|it's|it is|that's|we have|we've got) (?=(?:a |the |heavy |light |time for )*(?:(?:back|front|overhead|box|split|power|push|strict|bench) )?(?:bench|deadlifts?|squats?|press(?:es)?|cleans?|snatch(?:es)?|jerks?)\b)", ""),
        # what was done the week before
        (r"\b(?:last (?:week|time)|the week before) (?:you|we|u|everyone|most of you) (?:did|had|hit|took|used|went|got|lifted)[^,.;:]{3,40}?(?:[,.;]| so| and| but| now)* (?=this (?:week|time|one)|now\b|today\b)", ""),
        (r"\blast (?:week|time)\b(?! ?\+)[^.;:%@\d]{0,20}\d[\d.]* ?(?:kg|lb|%)?[^.;:@\d+]{0,30}?\b(?:so|today|now|this (?:week|time)),? (?:let's |we |you )?(?:try|take|go for|go to|go|do|use|make it) (?=\d)", "@ "),
        (r"\bround(?:ed|ing)? (?:it )?(?:down|up|off)?(?: or (?:down|up))? ?(?:to|by) (?:the )?(?:nearest |next )?\d+(?:\.\d+)? ?(?:kg|lb)\b", "rounded to the discs"),
        # a heavy one that is no test
        (r",? ?\b(?:not|no) (?:a |an |your |to |the )?(?:true |real |all[- ]out )?(?:max(?:imum|es|ing)?(?: (?:effort|attempts?|out|tests?))?|1 ?rm(?: (?:attempts?|tests?))?|pr|pb)(?: today)?(?=\s*(?:$|[.;)!]|, ?[a-z]))", ""),
        (r"^\W*max effort(?: day| work| lift| upper| lower)?\s*[:-]\s*", ""),
        # a stop within a repetition is no rest, a pair of bells no time
        (r"\b([1-5]) ?(?:s|secs?|seconds?)[ -]?(?:pauses?|holds?|stops?)\b", r"\1-count stop"), (r"(?<![\d:-])\b([1-3]) ?(?:s|secs?|seconds?) rest\b", r"\1-count stop"),
        (r"\bat (?=\d{2,3}(?:\.5)?(?:, ?\d{2,3}(?:\.5)?){1,6}(?![\d.]) ?(?:%|$|[.;)]|of\b))", "@ "),
        (r"(?<![x\d] )\b(?:two|2|a pair of|pair of) (\d{2}(?:\.5)?)'?s\b(?=\s*(?:$|[,.;)]))", r"dumbbells @ \1 bells"),
        # sets, repetitions and load one after the other, in words
        (r"(?<!\d )\bsets?[:=]? ?(\d{1,2}),? (?:and )?reps?[:=]? ?(\d{1,2})\b", r"\1 x \2"), (r"(?<!\d )\breps?[:=]? ?(\d{1,2}),? (?:and )?sets?[:=]? ?(\d{1,2})\b", r"\2 x \1"),
        (r"\beach (?:set|one) (?:is|has|=|of) (\d{1,2}) ?reps?\b", r"\1 reps"), (r"\b(?:the )?(?:load|weight|intensity|percentage) (?:is|are|will be|should be) (?=(?:about |around )?\d{2,3}(?:\.5)? ?(?:%|kg|lb))", "@ "),
        (r"\b(?P<r>[1-9]|1[0-2])'?s ?(?:@|at) ?(?P<l>\d{2,3}(?:\.5)?(?: ?[/,] ?\d{2,3}(?:\.5)?)+)(?![\d.])", _as_many),
        # from week to week: no load of today
        (r"\b(?:add(?:ing)? |plus |\+ ?|up )?(?:by )?(\d{1,2}(?:[.,]\d{1,2})?) ?(kg|lb|%) (?:more |extra |heavier |mehr |de plus |más |up )?(?:each|every|per|a|pro|jede|par|chaque|cada) (?:week|woche|semaine|semana)\b", "heavier each week"),
        (r"\b(?:each|every|jede|chaque|cada) (?:week|woche|semaine|semana),?\s+(?:we |you |wir |on |)?(?:add |go up |plus |\+ ?|um )?(?:by )?(\d{1,2}(?:[.,]\d{1,2})?) ?(kg|lb|%)(?: (?:more|mehr|de plus|más|heavier|schwerer))?", "heavier each week"),
        # a pull is that of the lift in brackets
        (r"\b(?P<h>high )?(?P<p>pulls?|balance|deadlifts?) ?\((?P<l>sn|snatch|cl|cln|clean)\)", r"\g<l> \g<h>\g<p>"),
        # rests by other words
        (rf"(?P<t>{_LONG}) (?:of )?(?:naps?|breathers?|chill(?:ing)?|downtime|to (?:recover|breathe|reset)|recovering)\b(?: (?:in )?(?:between|after)(?: (?:the |your |each |every )?sets?)?)?", r"rest \g<t>"),
        (rf"(?:\b(?:between|after) (?:the |your |each |every )?sets?,? |\btake (?:your|ur) time,? |^\W*)(?P<t>{_LONG}) (?:rest )?(?:is|are|should be|will do)(?: (?:just|totally|absolutely))? ?(?:fine|ok(?:ay)?|good|plenty|enough|about right|great)\b", r"rest \g<t>"),
        (rf"(?:^|(?<=[ ,;(]))r\.? ?[:=]? ?(?={_LONG})", "rest "), (rf"(?P<t>{_LONG}) r{_ENDS}", r"rest \g<t>"),
        (rf"\brests?,? (?:as needed|as (?:long as )?you need|enough|well|fully|properly)[,:(]* ?(?:but |at least |about |around |min(?:imum)?\.? |roughly |say )*(?={_LONG})", "rest "),
        (rf"\b(?:long |short |full |good |proper )?rests? ?\((?P<t>{_LONG})\)", r"rest \g<t>"),
        (rf"\b(?:breathe|catch (?:your|ur) breath|chill|sit down|relax)(?: for)? (?={_LONG})", "rest "),
        (rf"\byou (?:get|have|'ve got) (?P<t>{_LONG})(?= (?:in )?between)", r"rest \g<t>"), (rf"\bpausen(?= {_LONG})", "rest"),
        (rf"(?<![a-z] )\btake (?:a full |a good |all of |your |about |around )?(?P<t>[1-5](?:[.:]\d{{1,2}})?(?:-\d)? ?(?:min(?:ute)?s?\b|')){_ENDS}", r"rest \g<t>"),
    )
)  # fmt: skip


def lifters_short(text: str) -> str:
    """Return a line in small letters with what lifters jot down in the form that is read."""
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    text = _KIND_BEHIND.sub(r"\g<k> squat\g<e>", _NAMED_NEXT.sub(lambda found: ", " if found.start() else "", text))
    return _JOTTED.sub(_jotted, text) if "/" in text else text
