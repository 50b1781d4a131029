"""Short and spoken ways of English that lifters have for sets, loads and corrections, put into the form that is read."""

from __future__ import annotations

import re

_ONES = {"single": 1, "double": 2, "triple": 3}
_WORDS: tuple[tuple[str, str], ...] = (
    # so many repetitions, so many times: "5r x 5s", "2 reps x5", "4 sets at 80 - 5 reps"
    (r"\b(\d{1,2}) ?r(?:eps?)? ?[x×*] ?(\d{1,2}) ?s(?:ets?)?\b", r"\2 x \1"),
    (r"\b(\d{1,2}) ?s(?:ets?)? ?[x×*] ?(\d{1,2}) ?r(?:eps?)?\b", r"\1 x \2"),
    (r"\bsets of (\d{1,2})(?: reps)?,? (?:and )?(?:do )?(\d{1,2}) (?:of (?:them|those)|sets(?: in (?:all|total))?|in (?:all|total))\b", r"\2 x \1"),
    (r"\bfrom (?:about )?(\d{2,3}(?:\.5)?) ?%? (?:up )?to (?:about )?(?=\d{2,3}(?:\.5)? ?%)", r"@ \1-"),
    (r"\b(\d{1,2}) ?reps? ?[x×*] ?(\d{1,2})\b(?!\d|[.:]\d| ?(?:reps?|rounds?|kg|lb|%|m\b|cal|min|sec|s\b|[x×*]))", r"\2 x \1"),
    (r"\b(\d{1,2}) sets? (?:at|@) ?(\d{2,3}(?:\.\d)? ?%?) ?[-–,:] ?(\d{1,2}) reps?\b", r"\1 x \3 @ \2"),
    (r"(?<=\d )r ?(?=(?:[6-9]|10)(?:\.5)?(?:-(?:[7-9]|10)(?:\.5)?)?(?![\w%.]| ?(?:rounds|m\b|cal|x)))", "rpe "),
    (r"(?<=[,;] )([1-6][0-3][0-3x][0-3])(?=\s*(?:$|[,;]))", r"tempo \1"),
    (r"\bw(?:/|ith)? ?(?:the|a|your) (\d{1,2}(?:\.5)?)(?:'?s)?(?: bells?| kb| one)?(?=\s*(?:$|[.,;)](?!\d)| and\b))", r"with \1 kg"),
    (r"\b(\d{1,2}) ?(?:ea|each|e/s)\b\.?(?: side| leg| arm)? ?[x×] ?(\d{1,2})(?: sets)?\b(?! ?(?:kg|lb|%|m\b|cal|sec|s\b|min|reps))", r"\2 x \1 each side"),
    (r"\b(1(?:\.1){1,5}) ?[x×] ?(\d{1,2})(?: sets)?\b(?! ?(?:kg|lb|%|\.))", r"\2 x \1"), (r"(?<![\d.])(\d{1,2}) ?[•·] ?(\d{1,2})(?![\d.]| ?(?:kg|lb|m\b|cal))", r"\1 x \2"),
    # a pause within a repetition is no rest
    (r"\b(\d) ?(?:s|secs?|seconds?)[ -]?(?:pause|stop|hold|rest)(?= (?:at|in|on|below|above|under) (?:the |your )?(?:bottom|top|hole|chest|knees?|floor|box|catch|turn|lockout|squat)\b)", r"\1-count stop"),
    (r"\bbreaks? (?:of )?(?=\d{1,3} ?(?:min|sec|s\b|'))", "rest "),
    (r"\bback(?:ing)? off (?:by )?(?=\d{1,2} ?%)", "drop "), (r"\brt ?[:=]? ?(?=\d)", "rest "), (r"\ball %'?s? (?:are |is )?(?:of |off )?(?:the )?(?=\d{1,2} ?rm\b)", "% of "),
    (r"\b(?:3|three)[ -]quarters of (?=(?:your|the|ur|max|\d{1,2} ?rm))", "75 % of "), (r"\b(?:2|two)[ -]thirds of (?=(?:your|the|ur|max|\d{1,2} ?rm))", "67 % of "), (r"\bhalf (?:of )?(?=(?:your|the|ur) (?:max|\d{1,2} ?rm))", "50 % of "),
    (r"\b(\d{1,2}) reps? at (?=\d{2,3}\b)", r"\1 at "), (r"(?<=\d)( ?[x×*] ?)f(?:ail)?\b", r"\1failure"), (r"(?<=\d\d)pc\b", "%"), (r"(?:@|\bat) ?3/4 (?:of )?(?:your |ur |the )?max\b", "@ 75 % of your max"),
    (r"\bof (?:the |your )?(\d{1,2} ?rm|max) of (?:the |your )?(?=[a-z])", r"of \1 "),
    # "2.5 kg more than last week" is no load
    (r"\b(\d{1,2}(?:\.\d{1,2})?) ?(kg|lb) (?:more|up|heavier|extra|on top)(?: (?:than|on|from|over|of|compared (?:to|with)))? (?:last (?:week|time)|before)", r"last week + \1 \2"),
    (r"\b(?:abt|approx|appr)\b\.?", "about"),
    (r"\((\d{2,3}(?:\.\d)?)(?: ?% ?[x×/]| ?[x×]) ?(\d|1[0-2]) ?\) ?[x×]? ?(\d{1,2})(?![\d%-]| ?(?:min|sec|rep))", r"\1 % x \2 x \3"),
    (r"^\W*(?:no\.? of )?(?:work )?sets? ?[:=] ?(\d{1,2})\W*$", r"\1 sets"), (r"^\W*(?:no\.? of )?reps?(?: per set)? ?[:=] ?(\d{1,2})\W*$", r"\1 reps"), (r"^\W*(?:loads?|weights?|intensity|percent(?:age)?) ?[:=] ?(?=@? ?\d)", "@ "),
    # what percentages are of, how long the rest is
    (r"\(\s*(?:in )?(?:%|percent(?:ages?)?)[,:]? ?(?:of )?(?=\d{1,2} ?rm\b)", "(% of "),
    (r"(?:%|\bpercent(?:ages?)?)'?s? (?:refers? to|relates? to|based (?:on|off)|(?:is|are) (?:from|for|based on|based off)|calculated (?:on|from|off)|taken (?:from|off)) (?:the |your )?", "% of "),
    (r"\b(rest|pause)(?: time| period)? between (?:the |your |all )?sets?(?: is|:)? ?(?=\d)", "rest "),
    (r"(?<=% )(?:of|off) 1 ?rm\b(?= ?$)", "of 1rm"), (r"\b(?:of|off) one rm\b", "of 1rm"),
    (r"\b(?:clean|snatch|barbell|jerk|squat|c&j|oly) complex\b(?=,? (?:every|e\d?mom|x ?\d|\d+ (?:sets|x)|on the)|\s*[:-])", "complex"),
    # an angle is no percentage, a share written as a fraction is one
    (r"@ ?(\d{1,3}) ?(?:°|deg(?:rees?)?\b)", r"at \1 deg"), (r"@ ?0?\.([4-9]\d)(?!\d| ?(?:kg|lb))", r"@ \1 %"), (r"@ ?0?\.([4-9])(?!\d| ?(?:kg|lb))", r"@ \g<1>0 %"),
    (r"\b(\d{1,2}) lots of (?=\d)", r"\1 sets of "), (r"\btm,? not (?:of )?(?:the |your |a )?1 ?rm\b", "tm"),
    (r"(?<=[a-z\d,] )([2-6])-([01])-([0-2])(?=\s*(?:$|[,;)]))", r"tempo \1-\2-\3"),
    (r"\bskip (?=(?:the|those|that|these|both|all)\b)", "leave out "),
    (r"(?<!push up )(?<!push-up )(?<!push ups )(?<!push-ups )(?<!hand )(?<!hands )\b(to|on|onto|off|over|from|against) (?:a |the |an )?bench\b(?![ -]?press)", r"\1 the box"), (r"\bhigh[ -](?:fives?|5s?)\b", "high-fiving"),
    (r"(?<=\d min, )each (?=\d ?min\b)", "every "), (r"\b(\d) blocks(?=\s*:)", r"\1 rounds"),
    (r"(?<![\w.:/])(\d{1,3})(kbs|kb swings?|dus|du|wbs?|t2b|ttb|c2b|ctb|hrpu|bbj|bjo|bj)\b", r"\1 \2"),
    (r"\bwith (?:two|2) (\d{1,2}(?:\.5)?)'?s? for (?:the )?(?:men|guys|boys|lads|gents),? (?:and )?(?:(?:two|2) )?(\d{1,2}(?:\.5)?)'?s? for (?:the )?(?:women|girls|ladies|gals)\b", r"2 x \1/\2 kg"),
    (r"\bteams? (?:van|von|de|di|à)(?= \d)", "teams of"), (r"\bsquat behind\b", "back squat"), (r"\bfront squad\b", "front squat"), (r"\bback squad\b", "back squat"),
    (r"\btoasts? to bar\b", "toes to bar"), (r"\bdobles(?= \d{2})", "doubles"),
    (r"\b(?:then |and )?drop(?:ping)?(?: down| back)? to (\d{2,3}(?:\.\d)?) ?(%|kg|lb)?,? (?:for|and do|for another) (\d{1,2}) ?x ?(\d{1,2})\b", r"\3 x \4 @ \1\2"),
    (r"(?:@|\bat) ?\d{1,2}(?:\.\d)? ?% (?=incline|grade|slope|steigung)", "at "), (r"\bbp tab(?:let)?s\b", "tablets"), (r"\b(rpe ?\d(?:\.5)?) max\b(?! (?:reps|effort))", r"\1"),
    (r"\b(?:everyone|everybody|all) else (?:skips that and |skips this and )?(?:does|do|goes to|go to|has)\b:?", " "),
    (r"% of (?:your |the )?(?:january|february|march|april|may|june|july|august|september|october|november|december)'?s? (?=\d{1,2} ?rm)", "% of "), (r"(?<=rm), not (?:of )?(?:the |your |a )?\d{1,2} ?rm\b", ""),
    (r"\b(last|first|top)((?: \d{1,2} ?(?:s|sec(?:onds)?))? of) (?:each|every) (?=min)", r"\1\2 a "), (r"(?<=s) (sprint )?top of (?:each|every) min(?:ute)?\b", r" \1at the top of the minutes"),
    (r"\bmax (?:as )?(?:reps )?as possible\b", "max"), (r"\bas many (?!rounds|rds|reps)(?=[a-z -]{3,30} as (?:possible|you can)\b)", "max "), (r"(?<=[a-z]) as (?:possible|you can)(?: do)?(?= in (?:what'?s|what is|the time|the rest|whatever))", ""), (r"\bin (?:what'?s|what is|whatever'?s|whatever is) left\b", "in the time left"),
    (r"\b(?:a|1) min(?:ute)? and (?:a |1 )?half\b", "90 s"), (r"^(\W*)ropes(\W*)$", r"\1battle ropes\2"),
    (r"(?<!\d)(2[04]|30)\"/(16|20|24)\"(?! ?(?:x|on|off|,? \d+ (?:rounds|sets)))", r'\1/\2"'), (r"\bbck\b", "back"), (r"\bsqt\b", "squat"), (r"\bdeckel(?=:? \d)", "cap"), (r"\bkh[- ](?=[a-z])", "dumbbell "), (r"\brudern (?:m\.?|with|mit) (?:kh|dumbbells?|kurzhanteln?)\b", "dumbbell row"),
    (r"\b(\d{1,2}) sets,? each(?: set)?(?: is|:)? (?=\d{1,2}(?::\d\d)? ?(?:min|sec|s\b|'|:))", r"\1 sets of "),
    (r"\bhr ?pu\b", "hand release push-up"), (r"(?<=\d)( ?m) r(?=\s*(?:$|[,;\])]))", r"\1 run"), (r"\b(?:al )?kbsw\b", "kb swing"),
    (r"\brecup\b\.?(?=:? ?\d)", "rest"), (r"\((?:sonst|anders|sinon|si no|altrimenti)\b", "(or"),
    # what is taken back
    (r"\b\d{1,2} ?x ?\d{1,2} ?\.\.+ ?(?=\d{1,2} ?x ?\d)", ""),
    (r"\b\d{1,2}(?: \d{1,2}){2,},? (?:no wait|wait no|no sorry|sorry no),?(?: [a-z']+){0,6} (?=\d{1,2}(?: \d{1,2}){2,} )", ""),
    (r"\b\d{1,2} (?:sets?|reps?|x \d{1,2})(?: of \d{1,2})?[,.]* ?(?:no|sorry|wait|i mean|make (?:that|it)|actually|or rather)[, ]+(?:no,? |sorry,? |wait,? )?(?=\d{1,2} (?:sets?|reps?|x)\b)", ""),
    (r"(?:^|(?<=[/,;:] ))[a-z][a-z -]{2,25}\? ?no(?:pe)?[,:!.]* (?=[a-z])", ""),
    # what was done before it is no part of it
    (r"^\W*(?:so |ok(?:ay)? |right )?after (?:the |a |our |your )?warm[ -]?up(?: ?\([^()]*\))?,? (?:we (?:do |have |go to )?|you (?:do )?|it'?s |comes? |there is )?", ""),
    (r"\bon (?:a|the) (\d(?::\d\d|\.5)?) ?min(?:ute)?s? clock,?(?= ?x ?\d)", r"every \1 min"),
)  # fmt: skip
_RULES = tuple((re.compile(pattern), word) for pattern, word in _WORDS)
# "singles 60 70 75 80 80": as many sets as there are loads
_SINGLES = re.compile(
    r"(?<!\d )\b(?P<w>single|double|triple)s?(?: at| @| on|:)? (?P<l>\d{2,3}(?:\.5)?(?: ?[ ,/] ?\d{2,3}(?:\.5)?){1,9})(?![\d.:]| ?(?:m|cals?|s|sec|min|x|reps?|rounds?|metres?|meters?)\b)"
)
# "a single @ rpe 8"; a heavy one is the day's
_ONE = re.compile(
    r"(?<!heavy )(?<!hvy )(?<!to a )(?<!\d )(?<!to )\b(?:a |one |1 |top )?(?P<w>single|double|triple)(?= ?(?:@|at) ?(?:rpe|r?\d))"
)
# "find a heavy clean single", "build to a heavy front squat": what is heavy stands between
_HEAVY = re.compile(
    r"\b(?P<b>(?:find|build(?:ing)?(?: up)? to|work(?:ing)?(?: up)? to|go to|hit|establish) )?(?:a |your |today'?s |the day'?s )?heavy (?P<l>[a-z&][a-z& -]{1,24}?)(?: (?P<w>single|double|triple))?(?= ?(?:$|[.,;(!]|for the day|of the day|today|in \d|then\b|each\b))"
)


