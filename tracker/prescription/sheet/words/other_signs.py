"""Ways of typing in which a sign or a short word means something else than it does elsewhere, put into the form that is read."""

from __future__ import annotations

import re

_MACHINE = r"(?:(?:c2?|assault|echo|air|fan|bike|ski|row)[ -]?)?(?:row(?:er)?|bike|erg|ski(?:erg)?)"
_CARRIED = r"(?:bear crawl|crab walk|hsw|handstand walk|farmer'?s?|sled|yoke|walking lunges?|crawl|carry|(?:oh|overhead) lunges?|suitcase|lunges?|burpee broad)"
_LIGHT = r"(?:kb |kettlebell |russian |american |db |dumbbell )?(?:swings?|goblet squats?|burpees?|push[ -]?ups?|air squats?|wall ?balls?|box jumps?|thrusters?|kettlebell snatch(?:es)?)"
_TIME = r"(?:\d{1,2}:\d\d|\d{1,3} ?(?:min(?:utes?)?|sec(?:onds?)?|s|'))"
_WORDS: tuple[tuple[str, str], ...] = (
    # a clock told by where it stands: "on the 2:00", "otm"
    (r"\botm\b|\bon the min(?:ute)?\b(?! on the)", "every minute"),
    (r"\bon the (\d):(\d\d)(?!\d)", r"every \1:\2"),
    (r"\"on the (\d)\"", r"every \1:00"),
    (r"\b(e\d?mom)(?=\d{2}\b)", r"\1 "),
    (r"\be(\d{2})s\b(?=,? ?x ?\d)", r"every \1 s"),
    (r"\be2mo2m\b", "e2mom"),
    # sets of one, two or three by their name, on a clock or with a load: no single unders
    (r"(?<=% )x ?(\d) singles\b(?! ?under)", r"\1 x 1"),
    (r"(?<=x )(\d{1,2}) singles\b(?= ?(?:@|at\b|$))", r"\1, 1 rep"),
    (r"\bx ?(\d{1,2}),? singles (?:@ ?|at )?(?=\d{2,3} ?(?:-|to|%))", r"x \1, 1 rep @ "),
    (r"\b(\d{1,2}) singles? (?=(?:@|at) ?\d|every )", r"\1 x 1 "),
    (r"\bx ?(\d) singles\b(?! ?under)", r"\1 x 1"), (r"\bx ?(\d) doubles\b(?! ?under)", r"\1 x 2"), (r"\bx ?(\d) triples\b", r"\1 x 3"),
    (r" ?\(hsod\)", ""), (r"\bhsod\b", "heavy single of the day"),
    # what somebody holds while others work is no swing
    (r"\b(holds?) (1|2|one|two|a|a pair of) kbs?\b", r"\1 \2 kettlebells"),
    (r"((?:snatch|clean|jerk)[^\d.;]{0,12})\bwork to (?=\d{2,3} ?%(?! ?(?:x|for)))", r"\1work up to a single at "),
    # so often and so many goes: "eight times three goes"
    (r"\b(\d{1,2})(?: times,?| x) ([2-6]) goes\b", r"\2 sets of \1"),
    (r"(?<![\d.,x/-])(\d{1,2}) ([2-4]) goes\b", r"\2 sets of \1"),
    # who of a team does what: "A rows 250 m, B holds ..., C does as many burpees as possible"
    (r"(?:(?<=^)|(?<=[,;] )|(?<=and ))[abc] (?:does |works )?(?=as many ([a-z -]{3,24}?) as possible\b)", ""),
    (r"(?:(?<=^)|(?<=[,;] )|(?<=and ))[abc] (?=(?:rows|runs|skis|bikes|carries)\b)", ""),
    (r"(?<=[a-z\d]), (?:partner |p)?[abc123] holds [^,;.()]*(?:\([^()]*\))?(?=[,;.])", ""),
    (r"\bas many (burpees|swings|wall balls|sit-ups|push-ups|thrusters|squats|box jumps|cal(?:ories)?) as possible\b", r"max \1"),
    (r" - (?=rotate when\b)", ". "),
    (r"\b((?:run|jog|row|ski|bike|swim) \d{1,2} ?x ?)(1[02568]00|2000|3000)\b(?! ?(?:m\b|k))", r"\1\2 m"),
    # what is left out is no skipping
    (r"\bskip (?=the\b|if\b|it\b|this\b|that\b|to\b|straight|one\b|no\b|today|\d)", "leave out "),
    # what is tidied is no clean
    (r"\bclean(?:ing)? (?=(?:up|your|the|off|after)\b)", "tidy "),
    # so much less than what was worked up to
    (r"(?:^\s*|(?<=[,;:(] )|(?<=[,;(])|(?<=then ))(?:-|minus |less |take off )(\d{1,2}) ?%,?(?: ?(?:->|→|>))?", r"drop \1 % "),
    # two hands, no hours
    (r"\b(?:2|two)[ -]?h(?:and(?:ed)?)? (?=(?:kb |kettlebell |russian )?(?:swing|goblet|squat))", ""),
    # so many times so many on a clock: "swings 10x10 every minute", "10x10 goblet squats 24/16 every 2:00"
    (rf"^(\W*)({_LIGHT}) (\d{{1,2}}) ?x ?(\d{{1,2}})((?: ?@? ?\d+(?:/\d+)? ?(?:kg|lb)?)?) every (minute|\d:\d\d)\b(?![^\n]*%)", r"\1every \6 x \3: \4 \2\5"),
    (rf"^(\W*)(\d{{1,2}}) ?x ?(\d{{1,2}}) ({_LIGHT})((?: ?@? ?\d+(?:/\d+)? ?(?:kg|lb)?)?) every (minute|\d:\d\d)\b(?: with| \+| and)?(?![^\n]*%)", r"\1every \6 x \2: \3 \4\5,"),
    # what is put right at once: "at 75 % no sorry 70 %", "50/35... no 40/30", "4 km bike... make that 6"
    (r"\d{2,3}(?:\.\d)? ?%?,? (?:no wait|wait no|no,? sorry|sorry|no,? make (?:it|that)|i mean),? (?=\d{2,3}(?:\.\d)? ?%)", ""),
    (r"\d{1,3}/\d{1,3}[., ]*(?:no|sorry|make (?:that|it)),? (?=\d{1,3}/\d{1,3})", ""),
    (r"\b(\d+) ?(km|m|cal) ([a-z][a-z ]+?) ?\.{2,} ?make (?:it|that) (\d+)\b", r"\4 \2 \3"),
    # strokes a minute, no rest
    (r"(?<![\w])r ?(1[6-9]|2[0-8])(?![\d:.'\"]| ?(?:s\b|sec|min|m\b|reps|x))", r"at \1 spm"),
    # feet, not minutes
    (rf"\b(\d{{2,3}})' ?(?={_CARRIED}\b)", r"\1 ft "),
    # calories of both groups: "row 20/15", "14 calrow/11"
    (rf"(?<![\w-])({_MACHINE}) (\d{{1,2}}) ?/ ?(\d{{1,2}})(?![\d/:.]| ?(?:kg|lb|m\b|cal|s\b|sec|min|on|off|%|\"|'|x|cm))", r"\2/\3 cal \1"),
    (r"\b(\d{1,2}) ?(?:cal ?)?(row|bike|ski)/(\d{1,2})\b(?! ?(?:[a-z]|kg|lb|m\b|s\b|sec|min))", r"\1/\3 cal \2"),
    (r"\b(\d{1,2} ?/ ?\d{1,2}) (row|bike|ski)-cals?\b", r"\1 cal \2"),
    (r"\b(\d{1,3}) ?cals?(?:ories)? (?:on the )?(bike|row(?:er)?|ski(?:erg)?|c2 bike|erg),? ?\(?(\d{1,3}) for (?:the )?(?:ladies|women|girls)\)?", r"\1/\3 cal \2"),
    (r"(?<=\d cal )ro\b", "row"), (r"\b(\d{1,2}) cal (row|bike|ski) \((\d{1,2})\)", r"\1/\3 cal \2"),
    (r"(?<=[a-z]) \(([a-z][a-z -]{1,24}?) if (?:you|needed|possible|u)\b[^()]*\)", r" (or \1)"),
    # the unit in brackets behind a pair of loads
    (r"\b(\d{2,3}(?:\.\d)?) ?/ ?(\d{2,3}(?:\.\d)?) ?\( ?(lb|kg)s?\b", r"\1/\2 \3 ("),
    # a load and as many as possible: "265 x amrap"
    (r"\b(\d{2,3}(?:\.\d)?) ?x ?(?:amrap|max reps|max|as many as possible)\b(?! ?\d)", r"@ \1 x max"),
    # a load, repetitions and sets, parted by strokes: "80 %/1/3", "65 %/2+1", "75 %/1+1/4", "60 %/1+1 x2", "70x1+1x3"
    (r"(\d{2,3}(?:[.,]\d)? ?%) ?/ ?(\d{1,2}(?:\+\d{1,2})+) ?/ ?(\d{1,2})(?!\d)", r"\1 \2 x\3"),
    (r"(\d{2,3}(?:[.,]\d)? ?%) ?/ ?(\d{1,2}(?:\+\d{1,2})+)(?![\d/])", r"\1 \2"),
    (r"(\d{2,3}(?:[.,]\d)? ?%) ?/ ?(\d{1,2}) ?/ ?(\d{1,2})(?![\d/])", r"\1 x \2 x \3"),
    (r"(?<![\d.])(\d{2,3}(?:\.\d)?) ?x ?(\d(?:\+\d)+) ?x ?(\d{1,2})(?!\d)", r"\3 x \2 @ \1"),
    # who did what before, said as a number of metres: "500r"
    (r"^\W*(\d{3,4}) ?r\b(?! ?[x@])", r"\1 m row"),
    (r"(?<=\d)(?=(?:du|sgl|g2oh|ttb|t2b|wb|hspu|bjo?|pu|kbs?)s?\b)", " "),
    # what stands between repetitions and sets; the load that the coach has worked out behind a percentage
    (r"\b(?:btw|between) (?:the )?singles\b", "between reps"),
    (r"(\d{2,3}(?:\.\d)? ?%) ?(?:x ?)?(\d{1,2}) ?x ?(\d{1,2}) ?\(\d{2,3}(?:\.\d)?(?: ?kg| ?lb)?\)", r"\2 x \3 @ \1,"),
    # what is done in place of what can't be: "no jerk -> push press 5x4"
    (r"(?:\bfelt [a-z ]{2,20}? )?(?:\bso )?\bno ([a-z][a-z ]{2,20}?) ?(?:->|→|>) ?(?=[a-z][a-z -]* \d{1,2} ?x ?\d)", ""),
    (r"\bwalk,? (?:don'?t|dont|do not) run\b", "at ease"),
    # the other group's load in brackets: "w/ 32 (ladies 20)"
    (r"\bw(?:/|ith)? ?(\d{2}(?:\.5)?) ?(?:kg )?\((?:ladies|women|girls) (\d{1,2}(?:\.5)?) ?(?:kg)?\)", r"@ \1/\2 kg"),
    # what a percentage is of, in brackets: "3x3 @ 95 (of sn)"
    (r"@ ?(\d{2,3}) ?%? ?\((?:of|off) (sn|snatch|c&j|cj|clean|jerk|fs|bs|front squat|back squat|deadlift|dl)\)", r"@ \1 % of 1rm \2"),
    # a pace is no distance to go
    (r"\b(?:hold )?(?:your |ur )?\d{1,2} ?k (?=(?:split|pace|race pace)\b)(split|pace|race pace)( (?:minus|plus|\+|-) ?\d+ ?s?)?", "at race pace"),
    (r"\b(?:then )?circuit x ?(\d)\b", r"\1 rounds"), (r"\bx ?(\d) (?:through|thru)\b", r"\1 rounds"),
    (r"\((\d{1,2}) (?:and|/|\+) \1\)", "(half each side)"), (r"\(clock reads [\d:]+\)", ""), (r"\(\d{3,4} (?:is )?(?:ok|fine)\)", ""),
    (r"\bsuper w/ ?(?=\d)", "superset with "), (r"(?<=x )(?:to )?near(?:ly)? (?=failure)", ""),
    # a share of a max that has a letter: "last week's 5RM = X", "0.88X × 5"
    (r"\b(?:last week'?s |my |the |your )?(\d{1,2}) ?rm ?= ?x\b", r"% of \1rm"), (r"(?<![\d.])0[.,](\d{2}) ?x ?[x×] ?(\d{1,2})\b", r"\1 % x \2"),
    (r"\bcap (\d{1,2})\. no \d{1,2}\b", r"cap \1"), (r"\b(\d{1,2}) ?min\.? (?:m[aá]x(?:imo|imum)?)\.?(?=\W*$)", r"cap \1 min"),
    (r"\b(\d) ?x ?\[([^\[\]]+?),? (\d:\d\d) off ?\]", r"\1 rounds: \2, rest \3"), (r"\bmasters \d\d ?\+ ?:", "masters:"),
    (r"\bhang (db|dumbbell|kb|kettlebell) (clean|snatch|power|squat)", r"\1 hang \2"),
    # what lies between hard bouts: "4 x 6 min, 2 min easy in between", "5 x 2:00 @ threshold (RPE 7-8), 1:00 easy between"
    (rf"\b(\d{{1,2}}) ?x ?({_TIME})([^,;\n]{{0,40}}?),? ({_TIME}) (?:very )?(?:easy|off|rest|jog|walk|float|paddle|spin)? ?(?:off )?(?:in )?between(?: each| them| bouts| sets)?\b", r"\1 x \2 on \4 off\3"),
    # a time out of a bout of work: "1 min x work" is said elsewhere
    (r"\b(?:groups?|heats?|teams?|waves?|athletes?) (?:leaves?|starts?|goes|go|sets? off) every (\d+) ?min\w*", r"start in a row, \1 minutes apart"),
)  # fmt: skip
_RULES = tuple((re.compile(pattern), word) for pattern, word in _WORDS)


