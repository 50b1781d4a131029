"""The tokens of a lift's line: its names, its implement, its repetitions, what its percentages are of, its remarks."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.lifts.marks import IMPLEMENT_WORDS
from tracker.prescription.sheet.lifts.sets_found import unit_of
from tracker.prescription.sheet.model import Percent, SetGroup
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.words.names import Name, full_name
from tracker.units import Mass


def main_names(tokens: list[Token], names: list[Token]) -> list[Token]:
    """The lift of a line: its first name; or the longest run of names joined by a plus, a complex."""
    order = {id(token): place for place, token in enumerate(tokens)}
    runs: list[list[Token]] = []
    for name in names:
        if runs:
            outside = outside_brackets(tokens[order[id(runs[-1][-1])] + 1 : order[id(name)]])
            if any(token.kind == "sep" and token.text == "+" for token in outside) and all(
                token.kind in ("num", "xnum", "word", "sep") and token.text not in ",;:/|" for token in outside
            ):
                runs[-1].append(name)
                continue
        runs.append([name])
    longest = max(runs, key=len)
    if len(longest) > 1:
        return longest
    return [next((token for token in names if not after_of(tokens, order[id(token)])), names[0])]


def outside_brackets(tokens: list[Token]) -> list[Token]:
    depth = 0
    found: list[Token] = []
    for token in tokens:
        if token.text == "(":
            depth += 1
        elif token.text == ")":
            depth -= 1
        elif depth <= 0:
            found.append(token)
    return found


def after_of(tokens: list[Token], place: int) -> bool:
    return place > 0 and tokens[place - 1].kind == "of"


def as_lift(token: Token) -> tuple[str, Name | None]:
    name, entry = full_name(token.value.typed, lift=True)
    return name, entry or token.value.known


def counts_before(tokens: list[Token], main: list[Token]) -> tuple[int, ...]:
    """The counts of a complex: `1 power clean + 2 front squat`."""
    found: list[int] = []
    for name in main:
        before = [token for token in tokens if token.end <= name.start]
        if before and before[-1].kind == "num" and before[-1].value == int(before[-1].value):
            found.append(int(before[-1].value))
    if len(found) == len(main):
        return tuple(found)
    behind = [next((token for token in tokens if token.start >= name.end), None) for name in main]
    if len(main) > 1 and all(token is not None and token.kind == "xnum" for token in behind):
        return tuple(int(token.value) for token in behind if token is not None)  # "power clean x 2 + push jerk x 1"
    if len(main) > 1 and found:
        return _some_counted(tokens, main)
    return ()


def _some_counted(tokens: list[Token], main: list[Token]) -> tuple[int, ...]:
    """The counts of `power clean + 2 hang power cleans + jerk`: what follows a plus without a count is done once."""
    counts: list[int] = []
    for place, name in enumerate(main):
        before = [token for token in tokens if token.end <= name.start]
        last = before[-1] if before else None
        if last is not None and last.kind == "num" and last.value == int(last.value):
            counts.append(int(last.value))
        elif place == 0 or (last is not None and last.text == "+"):
            counts.append(1)
        else:
            return ()
    return tuple(counts)


def implement_of(tokens: list[Token], name: Token) -> str:
    typed = name.value.typed
    words = typed.split()
    for word in words:
        clean = word.strip("-")
        if clean in ("db", "dbs", "dumbbell", "dumbbells"):
            return (
                "dumbbell"
                if ("row" in words and not {"supported", "seal", "incline"} & set(re.split(r"[ -]", typed)))
                or "single" in words
                or "snatch" in words
                or "arm" in words
                else "dumbbells"
            )
        if clean in ("kb", "kbs", "kettlebell", "kettlebells"):
            return "kettlebells" if {"double", "two", "2"} & set(words) else "kettlebell"
        if clean in ("bb", "barbell"):
            return "barbell"
        if clean in ("backpack", "rucksack", "chair", "plate"):
            return "other"
        if clean in ("band", "banded") and name.value.known is None:
            return "band"
        if clean == "machine" or (clean in ("cable", "smith") and name.value.known is None):
            return "machine"
    for place, token in enumerate(tokens):
        if token.kind == "implement" and not (place and tokens[place - 1].text in ("no", "without", "or", "not")):
            word, number = token.value
            if word.startswith("body") and name.value.known is not None and name.value.known.implement == "barbell":
                continue  # a bench press at bodyweight: how heavy, not with what
            found = IMPLEMENT_WORDS.get(word.replace("  ", " "), "")
            if number in ("two", "2", "pair of") and found in ("dumbbell", "kettlebell"):
                return found + "s"
            return found
        if token.kind in ("mass", "mass2") and token.value[2] == 2:
            said = any(re.search(r"\b(?:kettlebells?|kbs?)\b", each.text) for each in tokens)
            return "kettlebells" if said else "dumbbells"
    return _held(tokens)


def _held(tokens: list[Token]) -> str:
    """What words around the sets say is held: `lunges holding dumbbells 3x10`; not what is there for others or not at all."""
    for place, token in enumerate(tokens):
        if place and token.text in ("plate", "plates") and tokens[place - 1].kind == "mass":
            return "other"  # "sit-ups with a 10 kg plate"
        if place and token.text.strip("()") == "machine" and tokens[place - 1].text in ("the", "a", "("):
            return "machine"  # "calf raise on the machine"
        found = _HELD.fullmatch(token.text) if token.kind == "word" else None
        behind = {each.text for each in tokens[max(0, place - 3) : place]}
        if found is None or behind & {"or", "no", "without", "if", "not", "instead", "as", "drop", "the"}:
            continue
        number = tokens[place - 1].text if place else ""
        word = IMPLEMENT_WORDS[token.text]
        return word + "s" if number in ("2", "pair") and word in ("dumbbell", "kettlebell") else word
    return ""


_HELD = re.compile(r"(?:dumbbell|kettlebell|db|kb)s?|barbell")


def implement_word(word: str, two: str) -> str:
    found = IMPLEMENT_WORDS[" ".join(word.lower().split())]
    return found + "s" if two.lower() in ("two", "2") and found in ("dumbbell", "kettlebell") else found


def count_to_reps(tokens: list[Token], name: Token) -> list[Token]:
    """A number right before a lift's name is its repetitions where nothing else says them: `3 back squats @ 78 %`."""
    said = any(token.kind in ("setsx", "sets", "list", "complex", "find", "loadx") for token in tokens)
    made: list[Token] = []
    for token in tokens:
        near = token.end <= name.start and name.start - token.end <= 2
        if (not said and near and token.kind == "num" and token.value == int(token.value)) or (
            not said
            and token.kind == "num"
            and token.start >= name.end
            and token.start - name.end <= 2
            and token.value == int(token.value)
            and token.value <= 30
        ):
            made.append(Token("reps", int(token.value), token.start, token.end, token.text))
        else:
            made.append(token)
    return made


