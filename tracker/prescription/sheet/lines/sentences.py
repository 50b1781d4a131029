"""Parts a line into its sentences, and a sentence where one thing ends and the next begins."""

from __future__ import annotations

import re

from tracker.prescription.sheet.words.phrases import rising

BEFORE_BETWEEN = re.compile(
    r"[,;]?\s+(?:and\s+)?(?=(?:straight|right|directly|immediately)\s+(?:after|between)\s+(?:each|every)\s+set\b)|[,;]\s+(?:and\s+)?(?=(?:after|between)\s+(?:each|every)\s+set\b)",
    re.IGNORECASE,
)
SENTENCE_END = re.compile(
    r"(?:(?<=[a-zäöüß\d%)\"!?])|(?<=\dRM))(?<!\bMin)(?<!\bmin)(?<!\bca)(?<!\bong)(?<!\bapprox)(?<!\bno)(?<!\bsec)(?<!\bWdh)(?<!\bvs)(?<!\bmax)(?<!\bFr)(?<!\bSn)(?<!\bBal)(?<!\bPwr)(?<!\bCl)(?<!\bSq)(?<!\bOH)(?<!\bsc)(?<!\b[tT]\.[cC])(?!(?<=\d)\.\.)[.!?]+(?:\s+(?=[\"'(]?[A-ZÄÖÜ0-9%])|\s*$)"
    # nobody who types in small letters throughout begins a sentence with a capital
    r"|(?:(?<=[a-zäöüß]{5})|(?<=\d%)|(?<=\drm)|(?<=\dkg)|(?<=\d kg)|(?<=\dlb))[.!]+\s+(?!(?:work|back|warm|top|sets?|reps?|rest|heavy|build|climb|up|at|to|of|in|each|per|drop|last|first)[a-z]*\b)(?=[a-zäöü]{2})"
)
# Words between one thing and the next, in the languages that are read
SPLIT_THEN = re.compile(
    r"(?:(?<=\s)|^)(?:(?:and|und|et|y|&)\s+)?(?:then|after\s+(?:that|this|is|it'?s)(?:\s+(?:is|it'?s)(?=\s+an?\s))?|(?:the|our|today'?s) (?:workout|met-?con|wod|conditioning|finisher|burner)(?: today| tonight)? (?:is|will be)(?=\s)|(?:y )?el wod(?: de hoy)? (?:es|son|será)(?=\s)|(?:et )?le wod(?: du jour)? (?:c'est|est)(?=\s)|(?:und )?das wod(?: heute)? ist(?=\s)|(?:for|as) (?:the |a |our |your )?(?:conditioning|met-?con|workout|wod|finisher|burner|cardio)(?:\s(?:we have|we do|you do|it is|it'?s|there is))(?=\s)|afterwards|next(?=\s+(?!(?:two|three|four|five|\d)\s+(?:sets?\s+|ones\s+)?(?:(?:at|with)\b|@|\d{2,3}\s?%)|week|time|one|set|round|month|year|to\b))|finally|to finish(?: off)?|finish(?: off)? w(?:ith|/)?|followed by|after(?=\s+(?!(?:each|every|that|the|a|an|all|your|round|set|class|this)\b)[a-z&]+(?:\s+[a-z&]+){0,2}\s+\d{1,2}\s?[x×]\s?\d)|danach|after(?=:\s)|(?<=und )dann(?=\s+\S+\s+(?:min|amrap|emom|runden|\d))|poi|dopo(?=\s+\d)|daarna|vervolgens|depois|em seguida|anschließend|nachher|zum schluss"
    r"|ensuite|puis|après ça|après(?=\s+(?!(?:chaque|le|la|les|un|une|votre|vos|avoir|cela|ça|deux|trois|quatre|cinq)\b)[a-zéèêàç]+\s)|pour finir|luego|después|despues|para terminar)(?:\s+(?:we|you|wir|on)\s+(?:do|go|machen|fait)(?=\s))?:?,?(?=\s)(?! add)",
    re.IGNORECASE,
)
# A stroke with room on both sides, before what only a piece begins with: "squat 5x5 / emom 10: 8 burpees"
SETS_THEN_CLOCK = re.compile(
    r"(?<=[\w%)])(?<!rounds)(?<!round)(?<!rds)(?<!rnds)(?<!runden)(?<!rondas)(?<!tours)(?<!\dmin)(?<!\d min)(?<!minute)(?<!minutes)(?<!\d sec)(?<!\d s)(?<!\ds)(?<!:\d\d)(?: +[/–—-]|;) +(?=(?:e\d?mom|amrap|tabata|for time|every \d|\d{1,2} ?(?:rft|rounds?|rds|runden|rondas|tours|min(?:ute)?s? (?:amrap|emom)|'? ?(?:amrap|emom)))\b(?! rest))",
    re.IGNORECASE,
)
# What is done before, in and after the rounds, on one line
_PARTS_OF_IT = re.compile(
    r"\b(?:buy-?in|cash-?out)\b.*[,;.] ?(?:\w+ rounds\b|cash-?out\b)|[,;.] (?:\w+ )?cash-?out\b", re.IGNORECASE
)
_AT_PARTS = re.compile(
    r"[,;.]\s+(?=(?:\d{1,2}|two|three|four|five|six|seven|eight|ten) (?:rounds|rds)(?: of|:)|cash-?out\b(?! ?(?:is|of)\b))",
    re.IGNORECASE,
)
_SETS = re.compile(r"\d ?[x×] ?\d")
_COUNT_OF_SETS = re.compile(
    r"\b(?:\d{1,2}|two|three|four|five|six|seven|eight|ten) (?:working |work )?sets\W*$", re.IGNORECASE
)
_REPS_OF_SETS = re.compile(r"(?:\d{1,2}|one|two|three|four|five|six|eight|ten|twelve) reps?\b", re.IGNORECASE)
_TOLD_IN_TURN = re.compile(
    r"(?:the )?first (?:\d|one|two|three|four|five)\b.*\b(?:last|next|then|other)\b", re.IGNORECASE
)


