"""Parts the tokens of a line where another lift with sets of its own begins."""

from __future__ import annotations

import itertools

from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.pieces.movement_words import makes_name
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import full_name


def _named_once(tokens: list[Token]) -> list[Token]:
    """Leave one name of a lift that is told in two tongues: `Kniebeuge / Back Squat: 3x5`."""
    for place, (one, sign, two) in enumerate(zip(tokens, tokens[1:], tokens[2:], strict=False)):
        same = one.kind == two.kind == "name" and full_name(one.value.typed, lift=True) == full_name(
            two.value.typed, lift=True
        )
        if same and sign.text in ("/", "=", "-", "|", "or") and one.value.typed != two.value.typed:
            return _named_once([*tokens[:place], *tokens[place + 2 :]])
    return tokens


def split_parts(tokens: list[Token]) -> list[list[Token]]:
    """Part the tokens of a line where another lift with sets of its own begins."""
    tokens = _named_once(tokens)
    strong = {"setsx", "sets", "find", "loadx", "loadpairx", "setsxm", "setsxt"}
    if any(_test_of_its_own(tokens, place) for place in range(len(tokens))):
        strong = strong | {"rm"}
    if shared := _one_test_of_all(tokens):
        return shared
    if (at := _same_again(tokens)) > 0:
        name = at - 1 if tokens[at - 1].kind == "name" else at - 2
        return [*split_parts(tokens[:name]), [tokens[name], tokens[at]], *split_parts(tokens[at + 1 :])]
    if (pairs := _tests_in_a_row(tokens)) > 1:
        strong = strong | {"rm"}
    if (
        (pairs < 2 and sum(token.kind in strong | {"max", "setcount"} for token in tokens) < 2)
        or not any(token.kind == "name" for token in tokens)
        or any(token.kind in CLOCKS for token in tokens)
    ):
        return [tokens] if tokens else []
    parts: list[list[Token]] = []
    now: list[Token] = []
    depth = 0
    worded = False  # the part began with words that are a name of their own
    for place, token in enumerate(tokens):
        depth += (token.text == "(") - (token.text == ")") if token.kind == "sep" else 0
        begins = depth == 0 and _most_of_another(tokens, place) and any(each.kind == "name" for each in now)
        wide = place > 0 and token.start - tokens[place - 1].end >= 2
        if depth == 0 and token.kind == "word" and place and (wide or tokens[place - 1].text in (",", ";", "/")):
            ahead_kinds = [each.kind for each in tokens[place + 1 : place + 4]]
            strong_at = next((at for at, kind in enumerate(ahead_kinds) if kind in strong), -1)
            words = [token, *tokens[place + 1 : place + 1 + max(strong_at, 0)]]
            done = any(each.kind in strong for each in now) and (worded or any(each.kind == "name" for each in now))
            begins = done and strong_at >= 0 and all(each.kind == "word" and makes_name(each.text) for each in words)
        if depth == 0 and not begins and token.kind in ("name", *strong):
            named = worded or any(each.kind == "name" for each in now)
            done = any(each.kind in strong for each in now)
            before = tokens[place - 1] if place else None
            if named and token.kind in ("rm", "find") and _test_of_its_own(tokens, place):
                done = done or any(each.kind in ("max", "setcount") for each in now)
            if token.kind == "name" and done and not named and _told_next(tokens[place + 1 :], strong):
                begins = True  # "130 for 3 sets of 4 bench we only do 5 sets of 3"
            elif token.kind == "name" and done and not named and before is not None and before.text in (",", ";"):
                begins = any(each.kind in strong for each in tokens[place + 1 : place + 4])  # "3x3, OHS 3x2 @ 75 %"
            elif token.kind == "name" and named and done:
                behind_of = before is not None and (
                    before.kind in ("of", "orword", "num") or before.text in ("of", "your", "the", "best")
                )
                own_sets = place + 1 < len(tokens) and tokens[place + 1].kind in ("setsx", "sets")
                own_sets = own_sets or (
                    pairs > 1 and tokens[place + 1 : place + 2] != [] and tokens[place + 1].kind in ("rm", "find")
                )
                begins = (own_sets or not behind_of) and any(
                    each.kind in strong or each.kind in ("num", "list") for each in tokens[place + 1 : place + 8]
                )
            elif token.kind in strong and named and done:
                ahead = next(
                    (each.kind for each in tokens[place + 1 : place + 3] if each.kind in ("name", "sep", *strong)), ""
                )
                begins = ahead == "name" and before is not None and before.kind in ("sep", "andword")
                if not begins and before is not None and before.text in (",", ";", "+"):
                    begins = _mended_name(tokens[place + 1 :])
        if begins:
            parts.append(now)
            now, worded = [], token.kind == "word"
        now.append(token)
    parts.append(now)
    for part in parts[:-1]:
        while part and (part[-1].kind == "andword" or (part[-1].kind == "sep" and part[-1].text != ")")):
            part.pop()
    return [part for part in parts if part]