# A row of loads and their repetitions: "90/3 95/3 95/3"
_LOADS_BY_REPS = re.compile(r"(?<![\d/.:])(\d{2,3})/([1-9]|10)(?=[ ,;]|$)(?! ?(?:kg|lb|m\b|cal|min|%))")
# "1:00 row / 1:00 ski / 1:00 bike", "row 6' / ski 6' / bike 6'": one after the other, since each has its time
_TIMED_FIRST = re.compile(rf"(?:{_TIME} [a-z][a-z ]{{1,20}}? ?/ ?){{2,}}{_TIME} [a-z]")
_TIMED_LAST = re.compile(rf"(?:[a-z][a-z ]{{1,20}} {_TIME} ?/ ?){{2,}}[a-z][a-z ]{{1,20}} {_TIME}")


def other_signs(text: str) -> str:
    """Return a line in small letters with such signs and words in the form that is read."""
    if len(rows := _LOADS_BY_REPS.findall(text)) > 1 and all(int(load) >= 5 * int(reps) for load, reps in rows):
        text = _LOADS_BY_REPS.sub(r"\2 @ \1,", text)
    if "/" in text:
        for way in (_TIMED_FIRST, _TIMED_LAST):
            text = way.sub(lambda found: re.sub(r" ?/ ?", ", ", found[0]), text)
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    return text
