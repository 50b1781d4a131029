"""The table of slips: what a coach typed, what is wrong with it, and the line that was probably meant."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip: its pattern (a group `at` marks the column), what to say, and how to mend the line.

    `what` and `mend` are templates of the pattern's groups; `mend` replaces what the pattern found, and with `whole`
    the whole line.
    """

    pattern: re.Pattern[str]
    what: str
    expected: str
    mend: str
    whole: bool = False

    def say(self, found: re.Match[str]) -> str:
        return self.what.format(**_words(found))

    def mended(self, found: re.Match[str], text: str) -> str:
        new = self.mend.format(**_words(found))
        return new if self.whole else text[: found.start()] + new + text[found.end() :]


def _words(found: re.Match[str]) -> dict[str, str]:
    return {key: (value or "").strip() for key, value in found.groupdict().items()}


def _slip(pattern: str, what: str, expected: str, mend: str, *, whole: bool = False) -> Slip:
    return Slip(re.compile(pattern, re.IGNORECASE), what, expected, mend, whole)


_N = r"[0-9]+(?:[.,][0-9]+)?"
_LOADS = "a percentage with %, RPE and a number, or a load with kg or lb"
SETS: tuple[Slip, ...] = (
    _slip(rf"^(?P<s>[0-9]+)\s*/\s*(?P<r>[0-9]+)\s*/\s*(?P<p>{_N})\s*%?$", "Slashes don't part a set.", "sets x repetitions @ load", "{s} x {r} @ {p} %"),
    _slip(r"(?P<at>[0-9]+)\s*x\s*(?:amrap|max|failure)(?:\s*reps)?", "How many repetitions at least?", "1 x, the least number and a plus", "1 x 5+"),
    _slip(rf"(?P<a>[0-9]+\s*x\s*[0-9]+\+?)\s*[x*]\s*(?P<at>{_N})\s*%", "A second x stands before the percentage.", "@ before a percentage", "{a} @ {at} %"),
    _slip(rf"\s*@\s*(?P<at>{_N})\s*%?\s*(?:-|to)\s*(?P<b>{_N})\s*%", "A set has one percentage, not {at} to {b}.", "one percentage; a line for each step", " @ {at} %"),
    _slip(rf"\s*@\s*(?P<at>{_N})\s*rpe\b", "RPE stands before its number.", "RPE and a number", " @ RPE {at}"),
    _slip(r"\s*@\s*rpe\s*(?P<at>[0-9.,]+)\s*-\s*(?P<b>[0-9.,]+)", "A set has one RPE, not {at} to {b}.", "one number, halves allowed", " @ RPE {at}"),
    _slip(r"(?P<at>@\s*rpe)\s*$", "RPE of how much?", "a number from 1 to 10", "@ RPE 8"),
    _slip(rf"\s*@\s*(?P<n>{_N})\s*%\s*(?P<at>of\s+(?:the\s+|your\s+)?max(?:imum)?\b)", "Of which rep-max?", "of and a rep-max such as 1RM", " @ {n} % of 1RM"),
    _slip(rf"\s*@\s*(?P<n>{_N})\s*%\s*of\s+(?P<at>[0-9]+)(?!\s*-?\s*RM)", "{at} of what?", "a rep-max such as {at}RM".replace("{at}", "3"), " @ {n} % of {at}RM"),
    _slip(rf"\s*@\s*(?P<n>{_N})\s*%\s*(?P<at>[0-9]+)\s*-?\s*RM", "A word is missing before {at}RM.", "of and a rep-max", " @ {n} % of {at}RM"),
    _slip(rf"\s*@\s*(?P<at>{_N})\s*(?=$|,|;|\()", "{at} of what?", _LOADS, " @ {at} %"),
    _slip(rf"\s*@\s*%\s*(?P<at>{_N})", "The sign stands before its number.", "a number and %", " @ {at} %"),
    _slip(r"(?P<at>@)\s*(?=$|,)", "@ what?", _LOADS, "@ 80 %"),
    _slip(rf"^(?P<a>[0-9]+\s*x\s*[0-9]+\+?)\s+(?P<at>{_N}\s*%)", "A sign is missing before {at}.", "@ before a percentage", "{a} @ {at}"),
    _slip(rf"^(?P<a>[0-9]+\s*x\s*[0-9]+\+?)\s+(?P<at>{_N}\s*(?:kgs?|lbs?))\b", "A sign is missing before {at}.", "@ before a load", "{a} @ {at}"),
    _slip(r"^(?P<a>[0-9]+\s*x\s*[0-9]+\+?)\s+(?P<at>rpe\s*[0-9]+)", "A sign is missing before {at}.", "@ before an RPE", "{a} @ {at}"),
    _slip(r"(?P<a>[0-9]+)\s*x\s*(?P<at>[a-z]+)\b(?!\s*RM)", "{at} is no number of repetitions.", "repetitions as digits", "{a} x 5"),
    _slip(r"^(?P<at>x)\s*(?P<r>[0-9]+)", "How many sets of {r}?", "sets first, then x and repetitions", "3 x {r}"),
    _slip(rf"(?P<a>[0-9]+)\s*x\s*(?P<at>@)\s*(?P<n>{_N})", "How many repetitions?", "repetitions before @", "{a} x 5 @ {n}"),
    _slip(r"^(?P<a>[0-9]+)\s+(?P<at>[0-9]+)(?=\s*@)", "An x is missing between sets and repetitions.", "sets x repetitions", "{a} x {at}"),
    _slip(r"^(?P<at>[0-9]+)\s*(?:reps?|repetitions?)?\s*(?=@|$)", "{at} sets or {at} repetitions?", "sets first, then x and repetitions", "1 x {at} "),
    _slip(r"^(?P<at>[0-9]+)\s*sets?\s*(?=@|$)", "How many repetitions in each of the {at} sets?", "sets x repetitions", "{at} x 5 "),
    _slip(r"rest\s*(?:of\s*)?(?P<at>[0-9:]+)\s*(?:s|min)?\s*(?:-|to)\s*(?P<b>[0-9:]+)\s*(?P<u>s|min)?[a-z]*", "A rest is one time, not {at} to {b}.", "one time", "rest 3:00"),
    _slip(r"rest\s+(?P<at>[0-9]+)\s*(?=$|,)", "A rest of {at} what?", "a time such as 3:00 or 90 s", "rest {at}:00"),
    _slip(r"(?<![,;])\s+(?P<at>rest\s+[0-9].*|tempo\s+[0-9x].*)$", "A comma is missing before {at}.", "a comma", ", {at}"),
    _slip(r",\s*(?P<at>[0-9]+(?::[0-9]+|\s*(?:s|min))[a-z]*)\s+rest\b", "Rest stands before its time.", "rest and a time", ", rest {at}"),
    _slip(r"tempo\s+(?P<at>[0-9x]{1,3}|[0-9x]{5,})(?![0-9x:])", "A tempo has four numbers: down, pause, up, pause.", "four numbers such as 3-1-1-0", "tempo 3-1-1-0"),
    _slip(r"^(?P<f>find|test|build\s+(?:up\s+)?to|work\s+up\s+to)\s+(?:a\s+)?(?:heavy\s+)?(?P<at>[0-9]+)(?:\s*reps?)?\b(?!\s*-?\s*RM).*", "A test of what?", "a rep-max such as 5RM", "find a {at}RM"),
    _slip(r"^(?P<f>find|test|build\s+(?:up\s+)?to|work\s+up\s+to)\s+(?P<at>(?:an?\s+|your\s+)?(?:heavy|max|new|daily)\b.*)", "A test of how many repetitions?", "a rep-max such as 1RM", "find a 1RM"),
)  # fmt: skip
LIFT: tuple[Slip, ...] = (
    _slip(r"(?:%\s*)?of\s+(?:the\s+|your\s+)?(?P<at>[0-9]+)\s*(?:rep\s*max)?\s*(?=$|,|:)", "A rep-max is written with RM.", "a rep-max such as {{n}}RM".replace("{{n}}", "3"), "% of {at}RM"),
    _slip(r"(?P<at>%?\s*(?:of\s+)?(?:max|maximum|1\s*rep\s*max))\s*(?=$|,|:)", "Of which rep-max?", "of and a rep-max such as 1RM", "% of 1RM"),
    _slip(r",\s*%?\s*(?P<at>[0-9]+RM)\b", "A word is missing before {at}.", "% of and a rep-max", ", % of {at}"),
    _slip(r"(?P<i>barbell|dumbbells?|kettlebells?|machine|body)\s*:\s*(?P<at>%\s*of\s*[0-9]+\s*RM)", "A comma is missing before {at}.", "a comma; a colon only before sets", "{i}, {at}"),
    _slip(r"rest\s+(?P<at>[0-9]+)\s*(?=$|,|:)", "A rest of {at} what?", "a time such as 3:00 or 90 s", "rest {at}:00"),
)  # fmt: skip
DATE: tuple[Slip, ...] = (
    _slip(r"^(?P<w>[a-z]+)\s*:\s*(?P<at>(?P<a>[0-9]{1,2})[/.-](?P<b>[0-9]{1,2})[/.-](?P<y>[0-9]{2,4}))$", "{at} can be read in two ways.", "the year, the month and the day", "{w}: 2026-11-30"),
    _slip(r"^(?P<w>[a-z]+)\s*:\s*(?P<at>.+)$", "{at} is no date.", "the year, the month and the day", "{w}: 2026-11-30"),
)  # fmt: skip
SESSION: tuple[Slip, ...] = (
    _slip(r"^on\s+(?P<at>[0-9]{1,2}[/.-][0-9]{1,2}[/.-][0-9]{2,4})\s*(?P<t>:?.*)$", "{at} can be read in two ways.", "the year, the month and the day", "On 2026-11-30{t}"),
    _slip(r"^week\s*(?P<w>[0-9]+)\s*[:-]\s*day\s*(?P<at>[0-9]+)\s*(?P<t>:?.*)$", "A comma parts week and day.", "a comma", "Week {w}, day {at}{t}"),
)  # fmt: skip
ALTERNATIVE: tuple[Slip, ...] = (
    _slip(r"^or\s+(?P<a>.*?)(?P<i>(?:two |one )?(?:barbell|dumbbells?|kettlebells?|machine|body))(?P<at>)\s*$", "How many repetitions with {i}?", "twice the repetitions, the same repetitions, or a colon and sets", "or {i}, twice the repetitions"),
    _slip(r"^or\s+(?P<i>(?:two |one )?(?:barbell|dumbbells?|kettlebells?|machine|body))\s*[, ]\s*(?P<at>[0-9]+\s*x.*)$", "A colon is missing before the sets.", "a colon", "or {i}: {at}"),
    _slip(r"^or\s+(?P<at>[^,:]+?)\s*:?\s*(?P<s>[0-9]+\s*x\s*[0-9]+.*)?$", "With which implement?", "an implement after the lift", "or {at}, body: 3 x 8"),
)  # fmt: skip
KIND: tuple[Slip, ...] = (
    _slip(r"^(?P<a>amrap|as many .*possible)(?:\s+(?:in|for))?(?P<at>)\s*$", "In which time?", "a time such as 12:00", "{a} in 12:00"),
    _slip(r"^(?P<a>amrap|as many .*possible)(?:\s+(?:in|for))?\s+(?P<at>[0-9]+)\s*$", "{at} what?", "a time such as {{}}12:00".replace("{{}}", ""), "{a} in {at}:00"),
    _slip(r"^(?P<at>[0-9]+)\s*(?P<u>:00|min(?:ute)?s?)?\s+amrap\b.*$", "The time stands after the words.", "as many reps as possible in and a time", "as many reps as possible in {at}:00"),
    _slip(r"^emom\s+(?P<at>[0-9]+)\s*$|^(?P<b>[0-9]+)\s*min\s+emom$", "For how long?", "for and a time", "every minute for 10:00"),
    _slip(r"^(?P<a>.*for\s+time.*),?\s*(?:time\s+)?cap\s+(?P<at>[0-9]+)\s*$", "A cap of {at} what?", "a time such as 9:00", "{a} cap {at}:00"),
    _slip(r"^every\s+(?P<at>[0-9]+)\s*(?P<t>,.*|for.*)?$", "Every {at} what?", "a time such as 1:30 or 90 s", "every {at}:00, 5 times"),
    _slip(r"^tabata\b.*$", "A name does not say the times.", "intervals with work and rest", "8 x 0:20 work, 0:10 rest"),
    _slip(r"^(?P<at>[0-9]+)\s*rounds?\s*$", "Are {at} rounds scored by time?", "for time, or not scored", "{at} rounds for time"),
)  # fmt: skip
MOVEMENT: tuple[Slip, ...] = (
    _slip(r"^(?P<a>[^+]+[^+\s])\s*\+\s*(?P<at>.+)$", "Each movement has a line of its own.", "one movement on a line", "{a}", whole=True),
    _slip(r"^(?P<a>[^\W\d_][^,0-9]*?)\s+(?P<at>[0-9]+\s*(?:m|cal|km|s|min))$", "The amount stands after the movement.", "the amount, then the movement", "{at} {a}"),
    _slip(r"^(?P<a>[^,]*?[^\W\d_])\s*[@(]\s*(?P<at>[0-9.,]+\s*(?:kg|lb)s?)\)?\s*$", "A comma stands before a load.", "a comma and the load", "{a}, {at}"),
    _slip(r"^(?P<a>[^,(]*?[^\W\d_])\s*\((?P<at>[^()]+)\)\s*(?P<b>,.*)?$", "A comma stands before a remark.", "a comma and the remark", "{a}, {at}{b}"),
    _slip(r"^(?P<a>[^,]*?[^\W\d_])\s+(?P<at>[0-9.,]+\s*(?:kg|lb)s?\b.*)$", "A comma stands before a load.", "a comma and the load", "{a}, {at}"),
)  # fmt: skip
SLIPS: dict[str, tuple[Slip, ...]] = {
    "sets_line": SETS, "lift_line": (*LIFT, *SETS), "date_line": DATE, "session_line": SESSION,
    "alternative_line": ALTERNATIVE, "kind_line": KIND, "movement_line": MOVEMENT, "option_line": MOVEMENT,
}  # fmt: skip