# Where a speaker goes on to others without a stop: "... ten push-ups people at home do rows", "... and if it rains we row"
_OTHERS_SPOKEN = re.compile(
    r"\s(?:and |but )?(?=(?:if (?:you are|you're|youre|u r|u are|someone is|it) (?:(?:at )?home|rains|raining)|(?:the )?(?:people|ones|those|everyone)(?: who are)? at home|the new people|beginners do|wer zu ?hause|si (?:tu es|vous êtes|estás|llueve)))",
    re.IGNORECASE,
)


# "45 min easy + 6 x 20 s strides" are two
_EASY_PLUS = re.compile(
    r"(\b\d+(?:[.,]\d+)? ?(?:min(?:ute)?s?|'|km|k|m)\b[^+\d]{0,20}(?:easy|steady|zone ?\d|locker|suave|jog|run)\b[^+\d]{0,12})\s*(?:\+|plus|&|,? with)\s*(?=\d+ ?x ?\d)",
    re.IGNORECASE,
)


# "10 min bike, bench 4x8 @ 60 kg": what is done on a machine, and the sets of a lift behind it
_ENGINE_THEN = re.compile(
    r"(^\W*(?:[\w ]{2,16}: )?(?:easy )?\d[\d.,]* ?(?:km?|m|min(?:ute)?s?|'|cals?)\b (?:easy |on the )?(?:row|run|bike|ski|jog|walk|rower|erg|swim)(?: easy)?(?: to warm[ -]?up)?)(?:[,;.]| -) (?=[^\W\d][^\d,;:.]{2,30}\d{1,2} ?[x×] ?\d)",
    re.IGNORECASE,
)


# "15 minutes and then we stop" is one thing: a cap
_STOP_AT = re.compile(
    r"\b((?:\d{1,2}|ten|twelve|fifteen|twenty|thirty) ?min(?:ute)?s?),? (?:and )?then (?:we|you|everyone|everybody|it) (?:all )?(?:stops?|(?:is|are) done)\b",
    re.IGNORECASE,
)


# "3x12 each: hip thrust 80 kg, leg curl, calf raise": the sets of all that follow
_SETS_OF_EACH = re.compile(
    r"^\W*(?:(?:accessor(?:y|ies)|pump|finisher|extras?)[:,]? )?(?P<s>\d{1,2} ?(?:x|×|sets of) ?\d{1,2}(?: ?- ?\d{1,2})?)(?: reps)? (?:of )?each\b(?! (?:side|leg|arm|way))\W*[:,-]\s*(?P<l>.+)$",
    re.IGNORECASE,
)
_ONE_OF_THEM = re.compile(r"[^\d:.;]{3,40}(?:@? ?\d{1,3}(?:[.,]\d)? ?(?:kg|lb))?\s*")


def _sets_of_each(text: str) -> list[str]:
    """Give each lift of a row the sets that stand before all of them; empty where it is no such row."""
    found = _SETS_OF_EACH.match(text)
    lifts = re.split(r",\s+(?:and )?|\s+(?:and|\+|&)\s+", found["l"].strip(" .")) if found else []
    if found is None or len(lifts) < 2 or not all(_ONE_OF_THEM.fullmatch(each) for each in lifts):
        return []
    return [f"{found['s']} {each}" for each in lifts]


