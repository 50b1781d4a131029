"""Patterns of lines of lifts: numbers of sets, sets in turn, implements, other ways."""

from __future__ import annotations

import re

# The numbers of sets at the start of a line: "1) 5 @ 70%", "2-4) 3 @ 80%", "1. 5 reps at 60 kg"
SET_NUMBER = re.compile(r"\s*(?P<n>\d{1,2}(?:\s*[-&+]\s*\d{1,2})?)(?:[.)]|:(?!\d))\s+(?P<sets>\d.*)$")
# What is done between the sets of the lift above, in turn with it
BETWEEN_SETS = re.compile(
    r"^\W*(?:and |then |also )?(?:straight |right |directly |immediately )?(?:in )?(?:between|after|nach|zwischen|après|entre|después de|tras)\s+"
    r"(?:(?:each|every|all|the|your|those|jedem|jeder|den|chaque|las|los|cada|les)\s+)*sets?\b(?: of (?:that|those|it))?\s*[:,]?\s*(?:do\s+|we do\s+)?(?=\d)"
)
# How many sets each lift below has: "3 sets:", "4 sets of", "superset x 4"
BLOCK_SETS = re.compile(
    r"^\W*(?:(?P<n>\d{1,2}) (?:super ?)?sets?(?: of(?: each)?)?(?: each)?|super-? ?sets?,? (?:x ?)?(?P<m>\d{1,2})(?: ?x| sets?| rounds?| times)?)\s*[:.-]?\s*$"
)
# Two lifts in turn on one line
IN_TURN = re.compile(
    r"[,;.(]?\s*(?:[+&/]\s*)?\b(?:super-?\s?set(?:ted)?(?:\s+(?:the|that|those|these|it|them)(?:\s+(?:\d{1,2}\s?x\s?\d{1,2}|sets?|ones?))?)?|ss|paired)\s+(?:with|w/)\s*:?\s*(?=\S)",
    re.IGNORECASE,
)
IN_BETWEEN = re.compile(r"[,;]?\s*(?:done\s+)?(?:in\s+)?between(?:\s+(?:the\s+)?sets)?\W*$")
IMPLEMENT_WORDS = {
    "barbell": "barbell", "bb": "barbell", "barbells": "barbell", "dumbbells": "dumbbells", "dumbbell": "dumbbell", "dbs": "dumbbells", "db": "dumbbells",
    "kettlebells": "kettlebells", "kettlebell": "kettlebell", "kbs": "kettlebells", "kb": "kettlebell", "machine": "machine", "cable": "machine",
    "bodyweight": "body", "body": "body", "body weight": "body", "sandbag": "sandbag", "sled": "sled", "ring": "rings", "rings": "rings", "band": "band",
    "banded": "band", "ball": "ball", "other": "other", "unasked": "unasked",
}  # fmt: skip
IMPL = "|".join(sorted(IMPLEMENT_WORDS, key=len, reverse=True))
STRICT = re.compile(
    rf"^(?P<joined>superset with\s+)?(?P<name>[^\W\d_][^,:@%0-9]*(?:\d[^,:@%]*)?),\s*(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{IMPL})\s*(?P<end>[,:]|$)",
    re.IGNORECASE,
)
ALTERNATIVE = re.compile(
    rf"^or\s+(?:(?P<when>[^,:]{{1,30}}) - )?(?:(?P<name>[^,:@%]+?),?\s+)?(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{IMPL})\s*(?:(?P<colon>:)\s*(?P<sets>.+)|,\s*(?P<rule>(?:twice|double)\s+the\s+(?:repetitions|reps)|(?:the\s+)?same(?:\s+(?:repetitions|reps))?|doubled|(?:repetitions|reps)\s+doubled))\s*$",
    re.IGNORECASE,
)
# Whom a level is for, at the start of a line or in brackets: "Level 1:", "Beginners do", "New here?"
LEVEL_WORDS = (
    r"(?:for )?(?:the |our )?(?:beginners?|begs?|newbies|rookies|novices?|foundations?|intermediates?|masters(?: \d\d\+?)?|teens|scaled?|scaling|rx\+|advanced|lite"
    r"|new(?:er)?(?: (?:here|people|members|folks|athletes|ones|to (?:it|this)))?|l\d|level ?\d|lvl ?\d|nivel \d|niveau \d|stufe \d|anfänger|débutants?|principiantes?)"
    r"(?: ?(?:[+&/,]|and|or) ?(?:\d\b|below|up|l\d|level \d|intermediates?|beginners?|newer|masters|older))*(?: (?:options?|version|people|athletes|group|members))?"
)
LED_BY_LEVEL = re.compile(
    rf"^\W{{0,2}}(?P<when>{LEVEL_WORDS})(?:\s*[:?=]\s*|\s+[-–]\s+|,? (?:can |please |will |should )?(?:do|does|use|take|go for|stick to|stay with)\s+(?:the |a )?)(?P<rest>.+?)[\])]?\s*$",
    re.IGNORECASE,
)
HOME_LIFT = re.compile(
    r"^(?P<when>(?:only |just )?(?:dumbbells?|dbs?|kettlebells?|kbs?)(?: only)?|no(?:ne| kit| barbell| bar| equipment| rack| rower| rig)|nothing(?: at all)?|none|home|at home|scaled?|no [a-z]+|without [a-z ]+|bodyweight|band|light(?:er)?)\s*[:–-]\s*(?P<rest>.+)$",
    re.IGNORECASE,
)
# Whom a line below a lift is for: "(Beginners: goblet squat 3x10)", "L1: DB bench 4x10", "bad shoulder -> floor press 4x6"
_WHOM = (
    r"(?:for |our |the |all |total |absolute )*(?:beginners?|begs?|newbies|new(?:er)?(?: people| members?| folks| athletes?| ones?| here)?|novices?|starters?|rookies|foundations?|fundamentals|onramp"
    r"|masters?(?: ?\d\d ?\+?)?|\d\d ?\+|teens?|juniors?|kids|intermediates?|inter|int|adv(?:anced)?|experienced|(?:level|lvl|l|stufe|niveau|nivel) ?\d(?: ?[+&/,-] ?\d)?"
    r"|green|blue|red|black|yellow|white|anfänger|débutants?|principiantes?|scaled?|sc|easier|modified|option [b-d2-4]|plan b)(?: \([^()]*\))?"
)
_HURT = r"(?:bad|sore|stiff|unhappy|cranky|tight|dodgy|angry|achy|hurt|painful|tired|issues?|problems?|pain|trouble)"
_PART = r"(?:lower )?(?:knees?|shoulders?|backs?|wrists?|elbows?|hips?|ankles?|neck)"
LEVEL_LIFT = re.compile(
    rf"^\W*(?P<when>{_WHOM}|(?:if )?(?:you(?:'re| are) )?(?:new|(?:brand )?new(?: to (?:this|it|the lift|lifting))?)|(?:if )?(?:your |the )?{_HURT} {_PART}|(?:if )?(?:your |the )?{_PART}(?: (?:is|are|feels?|hurts?))? ?{_HURT}?)"
    rf"\s*(?::|->|→|=>|=|\s[–-]|\?(?: (?:then|do))?|,? (?:do|does|take|use|go with|stay with)\b)\s*(?P<rest>\S.*?)[\])]*$",
    re.IGNORECASE,
)
ALL_OF = re.compile(
    r"^(?!(?:loads?|weights?) ?[:=] ?@? ?\d)(?:\(?\s*)?(?:all )?(?:%|percent|percentages?|%'?s|tm|training max|weights?|loads?)\b.*|^\(?%"
)
OR_BRACKETS = re.compile(r"\(\s*or\b[^()]*\)")
SUPERSET = re.compile(
    r"[+&]?\s*(?:(?:super-?\s?set(?:ted)?|ss|paired)\s+(?:with|w/)\s*:?\s*(?=\S)|ss[:.]?\s+(?=[^\W\d_]{2}[^:]*\d))",
    re.IGNORECASE,
)
_BETWEEN_SETS = re.compile(r"\bbetween (?:the |your |all )?(?:[a-z]+ ){0,2}sets\b", re.IGNORECASE)
_TIMED = re.compile(r"\brest|\d ?(?:min|sec|s\b|['\"])|\d:\d\d", re.IGNORECASE)


def between_sets(text: str) -> bool:
    """Whether a line says that its lift is done between the sets of the one above: `pull-ups 5x6 between bench sets`."""
    return _BETWEEN_SETS.search(text) is not None and _TIMED.search(text) is None
