"""Ordinary ways of saying how a piece is done, put into the one form that its clocks are read in.

A line comes here in lower case with its numbers as digits. Only what says how something is done is put into other words,
never how much: every number that is typed stays a number of the same thing.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_ENGINE = r"row|ski|bike|run|swim|cycle|erg"
_CAN = r"(?:poss(?:ible)?\b|(?:you|u|we|ya|they) can(?: (?:do|get|manage|go|cover))?|humanly possible)"
_LEFT = r"(?:in|with|for|until|till) (?:(?:the )?(?:remaining time|time (?:that is |that's )?(?:left|remaining)|rest(?: of the time)?|time)|what(?:ever)?(?:'s| is) left|(?:the )?(?:end|time is up|the clock stops))"
_LENGTH = re.compile(r"\d ?(?:min|sec|')|\d:\d\d")
_GROUP = r"(?:year|yr|grade|klasse|class of|level)"


def _each_minute_more(found: re.Match[str]) -> str:
    first, second, third = (int(found[key]) if found[key] else 0 for key in "abc")
    step = second - first
    if step <= 0 or (third and third - second != step):
        return found[0]
    return f"every minute: {first} {found['what'].strip(' ,:;=')} +{step} per minute "


def _then_more(found: re.Match[str]) -> str:
    rows = [[int(each) for each in re.findall(r"\d+", row)] for row in re.split(r"\bthen\b", found["rows"])]
    wide = len(rows[0])
    said = re.split(r"[.;:]", found.string[: found.start()])[-1]
    counts = [
        int(each) for each in re.findall(r"(?<![\w./])\d{1,2}(?= (?!min|rounds|rds|sec)[a-z]{2})", said, re.IGNORECASE)
    ]
    step = rows[0][0] - counts[-1] if counts else 0
    rising = all(row == [counts[-1] + step * (at + 1)] * wide for at, row in enumerate(rows)) if counts else False
    if step <= 0 or not rising or len(set(counts)) != 1 or len(counts) != wide:
        return found[0]
    return f" +{step} every round "


def _both(found: re.Match[str]) -> str:
    larger, smaller = (each.replace(",", ".") for each in (found[1], found[3]))
    return f"{larger}/{smaller} {found[2]}" if 0.4 <= float(smaller) / max(float(larger), 1) <= 1 else found[0]


def _row_of_counts(found: re.Match[str]) -> str:
    first, last = int(found[1]), int(found[2])
    step = {"one": 1, "two": 2, "three": 3, "five": 5}.get(found[3]) or int(found[3])
    if not step or first == last or abs(last - first) % step or abs(last - first) // step > 24:
        return found[0]
    step = step if last > first else -step
    return "-".join(str(each) for each in range(first, last + (1 if step > 0 else -1), step))


def _hard_and_easy(found: re.Match[str]) -> str:
    if not (found["h"] or found["h2"] or found["e"]):
        return found[0]
    return f"{found['x']} x {found['w']} on {found['r']} off {found['e'] or ''}"


_NUMBER_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty", "twenty-one")  # fmt: skip
_N = rf"(?:\d{{1,2}}|{'|'.join(sorted(_NUMBER_WORDS, key=len, reverse=True))})"
_TOLD_DOWN = re.compile(
    rf"(?:\b(?:start|begin)(?:ing)? (?:with|at|on) )?\b(?P<a>{_N}) (?P<one>[a-z][a-z -]{{2,30}}?)(?:,| and| &|,? then| plus) (?P<a2>{_N}) (?P<two>[a-z][a-z -]{{2,30}}?)"
    rf"[,;.]? (?:and )?then (?P<b>{_N})(?:(?: and | & | ?[/+-] ?)(?P<b2>{_N})| of each)(?:[,;]? (?:and )?(?:then )?{_N} (?:and|&) {_N})*"
    rf"[ ,.;]*(?:and so on |etc\.? )?,? ?(?:(?:all the way|until|till) )?(?:down |up )?(?:to|you reach|you get to) (?P<end>a single|{_N})\b(?: (?:and|&) {_N}\b| of each| each)?",
    re.IGNORECASE,
)


def _number(word: str) -> int:
    return int(word) if word.isdigit() else 1 if word == "a single" else _NUMBER_WORDS.index(word.lower())


def _by_rounds(found: re.Match[str]) -> str:
    """Write rounds that are told by the first two and the last as one row: `10-9-8-...-1 deadlifts and burpees`."""
    first, second, last = (_number(found[key]) for key in ("a", "b", "end"))
    step = second - first
    if _number(found["a2"]) != first or (found["b2"] and _number(found["b2"]) != second):
        return found[0]
    if not step or (last - first) % step or not 1 <= (last - first) // step <= 24:
        return found[0]
    row = range(first, last + (1 if step > 0 else -1), step)
    return f"{'-'.join(str(each) for each in row)} {found['one']} and {found['two']} for time"


def _filled(found: re.Match[str]) -> str:
    total, work, rest = int(found["t"]) * 60, int(found["w"]), int(found["r"])
    if not work + rest or total % (work + rest):
        return found[0]
    return f"{total // (work + rest)} x {work} sec on {rest} sec off: {found['what'].strip()}"


_PHRASES: tuple[tuple[str, str | Callable[[re.Match[str]], str]], ...] = (
    # what is dictated by its letters, and heard as other words
    (r"\b(?:an? )?(?:a m r a p|(?:m|em|am|an|and) ?-?(?:wrap|rap))\b", "amrap"),
    (r"\be (\d) mom\b|\be (\d) m o m\b", r"e\1\2mom"),
    # the year of a school is no number of rounds
    (rf"\b({_GROUP}) (\d{{1,2}})\b(?=[^\d%@]*(?:circuit|class|pe\b|group|session|$))", r"\1-\2"), (r"^\s*y ?(\d{1,2})\b(?= [a-z])", r"year-\1"), (r"\bperiod (\d)\b", r"period-\1"),
    # the most metres, the most calories
    (rf"\bhow (?:far|many (?:met(?:re|er)s|m)) can (?:you|u|we) ({_ENGINE}) in (\d+ ?(?:min\w*|'))", r"\2 \1 max distance"),
    (rf"\bhow many cal(?:orie)?s can (?:you|u|we) (?:{_ENGINE})? ?(?:get )?(?:on the )?({_ENGINE}) in (\d+ ?(?:min\w*|'))", r"\2 \1 max calories"),
    (rf"\bas many (?:met(?:re|er)s|m) as {_CAN}", "max distance"), (rf"\bas many (?:cal(?:orie)?s?|kcal) as {_CAN}(?! in\b)", "max calories"),
    (rf"\bmax(?:imum|imal)?\.? ({_ENGINE}) (?:distance|met(?:re|er)s|m)\b", r"\1 max distance"),
    (r"\b(?:for )?(?:max(?:imum|imal)?\.?|the most|most|total|best) (?:distance|met(?:re|er)s)\b", "max distance"),
    (r"\bfor met(?:re|er)s\b", "max distance"), (r"\bfor (?:the most )?cal(?:orie)?s\b", "max calories"),
    # as often as there is time
    (rf"\b(?:get|go|work|come|move) (?:through|thru) (?:it )?as (?:much|often|many times|far) (?:of (?:this |it |that )?)?as {_CAN}(?: of)?\b", "as many rounds as possible"),
    (rf"\bas (?:much|often|many times) as {_CAN}(?: of\b)?", "as many rounds as possible"), (r"\bget as far as (?:possible|(?:you|u) can)(?: (?:through|in|with) (?:it|this))?\b", "as many rounds as possible"),
    # so many times through
    (r"\b(\d{1,2}) (?:durchg[äa]nge?|durchgaenge|durchläufe|omgangen|keer rond|passages)\b", r"\1 rounds"),
    (r"\b(\d{1,2}) (?:times|x) (?:a?round|over)\b(?! the)", r"\1 rounds"), (r"\btwice (?:a?round|through|thru|over)\b(?! the)", "2 rounds"), (r"\b(?:3 times|thrice) (?:a?round|through)\b", "3 rounds"),
    # a minute with one more each time
    (r"(?:\bevery minute[ ,:]+)?\bmin(?:ute)? 1[ :=,-]*(?:is |do )?(?P<a>\d{1,2}) (?P<what>[a-z][a-z -]{2,40}?)[ ,;.]+min(?:ute)? 2[ :=,-]*(?:is |do )?(?P<b>\d{1,2})\b(?! ?(?!min)[a-z]|[\"'])(?:[ ,;.]*(?:and )?min(?:ute)? 3[ :=,-]*(?:is |do )?(?P<c>\d{1,2})\b)?", _each_minute_more),
    (r"\b(?P<a>\d{1,2}) in the (?:first|1st)(?: minute| min)?,? (?P<b>\d{1,2}) in the (?:second|2nd)(?: minute| min)?(?:,? (?:and )?(?P<c>\d{1,2}) in the (?:third|3rd)(?: minute| min)?)?", lambda found: f"+{int(found['b']) - int(found['a'])} per minute" if int(found["b"]) > int(found["a"]) else found[0]),
    (r"\bevery minute (?:1|one) more ([a-z][a-z -]+)", r"every minute: 1 \1 +1 per minute"), (r"\b(?:1|one) more (?:rep )?(?:each|every|per) minute\b", "+1 per minute"),
    # so long in all, of so long work and so long rest
    (r"\b(?P<t>\d{1,2}) ?(?:min(?:ute)?s?|') (?:of )?:?(?P<w>\d{1,2}) ?(?:s|sec\w*)\b (?:of )?(?P<what>[a-z][a-z -]{2,40}?) ?[,/]? ?(?:and )?(?P<r>\d{1,2}) ?(?:s|sec\w*)\b (?:of )?(?:rest|off)\b", _filled),
    # the other group's load or amount in brackets: "at 80 kg (women 55)", "16 kg each, ladies 12"
    (r"(?<![\d./])(\d{1,3}(?:[.,]\d+)?) ?(kg|lb)(?: each)? ?[(,] ?(?:for )?(?:the )?(?:women|ladies|girls|females?|gals):? (\d{1,3}(?:[.,]\d+)?)(?: ?(?:kg|lb))?(?: each)?\)?(?![\d./]|,\d| ?(?:cal|m\b|min))", _both),
    # Italian, Portuguese and Dutch for what is done how; their smaller words stand in `other_tongues`
    (r"\bniet op (?:de )?tijd\b|\bnon a tempo\b|\bsem tempo\b|\bsenza tempo\b|\bnot for time\b", "not for time"), (r"\bcontra o (?:tempo|rel[oó]gio)\b|\bnel minor tempo(?: possibile)?\b|\bzo snel mogelijk\b", "for time"),
    (r"\b(?:zoveel mogelijk|massimo numero di|numero massimo di|máximo de|o máximo de) (?:rounds|rondes|giri|voltas)\b", "as many rounds as possible"),
    (r"\bc/ ?(?:pierna|brazo|lado|perna|braço)\b", "each side"), (r"\b(?:in plaats van|al posto (?:di|del|dei|delle)|invece (?:di|del|dei|delle)|em vez de|no lugar de?)\b", "instead of"),
    (r"\b(?:in coppia|a coppie|em duplas?|in duo'?s?|met z'?n twee[eë]n)\b", "in pairs"), (r"\beins (?=rm\b)", "1 "), (r"(?<=\d )(?:calorieën|calorias|calorie)\b(?! row)", "cal"),
    (r"(?<=\d )(?:keer|mal|volte|vezes|veces|fois) (?=[a-zäöüéà])", ""),
    (r"\b(?:niet|non|sem|senza|nicht|pas|no) for time\b", "not for time"),
    # "RX: 6 muscle-ups, ..." is what the piece asks
    (r"^\s*rx(?:'?d|x)?\s*:\s*(?=\d|[a-z])", ""),
    # how long it may take
    (r"(?<!rest )\b(?:with )?(?:no|not) (?:more|longer) than (\d{1,2} ?(?:min(?:ute)?s?|'))(?! (?:rest|between))", r"\1 cap"), (r"\b(?:i'?m |we'?re |i am |we are )?putting a (?:time )?limit of (\d{1,2} ?min(?:ute)?s?)(?: on it)?", r"\1 cap"),
    # spoken: "mountain climbers 30 of them", "22 point 5", "2 x 15 kg for the men and 2 x 10 for the women"
    (r"(?<=do )((?:[a-z-]+ ){0,2}[a-z-]+) (\d{1,3}) of (?:them|those)\b", r"\2 \1"), (r"(?<![\d.])(\d{1,3}) point (\d)\b", r"\1.\2"),
    (r"(?<![\d.])2 ?(?:x|times) ?(\d{1,2}(?:\.\d)?) ?(kg|lb)? (?:for )?(?:the )?men,? ?(?:and |/ ?)?2 ?(?:x|times) ?(\d{1,2}(?:\.\d)?) ?(?:kg|lb)? (?:for )?(?:the )?women\b", lambda found: f"2x{found[1]}/{found[3]} {found[2] or 'kg'}"),
    (r"(\d ?(?:s|secs?|seconds?|min(?:ute)?s?|')),? (?:of )?(?:standing|walking|passive|full|static|complete) (?:rest|recovery)\b", r"\1 rest"),
    # what is held, no swings: "100 m carry with 2 KBs"
    (r"\b(with|w/?|using|holding|of) (\d|a pair of|heavy|your|the)? ?kbs?\b(?! ?(?:swings?|sw)\b)", lambda found: f"{found[1]} {found[2] or ''} kettlebells".replace("  ", " ")),
    # so many times through; how long it may take; what is on the clock
    (r"\b(\d{1,2}) (?:cycles|trips|passes|circuits|go-?rounds)(?: a?round| through| thru)?(?: of)?\b(?! (?:each|per))", r"\1 rounds of"), (r"\b(rounds of) ?[:-] ?(?=\d+ ?-?(?:min|'))", r"\1 "),
    (r"\b(\d{1,2} ?min(?:ute)?s?) (?:hard )?cut(?:-?off)?\b", r"\1 cap"), (r"\brunning clock\b", "clock"), (r"\b(?:complete|perform) (?=\d)", ""), (r"\b(rest)s? (?:for )?an? (?=min)", r"\1 1 "),
    (r"(^|[:;] ?|for reps[:,]? ?)(\d{1,2} ?(?:min|sec|s)(?:ute)?s?\b) each(?= ?(?:[,:;]|$))", r"\1\2 per station"),
    (r"\b(\d{1,2} ?min(?:ute)?s?) to (?:accumulate|get|do|collect|rack up|complete)(?= (?:as many|max))", r"\1"), (rf"\b(\d{{1,2}} ?min(?:ute)?s?):? as many ((?!rounds|reps|cal)[a-z][a-z -]{{2,30}}?) as {_CAN}", r"\1 max \2"),
    # what the rest of the time is for: "then as many burpees as possible in what is left"
    (rf"(?:^\s*|(?<=[,;:+]) ?|\b(?:and )?then,? |\band )as many ((?!rounds?\b|reps?\b|cal|kcal|met|m\b|good\b|sets?\b|as\b|clean\b|unbroken\b|of\b)[a-z][a-z -]{{2,30}}?) as {_CAN}(?: {_LEFT})?(?=\s*(?:[.;,!)]|$))", r" max \1"),
    (r"\b((?:remaining time|time (?:left|remaining)|left ?over time|rest of the time|whatever(?:'s| is) left)[ :,=-]*)amrap(?= ?:? ?\d)", r"\1as many rounds as possible"),
    (r"\balt\.?(?:ernating)? (?=e\d?mom)", "alternate "),
    # counts that go up or down by the same
    (r"(?<![\d.:/-])(\d{1,2}) (?:all the way )?(?:down |up )?to (\d{1,2}) (?:by|in|going) (\d|one|two|three|five)'?s\b", _row_of_counts),
    # "push the sled 6 x 20 m": the movement by its verb
    (r"\b(push|drag|pull|carry|flip)(?:ing)? (?:the |a |your )?(sled|prowler|tyre|tire|sandbag|keg|yoke|farmer'?s? handles?)\b(?= ?(?:,|for)? ?\d)", lambda found: f"{found[2]} {found[1]}"),
    # what is carried before how often and how far: "farmer carry 50 lb DB, 4 trips of 40 m a side"
    (r"^(\W*(?:[a-z][a-z' -]{2,30} )?(?:carry|carries|walk|push|drag|pull|sled|yoke|crawl)s?) ((?:@ ?|with )?(?:2 ?x ?)?\d{1,3}(?:\.\d)?(?: ?/ ?\d{1,3}(?:\.\d)?)? ?(?:kg|lb)\b(?: (?:dbs?|kbs?|dumbbells?|kettlebells?|plates?|sandbag)(?: each| per hand)?)?),? (\d{1,2})(?: (?:trips|lengths|rounds|sets|times)(?: of)?| ?x) ?(\d{1,3} ?m)\b(?! ?(?:rest|in))( ?/ ?(?:side|arm|hand)| (?:each|per|a) (?:side|arm|hand))?", r"\3 x \4\5 \1 \2"),
    # an easier way in brackets
    (r"(?<=\()(?:easy|simple|easiest|modified)(?= ?:)", "easier"),
    (r"\b(\d{1,2} ?min(?:ute)?s?) so many (rounds|reps) as possible", r"\1 as many \2 as possible"), (r"\bso many rounds as possible\b", "as many rounds as possible"),
    (r"\bnobody counts(?: the)? time\b|\bno ?(?:body|one) (?:is )?(?:timing|counting)\b", "no clock"),
    (r"(?<=\d)( ?(?:s|sec|seconds) )hollow(?! ?(?:hold|rock|body))(?=\s*(?:$|[,.;)]))", r"\1hollow hold"),
    # hard and easy times in turn
    (rf"\b(?P<x>\d{{1,2}}) ?(?:rounds?|rds|x|sets|times)(?: of)?:? ?(?P<w>\d{{1,3}} ?(?:s|secs?|seconds?|min(?:ute)?s?))\b ?(?P<h>(?:all[ -]?out|hard|sprint|fast|max(?: effort)?|quick|vite|schnell|forte|fuerte|rápido|snel) )?(?:on (?:the )?)?(?P<e>(?:assault |echo |air )?(?:{_ENGINE}|rower|rudern|rameur))?(?P<h2> (?:sprints?|hard|fast|all[ -]?out))?[,/ +]+(?P<r>\d{{1,3}} ?(?:s|secs?|seconds?|min(?:ute)?s?)) (?:easy|slow|rest|recovery|off|walk|lent|locker|langsam|suave|lento|rustig)(?: (?:spin|{_ENGINE}|walk|pedal))?", _hard_and_easy),
    (rf"\b({_ENGINE})((?: sprints?)? intervals?),? (\d{{2}}) ?/ ?(\d{{2,3}}) ?x ?(\d{{1,2}})\b", r"\5 x \3 sec on \4 sec off \1"),
    # a load that is pointed at
    (r"(?:\bw/?|\bwith|\busing|@) (?:the |a |an )?([4-9]|[1-5]\d(?:\.5)?) ?(?:kg )?(?:bell|kb|kettlebell)\b", r"@ \1 kg"), (r"(?:\bw|w/) ?the (\d{1,2}(?:\.5)?)(?=\s*(?:$|[.,;)](?!\d)))", r"@ \1 kg"),
    # one arm, one leg
    (r"(?<![\d.])\b(?:1|one)[ -]?(arm|leg|hand)(?:ed)?\b(?!s)", r"single \1"),
    # a key beside the right one
    (r"\b(?:pill|oull|puull|pulk|pukl)[ -]?ups?\b", "pull ups"), (r"\b(?:pish|oush|pusj|puch)[ -]?ups?\b", "push ups"),
    # "burpees n pull-ups", "clean n jerk"
    (r"(?<=[a-z]) '?n'? (?=[a-z]{3})", " and "), (r"(?<=\d)m rn\b", "m run"), (r"(?<=\d m )rn\b", "run"),
)  # fmt: skip
_ROW = r"\d{1,2}(?:(?:[ ,/+&-]| and )+\d{1,2})*"
_RISING = re.compile(
    rf"[ ,]+(?:and )?then (?P<rows>{_ROW}(?:,? (?:and )?then {_ROW})*)(?![\w./:]|[ ]?(?!etc|and so|keep|\.\.|bar|finish|until|till|cap)[a-z%@])"
    r"(?:,? ?(?:\.\.+|etc\b|and so on\b|and so forth\b|keep (?:going|adding|climbing)(?: up)?(?: by (?:\d+|twos?|threes?))?))?",
    re.IGNORECASE,
)
_RULES = tuple((re.compile(pattern), word) for pattern, word in _PHRASES)
_FAR = re.compile(rf"\bas far as {_CAN}(?! in \d)")


def as_told(text: str) -> str:
    """Return a line with what says how a piece is done in the words that are read."""
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    if _LENGTH.search(text):
        text = _FAR.sub("max distance", text)
    return text


def rising(text: str) -> str:
    """Put counts that are told round by round into how they rise: `2 cleans 2 burpees then 4 4 then 6 6`."""
    if "then" not in text.lower():
        return text
    return _RISING.sub(_then_more, _TOLD_DOWN.sub(_by_rounds, text))