# Percentages alone, behind sets whose loads they are
_ONLY_PERCENTS = re.compile(r"^\W*\d{2,3}(?: ?%?(?: ?[,/-] ?|\s)\d{2,3})* ?%\W*$")


# "if the group takes longer then 4x3": one condition
_IF_THEN = re.compile(r"\b((?:if|when) (?:[^,.;:]|(?<=\d)[.:](?=\d)){3,60}?),? then (?=\d{1,2} ?x ?\d)", re.IGNORECASE)
# "... 20 lunges, before that we squat", "... but because of the run make it 4 rounds": said later on in one breath
_SAID_LATER = re.compile(
    r"[,;]? (?:and |but )?before (?:that|this),? we (?=[a-z])|,? but (?:because [^,.;\d]{3,30} )?(?=make (?:it|that) \d)",
    re.IGNORECASE,
)


# "30 Sek. Plank", "10 Wdh. Burpees": a unit cut short ends no sentence before the one thing that it is of
_ABBREVIATED = re.compile(
    r"(?:^|[,;/:])\W*(?:\d{1,2}[.)] )?\d{1,3} ?(?:sek|sec|min|wdh|reps?|cal|kal|rds?|rnds?|std|mtr)\.?$", re.IGNORECASE
)
_IS_NAME = re.compile(
    r"(?!rest|pause|then|dann|repos|work|every|start|max|amrap|emom)[^\W\d_][\w-]+(?: [\w-]+){0,3}\W*(?:\d|$|[,;/(@])",
    re.IGNORECASE,
)


def joined_sentences(parts: list[str]) -> list[str]:
    """Put sentences together that say one thing of sets: `6 sets. 2 reps each. First two at 70 %, last two at 80 %`."""
    found: list[str] = []
    for part in parts:
        last = found[-1] if found else ""
        if last and _ABBREVIATED.search(last) and _IS_NAME.match(part):
            found[-1] = f"{last.rstrip(' .')} {part}"
            continue
        if last and re.search(r"\d ?reps?\W*$|\d ?x ?\d+\W*$", last) and _ONLY_PERCENTS.match(part):
            found[-1] = last.rstrip(" .!") + " @ " + part
        elif last and (
            (_COUNT_OF_SETS.search(last) and _REPS_OF_SETS.match(part))
            or (re.search(r"\b(?:reps|sets|each)\W*$", last) and _TOLD_IN_TURN.match(part))
        ):
            sign = " of" if _REPS_OF_SETS.match(part) else ","
            found[-1] = last.rstrip(" .!") + sign + " " + part
        else:
            found.append(part)
    return found


def then_parts(text: str) -> list[str]:
    """Part a sentence at "then", at double strokes, and at a stroke between sets and what goes on a clock."""
    if each := _sets_of_each(text):
        return each
    text = _STOP_AT.sub(r"\1 cap", rising(_IF_THEN.sub(r"\1 do ", text)))
    if (found := _SAID_LATER.search(text)) and any(sign.isdigit() for sign in text[: found.start()]):
        return [each for part in _SAID_LATER.split(text) for each in then_parts(part)]
    if (clock := SETS_THEN_CLOCK.search(text)) and any(sign.isdigit() for sign in text[: clock.start()]):
        return [each for part in SETS_THEN_CLOCK.split(text) for each in then_parts(part)]
    if (
        len(found := text.split(" | ")) == 2
        and _SETS.search(found[0])
        and re.match(r"\W*[^\W\d_]{3}|\W*\d+ ?(?:'|min)", found[1])
    ):
        return [each for part in found for each in then_parts(part)]  # "squat 5x3 | couplet, 15 min"
    if _PARTS_OF_IT.search(text) and len(found := _AT_PARTS.split(text)) > 1:
        return [each for part in found for each in then_parts(part)]
    if "//" in text or " || " in text:
        return [
            each for part in re.split(r"\s*//+\s*|\s+\|\|\s+", text) for each in then_parts(part) if each.strip(" ,.;:")
        ]
    if _TOLD_IN_TURN.search(text):  # "the first two at 70 %, then two at 75 %": one row of sets
        text = re.sub(
            r"(?<=[,;] )then (?=(?:the next )?(?:two|three|four|five|one|\d)\b[\w ]{0,12}(?:at\b|@))", "next ", text
        )
    text = _OTHERS_SPOKEN.sub(" then ", text) if len(text) > 120 and not re.search(r"[.;:]\s", text) else text
    text = _ENGINE_THEN.sub(r"\1 then ", _EASY_PLUS.sub(r"\1 then ", text))
    parts = SPLIT_THEN.split(text) if SPLIT_THEN.search(text) else [text]
    parts = [each for part in parts for each in BEFORE_BETWEEN.split(part)]
    return [part for part in parts if part.strip(" ,.;:")] if len(parts) > 1 else [text]