def first_up(name: str) -> str:
    return name[:1].upper() + name[1:]


def own_case(name: str) -> str:
    """Return a name of a printed heading: in full, in its own letters where it is in full already."""
    full, entry = full_name(name, lift=True)
    if entry is None or full.replace("-", " ").lower() == " ".join(name.replace("-", " ").lower().split()):
        return " ".join(name.split())
    return full[:1].upper() + full[1:] if name[:1].isupper() else full


FILLER = frozenset({
    "x", "@", "of", "at", "the", "a", "an", "sets", "set", "reps", "rep", "for", "with", "do", "and", "then", "each", "to", "in", "on", "as", "is", "are", "your", "please",
    "-", "(", ")", "per", "about", "around", "strength", "tonight's", "today's", ".", "%", "=", "'", '"', "!", "?", "all", "it", "start", "up",
})  # fmt: skip


def left_words(tokens: list[Token]) -> str:
    """The words that nothing was read from, as they stand; signs and the small words of sets alone are not kept."""
    kept = [token for token in tokens if token.kind not in ("sep", "orword", "andword")]
    if not [token for token in kept if token.text.strip() not in FILLER]:
        return ""
    return " ".join(token.text for token in tokens).strip(" ,;:-+/|")


STEPS = re.compile(
    r"(?:start(?:ing)?|begin)(?: at| with| @)? (?P<a>\d+(?:\.\d+)?) ?(?P<u>kg|lb|%)?,?(?: and| then|,)? (?:add(?:ing)?|\+|up|go up)(?: by)? ?(?P<b>\d+(?:\.\d+)?) ?(?P<v>kg|lb|%)? (?:a|each|every|per) (?:set|time|minute|round)"
)