# "40 % of deadlift max", "(of FS 1RM)", "at 105 of clean": another lift's max
_OF_OTHER = re.compile(
    r"(?P<b>%\)? ?\(?|\()(?:(?:of|off|from) |(?<=% ))(?:the |your |ur |a )?(?:best )?(?P<l>[a-z&][a-z& -]{1,24}?)(?:'s)? (?:(?P<n>\d{1,2}) ?-?rm|max(?:imum)?|pr|pb)\b(?! (?:reps|set|cal))"
)
_AT_OF = re.compile(
    r"(?:@|\bat) ?(?P<a>\d{2,3}(?:\.5)?) (?:of|off) (?:your |the )?(?P<l>[a-z&][a-z& -]{1,24}?)(?P<m> max| 1 ?rm)?(?= ?(?:$|[,;.)]))"
)


def _of_other(found: re.Match[str]) -> str:
    if not all(word in _LIFT_WORDS for word in found["l"].split()):
        return found[0]
    return f"{found['b'].rstrip()} of {found['n'] or 1}rm {found['l']}"


def _at_of(found: re.Match[str]) -> str:
    if not all(word in _LIFT_WORDS for word in found["l"].split()):
        return found[0]
    return f"@ {found['a']} % of 1rm {found['l']}"


def _singles(found: re.Match[str]) -> str:
    loads = re.findall(r"\d+(?:\.\d)?", found["l"])
    return f"{len(loads)} x {_ONES[found['w']]} @ {', '.join(loads)}"