def split_at_clock(tokens: list[Token]) -> list[list[Token]]:
    """Part a lift with its sets from what goes on a clock behind it: `back squat 5x3 @ 80 %, 10 min amrap 10 push-ups`."""
    for place, token in enumerate(tokens):
        if token.kind not in CLOCKS or token.kind == "every":
            continue
        begin = place
        while begin and tokens[begin - 1].kind in ("time", "num", "rounds", "cap", "clock", "andword", "list"):
            begin -= 1
        ahead, behind = tokens[:begin], tokens[place + 1 :]
        kinds = {each.kind for each in ahead}
        if (
            "name" in kinds
            and kinds & {"setsx", "sets"}
            and kinds & {"pct", "mass", "rpe", "rir", "atx", "sep", "loadx"}
            and not kinds & (CLOCKS | {"cal", "dist", "buyin"})
            and any(each.kind == "name" for each in behind)
            and any(each.kind in _AMOUNTS for each in tokens[begin:])
        ):
            while ahead and (ahead[-1].kind == "andword" or (ahead[-1].kind == "sep" and ahead[-1].text != ")")):
                ahead.pop()
            return [ahead, tokens[begin:]]
        return [tokens]
    return [tokens] if tokens else []


_AMOUNTS = frozenset({"num", "reps", "cal", "dist", "calpair", "distpair", "list", "miles", "pair"})


def _test_of_its_own(tokens: list[Token], place: int) -> bool:
    """Whether a test stands between a plus and the name of another lift: `max pull-ups in 1 set + 3RM push press`."""
    return (
        1 <= place < len(tokens) - 1
        and tokens[place].kind in ("rm", "find")
        and tokens[place + 1].kind == "name"
        and tokens[place - 1].text in ("+", "and", "then", "and then", "&")
    )


def _most_of_another(tokens: list[Token], place: int) -> bool:
    """Whether as many as possible of another lift is asked behind a test: `1RM bench, max strict pull-ups 1 set`."""
    return (
        1 <= place < len(tokens) - 1
        and tokens[place].kind == "max"
        and tokens[place + 1].kind == "name"
        and tokens[place - 1].text in (",", ";", "+", "and", "then", "and then", "&")
        and any(token.kind in ("rm", "find") for token in tokens[:place])
    )


def _told_next(tokens: list[Token], strong: set[str]) -> bool:
    """Whether a name is that of the sets that follow it, as it is said: `bench we only do 5 sets of 3`."""
    words: list[str] = []
    for token in tokens[:6]:
        if token.kind in strong:
            return bool({"we", "is", "are", "you", "it's"} & set(words))
        if token.kind != "word":
            break
        words.append(token.text)
    return False


def _mended_name(tokens: list[Token]) -> bool:
    """Whether nothing but words of a name follows, such as one with a slip: `3x15 calf raize`."""
    words: list[str] = []
    for token in tokens[:4]:
        if token.kind != "word" or not makes_name(token.text):
            break
        words.append(token.text)
    if len(words) == len(tokens) == 1:
        return words[0] in TRAINED  # "curls 3x12, 3x12 triceps"
    return len(words) > 1 and len(words) == len(tokens)


# Parts of the body that stand for a movement that trains them
TRAINED = frozenset({"triceps", "tricep", "biceps", "bicep", "abs", "core", "calves", "hamstrings", "glutes", "delts"})


def _same_again(tokens: list[Token]) -> int:
    """The place of "same" right behind a lift's name, where no more is said of that lift: `bench same, deadlift 3x5`; else 0."""
    return next(
        (
            place
            for place, token in enumerate(tokens)
            if place
            and token.text in ("same", "the same")
            and (
                tokens[place - 1].kind == "name"
                or (place > 1 and tokens[place - 1].text == "the" and tokens[place - 2].kind == "name")
            )
            and (place + 1 == len(tokens) or tokens[place + 1].kind in ("sep", "andword"))
        ),
        0,
    )


def _tests_in_a_row(tokens: list[Token]) -> int:
    """How many lifts have a test directly behind their name, where nothing else is asked: `back squat 1RM, bench 1RM`."""
    if any(token.kind in ("setsx", "sets", "pct", "of", "setcount") for token in tokens):
        return 0
    return sum(one.kind == "name" and two.kind in ("rm", "find") for one, two in itertools.pairwise(tokens))


def _one_test_of_all(tokens: list[Token]) -> list[list[Token]]:
    """`squat, bench, deadlift 1RM`, `squat, bench, deadlift 3x5 @ 75 %`: what is told once behind the last of several lifts."""
    names = [token for token in tokens if token.kind == "name"]
    last = next(
        (place for place, token in enumerate(tokens) if token.kind not in ("name", "sep", "andword")), len(tokens)
    )
    rest, head = tokens[last:], tokens[:last]
    if head and head[-1].text in (":", "-"):
        head = head[:-1]
    if (
        len(names) < 2
        or not rest
        or rest[0].kind not in ("rm", "find", "setsx", "sets")
        or any(token.kind == "name" for token in rest)
        or any(token.kind in CLOCKS for token in rest)
        or any(token.kind != "name" and token.text not in (",", "/", "&", "and", ";") for token in head)
        or any(
            (entry := full_name(name.value.typed, lift=True)[1]) is None or entry.implement not in ("barbell", "?")
            for name in names
        )
    ):
        return []
    return [[name, *rest] for name in names]