def stepped(groups: list[Any], step: re.Match[str], unit: str, *, rises: bool = True) -> list[Any]:
    """Reckon the loads of sets that begin at one and rise by the same each set, as the coach says; or stay what they begin at."""
    load, rise = Decimal(step["a"]), Decimal(step["b"]) if rises else Decimal(0)
    if not rises:
        first = Percent(load) if "%" in (step["u"], step["v"]) else Mass(load, step["u"] or unit)  # type: ignore[arg-type]
        return [replace(group, load=first) if isinstance(group, SetGroup) else group for group in groups]
    found: list[Any] = []
    for group in groups:
        if not isinstance(group, SetGroup):
            found.append(group)
            continue
        for _ in range(group.sets):
            amount = Percent(load) if "%" in (step["u"], step["v"]) else Mass(load, step["u"] or unit)  # type: ignore[arg-type]
            found.append(replace(group, sets=1, load=amount))
            load += rise
    return found


_AT_MOST = re.compile(
    r"\b(?:cap(?:ped)? (?:it )?(?:at|of)|stop at|no more than|not more than|max(?:imum)?|up to) (\d{1,2})\b(?! ?(?:%|kg|lb|min|sec))"
)


def rep_out_last(before: list[Any], more: list[Any], text: str) -> list[Any]:
    """Add sets to those above; `last set: as many as you can` without a load is the last of them, not one more."""
    last, new = before[-1] if before else None, more[0] if len(more) == 1 else None
    most = _AT_MOST.search(text)
    if (
        isinstance(last, SetGroup)
        and isinstance(new, SetGroup)
        and last.reps.out
        and new.reps.out
        and not new.reps.parts
        and new.load is None
        and re.search(r"(?:^|[.;,]\s)\W*(?:the )?(?:last|final)\b", text)
    ):
        return before  # said again in words
    if (
        isinstance(last, SetGroup)
        and isinstance(new, SetGroup)
        and new.reps.out
        and (not new.reps.parts or new.reps.parts == last.reps.parts or (last.sets > 1 and new.sets == 1))
        and new.load is None
        and last.reps.parts
        and not last.reps.out
        and re.search(r"(?:^|[.;] )\W*(?:the )?(?:last|final) (?:set|one)\b", text)
    ):
        made = [replace(last, sets=last.sets - 1)] if last.sets > 1 else []
        reps = replace(last.reps, out=True)
        if most and last.reps.high is None and int(most[1]) > last.reps.parts[-1]:
            reps = replace(reps, high=int(most[1]))
        return [*before[:-1], *made, replace(last, sets=1, reps=reps)]
    return [*before, *more]


_CONDITION = re.compile(
    r"(?<=[\w%)])\s*(?:,|;|-|\()?\s*\b(?:(?:but )?only (?:if|when)|(?:but )?(?:if|unless|provided|as long as|nur wenn|seulement si|solo si))\b(?![^,.;]*:)(?:[^,.;)]|[.,](?=\d))*"
)


def cut_condition(text: str) -> tuple[str, str]:
    """Part sets from the words on when they are done: `1 @ 80, only if the 77s were clean`."""
    found = _CONDITION.search(text)
    return (text[: found.start()] + text[found.end() :], found[0].strip(" ,;-(")) if found else (text, "")


REMARK_KINDS = frozenset(
    {"word", "sep", "andword", "orword", "name", "climb", "same", "implement", "emptybar", "men", "women"}
)


def cut_remarks(text: str, chunk: str) -> tuple[str, list[str]]:
    """Take remarks in brackets from the text of sets: those that hold words alone; a load in brackets is to be read."""
    found = [each for each in re.finditer(r"\(([^()]*)\)", text) if each[1].strip()]
    typed = [each[1].strip() for each in re.finditer(r"\(([^()]*)\)", chunk) if each[1].strip()]
    if not found or len(found) != len(typed):
        return text, []
    remarks: list[str] = []
    for each, words in reversed(list(zip(found, typed, strict=True))):
        tokens = tokens_of(each[1])
        if (
            tokens
            and all(token.kind in REMARK_KINDS for token in tokens)
            and tokens[0].kind != "orword"
            and not each[1].startswith(("of ", "all "))
        ):
            text = text[: each.start()] + " " * (each.end() - each.start()) + text[each.end() :]
            remarks.insert(0, words)
    return text.rstrip(), remarks