_LIFT_WORDS = frozenset({
    "back", "front", "overhead", "box", "pause", "squat", "bs", "fs", "ohs", "power", "hang", "push", "split", "strict", "shoulder", "bench", "floor", "clean", "snatch", "jerk", "press", "deadlift",
    "thruster", "sumo", "romanian", "and", "&", "n", "c&j", "cj", "dl", "bp", "sn", "cln", "pc", "ps", "row", "balance", "cluster",
})  # fmt: skip


def _heavy(found: re.Match[str]) -> str:
    if not all(word in _LIFT_WORDS for word in found["l"].split()) or not (found["b"] or found["w"]):
        return found[0]
    return f"{found['l']} {found['b'] or ''}a heavy {found['w'] or 'single'}"


# Sets by the number of their repetitions, as it is said: 5 fives, four fours, triples (6 of them)
_FIVES = {"ones": 1, "twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9, "tens": 10, "twelves": 12, "singles": 1, "doubles": 2, "triples": 3}  # fmt: skip
_OF_FIVES = re.compile(
    r"\b(?P<s>\d{1,2}) (?:sets of )?(?P<r>ones|twos|threes|fours|fives|sixes|sevens|eights|nines|tens|twelves|(?P<d>[1-9]|1[0-5])'?s(?= (?:on|of|at|@)))(?![\w])"
)
_DOUBLES = re.compile(
    r"\b(?P<r>singles|doubles|triples|fives)(?:,? (?P<at>(?:at|@) ?\d{2,3}(?:\.5)? ?(?:%|kg|lb)?))?[,;x:]? ?(?P<s>\d{1,2}) (?:sets?(?: of (?:them|those))?|of (?:them|those)|times)\b"
)
# "3x10 @ 22.5s": a pair of dumbbells, no time
_PAIRED = re.compile(
    r"(?:@|\bat|\bwith) ?(\d{1,2}(?:\.5)?)'?s(?=\s*(?:$|[,;.)](?!\d)|\((?:kg|lb)\)))(?: ?\((?P<u>kg|lb)\))?"
)
# "dumbbell curls 30s 3x12": what each of them weighs, in the unit of the sheet, before the sets
_BELLS = re.compile(
    r"\b(?P<n>(?:dbs?|dumbbells?)\b[a-z -]{0,30}?):? ?(?:@ ?|with |w/ ?)?(?P<l>\d{2}(?:\.5)?)'?s(?= (?:for )?\d{1,2} ?(?:x|sets?) ?\d)"
)


# "80 % of your press training max" is of a training max, not of the 1RM
_OWN_TM = re.compile(
    rf"\b(of|off|from) (?:the |your |ur )?(?:(?:{'|'.join(map(re.escape, sorted(_LIFT_WORDS)))}) )+(?=training max\b|tm\b)"
)


# Percentages told by repetitions, then how many sets of each: "5s at 70 %, 3s at 80 %, two sets of each"
_SETS_OF_EACH = re.compile(r",? ?\b(?P<n>[1-9]) (?:sets?|rounds?) (?:of|at|on) each\b")
_FIVES_AT = re.compile(r"\b(?P<r>\d{1,2})'?s (?:at|@) ?(?P<l>\d{2,3}(?:\.5)?)(?P<p> ?%)?(?![\d.:-])")


def shorthand(text: str) -> str:
    """Return a line in small letters with the short ways of lifters in the form that is read."""
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    if "%" in text or " of " in text or "(of " in text or " off " in text or " from " in text:
        text = _OWN_TM.sub(r"\1 your ", text)
        text = _AT_OF.sub(_at_of, _OF_OTHER.sub(_of_other, text))
    if (each := _SETS_OF_EACH.search(text)) and len(_FIVES_AT.findall(text)) > 1:
        text = text[: each.start()] + text[each.end() :]
        text = _FIVES_AT.sub(lambda found: f"{each['n']} x {found['r']} @ {found['l']}{found['p'] or ''}", text)
    text = _OF_FIVES.sub(lambda found: f"{found['s']} x {found['d'] or _FIVES[found['r']]}", text)
    text = _DOUBLES.sub(lambda found: f"{found['s']} x {_FIVES[found['r']]} {found['at'] or ''}", text)
    if re.search(r"\b(?:dbs?|dumbbells?|kbs?|kettlebells?)\b", text):
        counted = re.search(r"\d ?(?:x|sets?)(?: of)? ?\d", text) is not None
        text = _PAIRED.sub(lambda found: f"@ {found[1]} {found['u'] or ('bells' if counted else 'kg')}", text)
        text = _BELLS.sub(r"\g<n> @ \g<l> bells", text)
    if "ngle" in text or "uble" in text or "iple" in text:
        text = _ONE.sub(lambda found: f"1 x {_ONES[found['w']]}", _SINGLES.sub(_singles, text))
    return _HEAVY.sub(_heavy, text) if "heavy" in text else text
