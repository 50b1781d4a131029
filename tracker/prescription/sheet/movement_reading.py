"""Reads movements of a piece from tokens: how many of what, at which load and height, and what may be done instead."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import pairwise
from typing import Any

from tracker.prescription.sheet.names import full_name, known
from tracker.prescription.sheet.piece import Count, Movement, Pair
from tracker.prescription.sheet.sets_reading import unit_of
from tracker.prescription.sheet.tokens import Token
from tracker.units import MOST_KG, Mass

MOST_COUNT = 20_000  # repetitions, calories, metres or seconds of one movement in one round; design choice
AMOUNTS = frozenset({
    "num", "reps", "cal", "dist", "miles", "time", "calpair", "distpair", "list", "maxcal", "maxdist", "max", "range",
})  # fmt: skip
# Words that begin what is instead of a movement, and for whom.
WHEN = re.compile(
    r"^(?:at )?(home|scaled?|scaling|no [a-z]+(?: [a-z]+)?|sub(?:stitute)?|option|easier|lighter|beginners?|rx\+?|dumbbells?|dbs?|kb|without [a-z ]+|women|men|instead of [a-z ]+|outdoors?|indoors?|if [a-z ]+)$"
)
LEVEL = re.compile(
    r"(?:^|\s)(scaled?|sc|intermediate|inter|int|beginners?|masters?|m ?\d\d\+?|rx\+|elite|light(?:er)?|foundation|level \d|l\d|teens?)$"
)
QUIET = frozenset(
    {
        "of",
        "a",
        "an",
        "the",
        "with",
        "at",
        "@",
        "x",
        "for",
        "each",
        "do",
        "some",
        "your",
        "to",
        "in",
        "on",
        "as",
        "any",
        "more",
        "good",
    }
)
IMPLEMENTS = frozenset(
    {"db", "dbs", "kb", "kbs", "bar", "barbell", "dumbbell", "dumbbells", "kettlebell", "kettlebells", "bb"}
)
# Words that never are a movement's name by themselves.
NO_NAME = frozenset({
    "rounds", "round", "min", "minutes", "minute", "reps", "rep", "sets", "set", "score", "time", "cap", "rest", "total", "goal", "note", "notes",
    "station", "stations", "weeks", "week", "day", "days", "people", "members", "new", "old", "times", "am", "pm", "uhr", "euro", "euros", "class",
    "o'clock", "kids", "spots", "places", "left", "works", "rests", "others", "partner", "partners", "teams", "team", "pairs", "heats", "heat", "lanes",
    "percent", "sec", "seconds", "hours", "hour", "years", "tries", "attempts", "only", "points", "scores", "both", "different", "of",
})  # fmt: skip


# Words before a name that say how, not what: "heavy swings" are swings, "pallof press" is no press.
HOW = frozenset({
    "everybody", "everyone", "does", "doing", "be", "it", "we", "you", "will", "comes", "starts", "start", "strength", "as", "promised", "again", "before", "that", "after",
    "heavy", "light", "easy", "slow", "fast", "strict", "unbroken", "max", "good", "nice", "clean", "quick", "hard", "big", "small", "more", "extra", "total", "steady", "smooth",
    "perfect", "controlled", "explosive", "touch", "alternating", "alt", "synchro", "together", "shared", "each", "your", "the", "some", "any", "own", "same", "then", "now", "also",
    "first", "second", "third", "last", "final", "next", "today", "tonight", "main", "working", "work", "warm", "build", "climb", "back-off", "backoff", "drop", "top", "speed", "volume",
    "tech", "technique", "focus", "optional", "bonus", "only", "just", "please", "ok", "okay", "so", "do", "and", "with", "for", "hi", "hey", "guys", "team", "all", "tmrw",
    "tomorrow", "test", "retest", "rx", "scaled", "open", "long", "short", "medium", "moderate", "super", "weighted", "bodyweight", "assisted", "banded", "standing", "seated", "kneeling",
    "of", "x", "at", "in", "on", "to", "is", "deload", "superset", "set", "sets", "reps", "rep", "round", "rounds", "rest", "zone", "recovery", "pace", "tempo", "continuous",
    "part", "block", "skill", "workout", "partner", "teams", "pairs", "circuit", "metcon", "condtioning", "conditioning", "wod", "amrap", "emom", "barbell", "from", "off", "no", "without", "between", "by", "per", "then:", "i", "my", "our", "this", "let's", "lets", "add", "hit", "find", "take", "go", "get", "see", "try", "keep", "end", "finish", "finisher", "session", "option",
})  # fmt: skip


def makes_name(word: str) -> bool:
    """Whether a word before a known name makes another name of it."""
    return (
        len(word) >= 3
        and word.isalpha()
        and word not in HOW
        and word not in QUIET
        and word not in NO_NAME
        and word not in IMPLEMENTS
    )


@dataclass
class Draft:
    """A movement as far as it has been read."""

    name: str = ""
    known: bool = False
    count: Count | None = None
    measure: str = ""
    usual: str = ""
    sides: tuple[int, int] | None = None
    most: bool = False
    load: Any = None
    implements: int = 1
    implement: str = ""
    each_side: bool = False
    heights: tuple[Decimal, ...] = ()
    target: Decimal | None = None
    standard: list[str] = field(default_factory=list)
    when: str = ""
    options: list[Movement] = field(default_factory=list)
    counted: bool = False
    work: int = 0  # seconds in which as many are done as there is time for
    ladder: tuple[list[int], Any] | None = None

    @property
    def empty(self) -> bool:
        return not self.name and not self.counted and self.load is None

    def made(self, line: int = 0) -> Movement:
        measure = self.measure or "reps"
        self.standard = [each for each in self.standard if any(sign.isalnum() for sign in each) and each not in QUIET]
        helped = next((each[5:].strip() for each in self.standard if each.startswith("with ") and len(each) > 5), "")
        standard = [each for each in self.standard if not helped or each[5:].strip() != helped]
        pair = (self.heights[0], self.heights[1]) if len(self.heights) == 2 else None
        return Movement(
            self.name, self.count, measure, self.load, self.implement if self.load is not None else "", self.implements if self.load is not None else 1,  # type: ignore[arg-type]
            self.each_side, self.heights[0] if len(self.heights) == 1 else None, self.target, helped, ", ".join(each for each in standard if each),
            tuple(self.options), self.sides, self.most, "", self.when, pair, line,
        )  # fmt: skip


@dataclass
class MovesRead:
    """What a run of tokens says of movements; `scheme` is a list of counts that stands before all of them."""

    moves: list[Movement] = field(default_factory=list)
    options: list[Movement] = field(default_factory=list)  # options of a movement that stands above
    scheme: Count | None = None
    left: list[Token] = field(default_factory=list)
    stations: int = 0  # minutes or stations that were named on the line
    known: int = 0
    counted: int = 0
    works: list[int] = field(default_factory=list)  # seconds that each movement has, where it is done for a time


def read_moves(
    tokens: list[Token],
    *,
    unit: str = "kg",
    line: int = 0,
    free: bool = True,
    slash_or: bool = True,
    heading: bool = False,
) -> MovesRead:
    """Read movements from tokens.

    Args:
        tokens: The tokens of one line or sentence.
        unit: The unit of loads that stand without one.
        line: The line that they are on.
        free: Whether names that the table does not have are taken, as in a list of movements; else only known ones.
        slash_or: Whether a slash between two movements means one or the other.
        heading: Whether this line says how a piece is done; a list of counts is then that of all movements.
    """
    reader = _Reader(tokens, unit, line, free=free, slash_or=slash_or, heading=heading)
    reader.run()
    return reader.found


class _Reader:
    def __init__(self, tokens: list[Token], unit: str, line: int, *, free: bool, slash_or: bool, heading: bool) -> None:
        self.tokens, self.unit, self.line, self.free, self.slash_or, self.heading = (
            tokens,
            unit,
            line,
            free,
            slash_or,
            heading,
        )
        self.found = MovesRead()
        self.now = Draft()
        self.option = False
        self.when = ""
        self.depth = 0
        self.words: list[Token] = []
        self.at = 0
        self.paren_option = False
        self.joined = False

    def run(self) -> None:
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            handler = getattr(self, f"_on_{token.kind}", None)
            if handler is None or handler(token) is False:
                self._word(token)
            self.at += 1
        self._close()

    # what is around

    def _next(self, ahead: int = 1) -> Token | None:
        at = self.at + ahead
        return self.tokens[at] if 0 <= at < len(self.tokens) else None

    def _amount_ahead(self, *, far: int = 3) -> bool:
        """Whether a count and something to do follow, as where another movement begins."""
        kinds = [token.kind for token in self.tokens[self.at + 1 : self.at + 1 + far]]
        return bool(kinds) and (
            kinds[0] in AMOUNTS
            or kinds[:2] == ["calword", "name"]
            or kinds[0] == "name"
            or (kinds[0] == "word" and any(kind in ("name", *AMOUNTS) for kind in kinds))
        )

    def _word(self, token: Token) -> None:
        if not token.text.startswith("ladder"):
            self.words.append(token)

    def _take_words(self) -> str:
        text = " ".join(token.text for token in self.words).strip(" ,;-.:")
        self.words = []
        return text

    def _name_from_words(self) -> None:
        """Let words behind a count be the name of a movement that the table does not have."""
        if self.now.name or not self.words:
            return
        words = [
            token.text.strip(".,;:!")
            for token in self.words
            if token.kind in ("word", "men", "women", "climb", "same", "implement", "minutesmark", "setlabel")
        ]
        while words and (words[0] in QUIET or not words[0]):
            words.pop(0)
        while words and words[-1] in QUIET:
            words.pop()
        if not self.free or not words or len(words) > 6 or not (self.now.counted or self.option):
            return
        if {"is", "are", "was", "will", "we", "you", "i", "who", "has", "have"} & set(words):
            return
        if (
            words[0] in NO_NAME
            or len(" ".join(words)) > 60
            or not any(len(word) > 1 and word.isalpha() for word in re.split(r"[\s'-]", " ".join(words)))
        ):
            return
        typed = " ".join(words)
        if not self.option and all(word in IMPLEMENTS for word in words):
            self.now.standard.append(typed)
            self.words = []
            return
        self.now.name, entry = full_name(typed)
        self.now.known = entry is not None
        if entry is not None:
            self.now.usual = entry.measure
        self.words = []

    def _close(self) -> None:
        """End the movement that is being read."""
        self._name_from_words()
        now = self.now
        if now.name:
            if self.words:
                rest = self._take_words()
                if rest:
                    now.standard.append(rest)
            self._ladder(now)
            self._push(now)
        else:
            if (
                now.counted
                and self.option
                and self.found.moves
                and now.count is not None
                and (not self.words or now.measure == "m")
                and self.found.moves[-1].measure == (now.measure or "reps")
            ):
                now.name = self.found.moves[-1].name
                self._push(now)
            elif now.counted or now.load is not None:
                self._loose(now)
            self.found.left += self.words
            self.words = []
        self.now = Draft()

    def _ladder(self, now: Draft) -> None:
        if now.ladder is None:
            return
        numbers, more = now.ladder
        now.count = ladder_count(numbers, more)
        now.ladder = None

    def _push(self, now: Draft) -> None:
        move = now.made(self.line)
        if easier := easier_of(move):
            move = replace(move, options=(*move.options, easier))
        if not self.option:
            self.found.works.append(now.work or (move.count.reps[0] if move.measure == "s" and move.count else 0))
        self.found.known += now.known
        self.found.counted += now.counted
        if self.option and self.found.moves:
            last = self.found.moves[-1]
            self.found.moves[-1] = replace(last, options=(*last.options, replace(move, when=now.when or self.when)))
        elif self.option:
            self.found.options.append(replace(move, when=now.when or self.when))
        else:
            self.found.moves.append(move)

    def _loose(self, now: Draft) -> None:
        """A count or load that found no movement: a list is the scheme of all, a load belongs to the last one."""
        if now.ladder is not None and not self.found.moves:
            self.found.scheme = ladder_count(*now.ladder)
            return
        if now.load is not None and not now.counted:
            if self.option and self.found.options and self.found.options[-1].load is None:
                self.found.options[-1] = replace(self.found.options[-1], load=now.load)
                return
            if self.found.moves:
                last = self.found.moves[-1]
                if self.option and last.options and last.options[-1].load is None:
                    self.found.moves[-1] = replace(
                        last,
                        options=(
                            *last.options[:-1],
                            replace(last.options[-1], load=now.load, implements=now.implements),
                        ),
                    )
                    return
                if last.load is None:
                    self.found.moves[-1] = replace(last, load=now.load, implements=now.implements)
                    return
        self.found.left += list(now_tokens(now))

    # separators

    def _on_sep(self, token: Token) -> bool | None:
        sign = token.text
        if sign == "(":
            self.depth += 1
            inner = self._next()
            words = self._inside()
            if inner is not None and (inner.kind == "orword" or _is_when(words)):
                self._name_from_words()
                self._close_if_named()
                self.option, self.paren_option, self.when = True, True, _when_of(words)
                self._skip_when(words)
            elif self.now.counted and not self.now.name:
                self._name_from_words()
            return None
        if sign == ")":
            self.depth = max(0, self.depth - 1)
            if self.paren_option:
                self._close()
                self.option = self.paren_option = False
                self.when = ""
            elif self.now.name and self.words:
                self.now.standard.append(self._take_words())
            return None
        if sign == ":":
            self._name_from_words_colon()
            return None
        if sign == "/" and self.now.counted and self.now.name and not self._amount_ahead():
            self._word(token)
            return None
        if sign in ",;+/|>.-":
            self._name_from_words()
            if sign == "-" and self._counts_before():
                return None
            if (
                sign == "/"
                and self.slash_or
                and self.now.name
                and (self._amount_ahead(far=4) or (self.now.known and self._words_ahead()))
            ):
                self._close()
                self.option = True
                return None
            if sign == "+" and self.option and self.now.name:
                self._close()
                return None
            if self.now.name and (self._amount_ahead() or sign in ";|"):
                was, paren = self.option, self.paren_option
                self._close()
                if was and not paren and sign in ",;" and not self._or_ahead():
                    self.option = False
                return None
            if self.now.name and self.words:
                self.now.standard.append(self._take_words())
            return None
        return None

    def _counts_before(self) -> bool:
        """Whether an amount behind a dash or colon is that of the name before it: `push-ups - 18`, `rower: 20 cal`."""
        ahead = self._next()
        if not self.now.name or self.now.counted or ahead is None or ahead.kind not in AMOUNTS:
            return False
        after = self._next(2)
        return (
            after is None
            or (after.kind == "word" and after.text in ("at", "with", "@", "w"))
            or after.kind
            in (
                "sep",
                "mass",
                "pair",
                "mass2",
                "each",
                "cm",
                "inch",
                "atx",
                "calword",
                "orword",
                "andword",
            )
        )

    def _words_ahead(self) -> bool:
        """Whether a few words alone follow up to the end or the next sign."""
        kinds = []
        for token in self.tokens[self.at + 1 :]:
            if token.kind == "sep":
                break
            kinds.append(token.kind)
        return 1 <= len(kinds) <= 5 and set(kinds) == {"word"}

    def _or_ahead(self) -> bool:
        token = self._next()
        return token is not None and token.kind == "orword"

    def _inside(self) -> str:
        """The words within the brackets that open here, up to a colon."""
        words = []
        for token in self.tokens[self.at + 1 :]:
            if token.kind == "sep" and token.text in ":)":
                return " ".join(words) if token.text == ":" else ""
            words.append(token.text)
        return ""

    def _skip_when(self, words: str) -> None:
        if not words:
            return
        while self.at + 1 < len(self.tokens):
            self.at += 1
            if self.tokens[self.at].text == ":":
                return

    def _name_from_words_colon(self) -> None:
        words = " ".join(token.text for token in self.words)
        if _is_when(words) and (self.found.moves or self.now.name or self.option or not self.found.moves):
            self.words = []
            if self.now.name:
                self._close()
            self.option, self.when = True, words
        elif self.now.name and self.words:
            self.now.standard.append(self._take_words())
        elif not self.now.name:
            self._name_from_words()

    def _close_if_named(self) -> None:
        if self.now.name:
            self._close()

    def _on_orword(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name and not self.found.moves and self.now.empty and not self.words:
            self.option = True
            return None
        if self.now.name or self.option or self.found.moves:
            self._close()
            self.option = True
            return None
        return False

    def _on_andword(self, token: Token) -> bool | None:
        self._name_from_words()
        if self.now.name and (ahead := self._next()) is not None and ahead.kind in ("mass", "pair", "men", "women"):
            return None
        if self.now.name and (self._amount_ahead() or self.found.moves or token.text.endswith("then")):
            was = self.option and not self.paren_option
            self._close()
            if was and token.text.endswith("then"):
                self.option = False
            return None
        if self.now.name:
            following = self._next()
            if following is not None and following.kind == "name":
                self._close()
                return None
        return False

    # counts

    def _begin(self) -> None:
        """A count begins another movement where the one before it has its name."""
        self._name_from_words()
        if self.now.name and (self.now.counted or self._is_before_name()):
            self._close()
            if self.option and not self.paren_option and not self._came_by_or():
                self.option = False

    def _came_by_or(self) -> bool:
        before = self._next(-1)
        return before is not None and before.kind == "orword"

    def _is_before_name(self) -> bool:
        """Whether what stands here is counted by a name behind it rather than by the one before."""
        for token in self.tokens[self.at + 1 : self.at + 4]:
            if token.kind == "name":
                return True
            if token.kind not in ("word",) or token.text in QUIET - {"x"}:
                return False
        return False

    def _count(self, count: Count, measure: str) -> None:
        self._begin()
        self.now.count, self.now.counted = count, True
        if measure:
            self.now.measure = measure

    def _ok(self, number: Any) -> bool:
        return number == int(number) and 1 <= number <= MOST_COUNT

    def _on_num(self, token: Token) -> bool | None:
        if not self._ok(token.value):
            return False
        following = self._next()
        if (
            following is not None
            and following.kind == "word"
            and following.text.rstrip(".,;:!") in NO_NAME | {"%", "€"}
        ):
            return False
        if following is not None and following.kind == "sep" and following.text == ")" and self.depth == 0:
            self._close_if_named()
            self.at += 1
            return None  # a label: 1) 12 cal bike 2) 10 burpees
        if self.now.name and not self.now.counted and not self._is_before_name():
            after = self._next()
            if (
                after is not None
                and after.kind == "word"
                and after.text not in ("reps", "each", "x", "per", "unbroken", "total", "in", "as", "times")
            ):
                return False
        if following is not None and following.kind == "word" and following.text == "s":
            return False
        if self.now.counted and self.now.measure == "s" and not self.now.name and self.words and self._is_before_name():
            return False  # "20 min zone 2 bike"
        self._count(Count((int(token.value),)), "")
        return None

    def _on_reps(self, token: Token) -> bool | None:
        return self._on_num(token)

    def _on_xnum(self, token: Token) -> bool | None:
        if self.now.name and not self.now.counted and self._ok(token.value):
            self.now.count, self.now.counted = Count((token.value,)), True
            return None
        if self.now.empty and self._ok(token.value):
            return self._on_num(token)
        return False

    def _on_plus(self, token: Token) -> bool | None:
        return self._on_num(token)

    def _on_cal(self, token: Token) -> bool | None:
        if not self._ok(token.value):
            return False
        self._count(Count((token.value,)), "cal")
        return None

    def _on_dist(self, token: Token) -> bool | None:
        number, unit = token.value
        if unit != "m" or not 1 <= number <= 1_000_000:
            if unit in ("ft", "yd") and self.now.name:
                self.now.standard.append(token.text)
                return None
            return False
        self._count(Count((int(number),)), "m")
        return None

    def _on_miles(self, token: Token) -> bool | None:
        return self._on_dist(token)

    def _on_time(self, token: Token) -> bool | None:
        if not 1 <= token.value <= 24 * 3600:
            return False
        self._count(Count((token.value,)), "s")
        return None

    def _on_calpair(self, token: Token) -> bool | None:
        one, two, measure = token.value
        self._begin()
        if one == two:
            self._count(Count((one,)), measure)
            return None
        self.now.sides, self.now.measure, self.now.counted = (max(one, two), min(one, two)), measure, True
        return None

    _on_distpair = _on_calpair

    def _on_list(self, token: Token) -> bool | None:
        numbers, more, _ = token.value
        if any(not self._ok(number) for number in numbers):
            return False
        before = self._next(-1)
        if self.depth and before is not None and before.kind in ("men", "women"):
            return False  # one group's own row of counts: "(women 21-16-12-7)"
        if (self.heading or not self.now.name) and not self.found.moves and self.now.empty:
            following = self._next()
            if self.heading or following is None:
                self.found.scheme = ladder_count(numbers, more)
                return None
        self._begin()
        self.now.ladder, self.now.counted = (numbers, more), True
        return None

    def _on_range(self, token: Token) -> bool | None:
        """`2-3 muscle-ups`: the lower one is the count, both stand in words."""
        low, high = token.value
        if low >= high or not self._is_before_name() or not self._ok(low) or high > 3 * low:
            return False
        self._begin()
        self.now.count, self.now.counted = Count((int(low),)), True
        self.now.standard.append(token.text)
        return None

    def _on_masslist(self, token: Token) -> bool | None:
        """`thrusters: 8, 61/43 kg` is a count and a pair of loads."""
        found = re.fullmatch(
            r"(\d{1,3})\s*,\s*@?\s*(\d+(?:\.\d+)?)\s*(?:kg|lb|#)?\s*/\s*(\d+(?:\.\d+)?)\s*(kg|lbs?|#)",
            token.text.strip(),
        )
        if found is None or self.now.counted or not self._ok(int(found[1])):
            return False
        self.now.count, self.now.counted = Count((int(found[1]),)), True
        return self._mass([Decimal(found[2]), Decimal(found[3])], unit_of(found[4]), 1)

    def _on_max(self, token: Token) -> bool | None:
        self._begin()
        if self.now.measure == "s" and self.now.count is not None and not self.now.name:
            self.now.work, self.now.count, self.now.measure = self.now.count.reps[0], None, ""
        self.now.most = self.now.counted = True
        return None

    def _on_maxcal(self, token: Token) -> bool | None:
        self._on_max(token)
        self.now.measure = "cal"
        return None

    def _on_calword(self, token: Token) -> bool | None:
        """`21-15-9 cal row`, `ski erg (calories)`: what a count or movement is measured in."""
        if self.now.measure == "s" and self.now.count is not None:
            self.now.standard.append("for calories")  # "40 seconds row for calories": the time stands
            return None
        if self.now.counted or self.now.name:
            self.now.measure = "cal"
            return None
        following = self._next()
        if following is not None and following.kind == "name":
            self.now.measure = "cal"
            return None
        return False

    def _on_maxdist(self, token: Token) -> bool | None:
        self._on_max(token)
        self.now.measure = "m"
        return None

    def _on_complex(self, token: Token) -> bool | None:
        return False

    def _on_minutesmark(self, token: Token) -> bool | None:
        """`minute 1 is 12 cal bike, minute 2 is ...`: each minute has a movement of its own."""
        self._name_from_words()
        self._close_if_named()
        self.words = [word for word in self.words if word.text not in QUIET]
        self.found.stations += 1
        following = [each.text for each in self.tokens[self.at + 1 : self.at + 3]]
        if following and (following[0] == "rest" or following[-1] == "rest"):
            self.found.moves.append(Movement("rest", line=self.line))
        return None

    # names

    def _on_name(self, token: Token) -> bool | None:
        found = token.value
        if self.now.name and not self.words and self._compound(token):
            return None
        if self.now.name:
            if self.words and self.words[-1].text in ("straight", "into"):
                self._take_words()
            self._close()
        if self.words and not self.now.name:
            text = " ".join(each.text for each in self.words)
            before = self._take_words()
            if before and self.free and len(before.split()) <= 2 and all(makes_name(word) for word in before.split()):
                self.now.name, self.now.known = f"{before} {found.name}", False
                return None
            if before and before not in QUIET and (self.now.counted or self.now.load is not None):
                self.now.standard.append(before)
            elif text:
                pass
        self.now.name, self.now.known = found.name, found.known is not None
        if found.known is not None:
            self.now.usual = found.known.measure
        return None

    def _compound(self, token: Token) -> bool:
        """`burpee deadlifts`: two names side by side are one, but a plural before ends its own."""
        before = self._next(-1)
        if (
            before is None
            or before.kind != "name"
            or before.end + 1 != token.start
            or before.text.rstrip().endswith("s")
            or self.now.load is not None
        ):
            return False
        if not self.now.name.endswith(token.value.name):
            self.now.name, self.now.known = f"{self.now.name} {token.value.name}", False
        return True

    # loads and heights

    def _mass(self, amounts: list[Decimal], unit: str, number: int) -> bool | None:
        masses = [Mass(amount, unit) for amount in amounts if 0 < Mass(amount, unit).kg <= MOST_KG]  # type: ignore[arg-type]
        if len(masses) != len(amounts):
            return False
        load: Any = masses[0]
        if len(masses) == 2 and masses[0] != masses[1]:
            larger, smaller = sorted(masses, key=lambda each: -each.amount)
            load = Pair(larger, smaller)
        if self.now.load is not None and self.now.name:
            if (
                isinstance(self.now.load, Mass)
                and isinstance(load, Mass)
                and self.now.load.unit == load.unit
                and self.now.load != load
                and self._sided()
            ):
                larger, smaller = sorted((self.now.load, load), key=lambda each: -each.amount)
                self.now.load = Pair(larger, smaller)
                return None
            return False
        self._name_from_words()
        if self.now.name and self._unloaded(self.now.name):
            if self._to_earlier(load):
                return None
            if self.option or self.found.moves:
                return False
        self.now.load, self.now.implements = load, number
        return None

    def _unloaded(self, name: str) -> bool:
        entry = known(name)
        return (
            entry is not None
            and entry.implement == "body"
            and entry.measure == "reps"
            and "lunge" not in name
            and "step" not in name
        )

    def _to_earlier(self, load: Any) -> bool:
        """Give a load behind a movement without one to the movement before that takes it: "thrusters and pull-ups, 40 kg"."""
        for place in range(len(self.found.moves) - 1, -1, -1):
            move = self.found.moves[place]
            entry = known(move.name)
            if entry is not None and entry.implement not in ("body", "machine"):
                if move.load is None:
                    self.found.moves[place] = replace(move, load=load)
                    return True
                if (
                    isinstance(move.load, Mass)
                    and isinstance(load, Mass)
                    and move.load.unit == load.unit
                    and move.load != load
                    and self._sided()
                ):
                    larger, smaller = sorted((move.load, load), key=lambda each: -each.amount)
                    self.found.moves[place] = replace(move, load=Pair(larger, smaller))
                    return True
                return False
        return False

    def _sided(self) -> bool:
        near = {token.kind for token in self.tokens[max(0, self.at - 6) : self.at + 4]}
        return bool(near & {"men", "women"})

    def _on_mass(self, token: Token) -> bool | None:
        amounts, unit, number, sign = token.value
        if self._level_load(amounts, unit_of(unit), number):
            return None
        if sign in ("-", "to") and amounts[0] < amounts[-1]:
            amounts = amounts[:1]
            self.now.standard.append(token.text.lstrip("@ "))
        return self._mass(amounts, unit_of(unit), number)

    def _on_setsx(self, token: Token) -> bool | None:
        """`12 hang cleans, 2x15/10` is two dumbbells of the pair."""
        if token.value[0] == 2 and token.value[2] == "pair" and self.now.name and self.now.load is None:
            one, two = token.value[1]
            return self._mass([Decimal(one), Decimal(two)], self.unit, 2)
        return False

    def _on_mass2(self, token: Token) -> bool | None:
        amounts, unit, number = token.value
        return self._mass(amounts, unit or self.unit, number)

    def _on_added(self, token: Token) -> bool | None:
        amounts, unit = token.value
        return self._mass(amounts, unit_of(unit), 1) if self.now.name else False

    def _level_load(self, amounts: list[Decimal], unit: str, number: int) -> bool:
        """`15 deadlifts RX 100/70 - scaled 60/40`: a second load behind whom it is for is that of an option."""
        words = " ".join(each.text for each in self.words[-2:]).strip(" -,")
        if self.now.load is None or not self.now.name or not LEVEL.search(words) or self.option:
            return False
        masses = [Mass(amount, unit) for amount in amounts if 0 < Mass(amount, unit).kg <= MOST_KG]  # type: ignore[arg-type]
        if len(masses) != len(amounts):
            return False
        load: Any = masses[0]
        if len(masses) == 2 and masses[0] != masses[1]:
            load = Pair(*sorted(masses, key=lambda each: -each.amount))
        when = (LEVEL.search(words) or [""])[0]
        self.now.options.append(Movement(self.now.name, load=load, implements=number, when=when, line=self.line))
        self.words = []
        return True

    def _on_pair(self, token: Token) -> bool | None:
        one, two = token.value
        if self._level_load([one, two], self.unit, 1):
            return None
        if (
            one == two
            and self._ok(one)
            and one <= 50
            and self._is_before_name()
            and not (self.now.name and not self.now.counted)
        ):
            self._begin()
            self.now.count, self.now.counted, self.now.each_side = Count((int(one),)), True, True
            return None
        following = self._next()
        name_follows = following is not None and (
            following.kind == "name" or (following.kind == "word" and self._is_before_name())
        )
        if (
            name_follows
            and not (self.now.name and not self.now.counted)
            and self._ok(one)
            and self._ok(two)
            and one != two
        ):
            self._begin()
            self.now.sides, self.now.counted = (int(max(one, two)), int(min(one, two))), True
            return None
        if self.now.name and one == two and self._ok(one) and one <= 30:
            self.now.count, self.now.counted, self.now.each_side = Count((int(one),)), True, True
            return None
        if self.now.name or self.now.counted:
            if (
                self.now.name.endswith(("box jump", "jump over", "step-over", "step-up", "box jump over"))
                or "box" in self.now.name
            ):
                if one >= 35:
                    self.now.heights = (max(one, two), min(one, two))
                else:
                    self.now.standard.append(token.text)
                return None
            self._name_from_words()
            if self.now.load is None and self.now.name:
                return self._mass([one, two], self.unit, 1)
        return False

    def _on_atx(self, token: Token) -> bool | None:
        if self.now.name and self.now.load is None and token.value >= 4:
            return self._mass([token.value], self.unit, 1)
        return False

    def _on_cm(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name:
            return False
        if any(word.text == "to" for word in self.words[-2:]):
            self.words = [word for word in self.words if word.text not in ("to", "a")]
            self.now.target = token.value[0]
        else:
            self.now.heights = tuple(sorted(token.value, reverse=True))
        return None

    def _on_inch(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name:
            return False
        if self.now.usual == "s" and not self.now.counted and (number := re.match(r"\d+", token.text)):
            self._count(Count((int(number[0]),)), "s")  # 45" behind a plank is a time
            return None
        self.now.standard.append(token.text)
        return None

    _on_feet = _on_inch

    def _on_each(self, token: Token) -> bool | None:
        self._name_from_words()
        if self.now.name or self.now.counted:
            self.now.each_side = True
            return None
        return False

    def _on_implement(self, token: Token) -> bool | None:
        if self.now.load is not None:
            word, number = token.value
            self.now.implement = word
            if number in ("two", "2", "pair of"):
                self.now.implements = 2
            return None
        return False

    def _on_men(self, token: Token) -> bool | None:
        if self.now.load is not None:
            return None
        return False

    _on_women = _on_men

    def _on_buyin(self, token: Token) -> bool | None:
        return False


_EASIER = re.compile(
    r"\b(?:knees?|knien?|genoux|rodillas)\b|\b(?:hands? on|on|from|off) (?:a |the )?(?:box|bench|wall|chair|bar)\b"
)
_ALLOWED = re.compile(
    r"\b(?:ok|okay|fine|allowed|if (?:you )?need(?:ed)?|possible|if you (?:must|have to)|scaled?|or)\b"
)


def easier_of(move: Movement) -> Movement | None:
    """A push-up that may be done on the knees or a box, as a remark behind it says: "(knees is fine)"."""
    if move.name != "push-up" or not (found := _EASIER.search(move.standard)) or not _ALLOWED.search(move.standard):
        return None
    low = found[0].startswith(("knee", "knie", "genou", "rodilla"))
    return Movement("knee push-up" if low else "incline push-up", line=move.line)


def now_tokens(now: Draft) -> list[Token]:
    return []


def ladder_count(numbers: list[int], more: Any) -> Count:
    """Return the counts of a written list: a list that goes on without an end is its first number and its step.

    `10-9-8-...-1` is filled in; `1-2-3...` rises by 1 as long as there is time.
    """
    if more is None:
        return Count(tuple(numbers)) if len(numbers) > 1 else Count((numbers[0],))
    steps = {later - earlier for earlier, later in pairwise(numbers)}
    step = steps.pop() if len(steps) == 1 else 0
    if isinstance(more, int) and step and (more - numbers[-1]) % step == 0 and 0 <= (more - numbers[-1]) // step <= 200:
        return Count((*numbers, *range(numbers[-1] + step, more + (1 if step > 0 else -1), step)))
    if step and more == "on":
        return Count((numbers[0],), step) if step > 0 else Count((*numbers, *range(numbers[-1] + step, 0, step)))
    return Count(tuple(numbers))


def _is_when(words: str) -> bool:
    return bool(words) and WHEN.match(words.strip(" -,.")) is not None


def _when_of(words: str) -> str:
    return words.strip(" -,.:") if _is_when(words) else ""