def reps_out(tokens: list[Token], *, lift_open: bool) -> list[Token]:
    """As many as possible without a time is a set's where a load stands beside it: `then AMRAP @ 70 %`, `65 % x AMRAP`."""
    loads = ("pct", "mass", "atx", "atlist")
    found: list[Token] = []
    for place, token in enumerate(tokens):
        if token.kind == "amrap" and token.value is None:
            after = [
                each.kind
                for each in tokens[place + 1 : place + 4]
                if each.kind != "sep" and each.text not in ("at", "@", "with")
            ]
            before = [
                each.kind
                for each in tokens[max(0, place - 3) : place]
                if each.kind != "sep" and each.text not in ("x", "for")
            ]
            beside = (after[:1] and after[0] in loads) or (
                before[-1:] and before[-1] in (*loads, "setlabel") and not after
            )
            led = " ".join(each.text for each in tokens[max(0, place - 3) : place])
            if (
                beside
                or any(each.kind in ("setsx", "sets") for each in tokens[:place])
                or (lift_open and re.search(r"\b(?:last|final|top) (?:set|one)\W*(?:is|=)?\W*$", led))
                or (lift_open and any(each.kind in ("setlabel", "pct", "atx", "atlist") for each in tokens))
            ):
                found.append(replace(token, kind="max"))
                continue
        found.append(token)
    return found


def as_sets(count: Token, sets: int) -> Token:
    """So many sets of the repetitions that a number or a range says."""
    low, high = count.value if count.kind == "range" else (int(count.value), 0)
    return replace(count, kind="setsx", value=(sets, [low, high], "range") if high else (sets, [low], "plain"))


def for_both(tokens: list[Token]) -> list[Token]:
    """`100 kg for men or 70 kg for women` is one pair of loads."""
    found = list(tokens)
    place = 0
    while place < len(found):
        first = found[place]
        if first.kind == "mass" and len(first.value[0]) == 1:
            for other in range(place + 1, min(place + 7, len(found))):
                second = found[other]
                if second.kind == "mass":
                    between = found[place + 1 : other]
                    around = [*found[max(0, place - 1) : place], *between, *found[other + 1 : other + 3]]
                    sides = {token.kind for token in around} & {"men", "women"}
                    only = all(
                        token.kind in ("men", "women", "sep", "orword", "andword") or token.text in ("the", "for")
                        for token in between
                    )
                    if (
                        len(second.value[0]) == 1
                        and only
                        and "women" in sides
                        and unit_of(first.value[1]) == unit_of(second.value[1])
                    ):
                        amounts = sorted((first.value[0][0], second.value[0][0]), reverse=True)
                        made = replace(first, value=(amounts, first.value[1], first.value[2], "/"), end=second.end)
                        rest = found[other + 1 :]
                        while rest and (
                            rest[0].kind in ("men", "women")
                            or (rest[0].text == ")" and not any(token.text == "(" for token in rest))
                        ):
                            rest.pop(0)
                        head = found[:place]
                        while head and (head[-1].kind in ("men", "women") or head[-1].text == "("):
                            head.pop()
                        found = [*head, made, *rest]
                        place = len(head)
                    break
                if second.kind not in ("men", "women", "sep", "orword", "andword", "word"):
                    break
        place += 1
    return found


def of_names(tokens: list[Token], *, lift_open: bool) -> list[Token]:
    """A lift's name right behind a percentage is what that is of: `@ 65 % clean`, `95 % of snatch`."""
    found: list[Token] = []
    named = lift_open
    place = 0
    while place < len(tokens):
        token = tokens[place]
        ahead = place + 1
        while ahead < len(tokens) and tokens[ahead].text in ("(", "of", "your", "the", "best"):
            ahead += 1
        following = tokens[ahead] if ahead < len(tokens) else None
        joined = ahead > place + 1
        found.append(token)
        inside = tokens[place + 1 : place + 5]
        if (
            token.kind == "pct"
            and [each.kind for each in inside] == ["sep", "name", "rm", "sep"]
            and inside[0].text == "("
        ):
            # the reference in brackets, as in a percentage of the C+J's 1RM
            found += [Token("of", ("rm", inside[2].value), inside[1].start, inside[1].start, ""), inside[1]]
            place += 5
            continue
        if (
            token.kind == "pct"
            and following is not None
            and following.kind == "name"
            and (named or joined)
            and following.value.known is not None
            and following.value.known.implement in ("barbell", "?")
            and (joined or ahead + 1 == len(tokens) or tokens[ahead + 1].kind == "sep")
        ):
            found.append(Token("of", ("max",), following.start, following.start, ""))
            place = ahead
            continue
        named = named or token.kind == "name"
        place += 1
    return found
