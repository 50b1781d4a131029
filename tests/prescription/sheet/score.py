"""How well typed sheets are read: five figures, told apart, against what a person says that each text states.

    python -m tests.prescription.sheet.score tests/prescription/sheet/texts [--verbose]

A folder holds texts, and beside each its facts as JSON: part of the document of `tidemark sheet FILE --json`, holding only
what the text states; `{"any": [...]}` stands where several values are equally right. Facts are the leaves: sets are counted
one by one, items are matched in their order by kind and name.
"""

from __future__ import annotations

import json
import re
import statistics
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tracker.prescription.sheet import as_json, read

RELEVANT = frozenset({
    "sets", "reps", "percent", "load", "unit", "rpe", "in_reserve", "or_more", "find", "up_to", "of", "kind", "cap", "rounds", "interval",
    "intervals", "rest", "first", "step", "sides", "measure", "scored_by", "missing sets", "name", "lift",
})  # fmt: skip


@dataclass
class Fact:
    """One leaf: where it stands, what is right, what was read."""

    path: str
    key: str
    right: Any
    found: Any
    session: int
    line: int = 0

    @property
    def ok(self) -> bool:
        return same(self.right, self.found, self.key)


@dataclass
class Score:
    """What came of one text."""

    name: str
    facts: list[Fact] = field(default_factory=list)
    sessions: int = 0
    whole: int = 0
    silent: list[str] = field(default_factory=list)
    extra: list[str] = field(default_factory=list)
    asks: int = 0
    needed: int = 0
    asked_in_vain: list[str] = field(default_factory=list)
    unasked: list[int] = field(default_factory=list)
    numbers: int = 0
    in_notes: int = 0


def plain_name(name: Any) -> str:
    words = re.sub(r"[-_&]+", " ", str(name).lower()).replace("'", "").split()
    return " ".join(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "press", "toes")) else word
        for word in words
        if word != "and"
    )


def same(right: Any, found: Any, key: str) -> bool:
    """Whether a value that was read is (one of) the right one(s)."""
    if isinstance(right, dict) and "any" in right:
        return any(same(each, found, key) for each in right["any"])
    if right is None or found is None:
        return right is None and found in (None, "", False, [])
    if key in ("lift", "name"):
        return plain_name(right) == plain_name(found)
    if key == "day":
        return str(right).lower() in str(found).lower()
    if key == "tempo":
        return re.sub(r"[^0-9X]", "", str(right).upper()) == re.sub(r"[^0-9X]", "", str(found).upper())
    if isinstance(right, list):
        return (
            isinstance(found, list)
            and len(right) == len(found)
            and all(same(one, two, "") for one, two in zip(right, found, strict=True))
        )
    if isinstance(right, bool) or isinstance(found, bool):
        return right is found
    try:
        return abs(float(right) - float(found)) < 1e-9
    except (TypeError, ValueError):
        return str(right).lower() == str(found).lower()


def names_of(item: dict[str, Any]) -> list[str]:
    if item["kind"] == "lift":
        value = item.get("lift", "")
        return [plain_name(each) for each in (value["any"] if isinstance(value, dict) else [value])]
    moves = item["piece"].get("movement", [])
    found = []
    for move in moves:
        value = move.get("name", "")
        found += [plain_name(each) for each in (value["any"] if isinstance(value, dict) else [value])]
    return found


def likeness(gold: dict[str, Any], ours: dict[str, Any]) -> float:
    """How much two items are the same thing: of one kind, with names in common."""
    if gold["kind"] != ours["kind"]:
        return 0.0
    one, two = set(names_of(gold)), set(names_of(ours))
    if gold["kind"] == "lift":
        if one & two:
            return 3.0
        words = {word for name in one for word in name.split()} & {word for name in two for word in name.split()}
        return 1.0 if words else 0.2
    shared = len(one & two)
    kind = gold["piece"].get("kind")
    return 0.5 + shared + (1.0 if kind is not None and same(kind, ours["piece"].get("kind"), "kind") else 0)


def aligned(gold: Sequence[Any], ours: Sequence[Any], like: Callable[[Any, Any], float]) -> list[tuple[int, int]]:
    """Match two sequences in their order so that what is matched is most alike."""
    rows, columns = len(gold), len(ours)
    best = [[0.0] * (columns + 1) for _ in range(rows + 1)]
    for row in range(rows - 1, -1, -1):
        for column in range(columns - 1, -1, -1):
            both = like(gold[row], ours[column])
            best[row][column] = max(
                best[row + 1][column], best[row][column + 1], best[row + 1][column + 1] + both if both else 0.0
            )
    pairs, row, column = [], 0, 0
    while row < rows and column < columns:
        both = like(gold[row], ours[column])
        if both and best[row][column] == best[row + 1][column + 1] + both:
            pairs.append((row, column))
            row, column = row + 1, column + 1
        elif best[row][column] == best[row + 1][column]:
            row += 1
        else:
            column += 1
    return pairs


def expanded(sets: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Each set by itself."""
    found = []
    for group in sets:
        found += [{key: value for key, value in group.items() if key != "sets"}] * int(group.get("sets", 1))
    return found


def held(item: dict[str, Any]) -> bool:
    """Whether a person writes a hold as a lift: sets without repetitions, load or test."""
    sets = item.get("sets", [])
    return (
        item["kind"] == "lift" and bool(sets) and all(each.keys() <= {"sets", "each_side", "rest_s"} for each in sets)
    )


def as_hold(item: dict[str, Any]) -> dict[str, Any] | None:
    """A position held for a time, read as rounds of seconds without a score, as the lift that it is for others.

    The form has no seconds in the sets of a lift, so that `3 x 40 s plank` is rounds of 40 s; people who write it down by
    themselves do either. Neither has a load or a score, so both are right.
    """
    if item["kind"] != "piece" or item["piece"].get("kind") not in ("unscored", "work and rest"):
        return None
    moves = item["piece"].get("movement", [])
    if len(moves) != 1 or moves[0].get("load"):
        return None
    if moves[0].get("measure") != "s" and not item["piece"].get("interval"):
        return None
    sets = {"sets": item["piece"].get("rounds") or item["piece"].get("intervals") or 1}
    made = {"kind": "lift", "lift": moves[0]["name"], "implement": moves[0].get("implement", "body"), "sets": [sets]}
    return {**item, **made, "each_side": moves[0].get("each_side"), "rest_s": seconds_of(item["piece"].get("rest", ""))}


def names_like(item: dict[str, Any], names: set[str]) -> bool:
    return bool(set(names_of(item)) & names)


def seconds_of(text: str) -> int | None:
    minutes, _, over = text.partition(":")
    return int(minutes) * 60 + int(over) if over else None


def lift_facts(gold: dict[str, Any], ours: dict[str, Any] | None) -> Iterator[tuple[str, str, Any, Any]]:
    ours = ours or {}
    for key in ("lift", "implement", "each_side", "tempo", "rest_s", "superset"):
        if key in gold:
            found = ours.get(key)
            if found is None and key in ("tempo", "rest_s"):
                found = next((each[key] for each in ours.get("sets", []) if key in each), None)
            yield key, key, gold[key], found
    if "of" in gold:
        of = ours.get("of") or next((each["of"] for each in ours.get("sets", []) if "of" in each), {})
        for key, value in gold["of"].items():
            yield f"of.{key}", "of", value, of.get(key)
    right, found_sets = expanded(gold.get("sets", [])), expanded(ours.get("sets", []))
    if "sets" in gold:
        yield "number of sets", "sets", len(right), len(found_sets)
    for number, one in enumerate(right):
        two = found_sets[number] if number < len(found_sets) else {}
        for key, value in one.items():
            if key == "reps" and "find" in one and isinstance(value, list) and set(value) == {1}:
                value = {"any": [value, 1]}  # noqa: PLW2901 - the day's heaviest of a complex: once through it
            yield (
                f"set {number + 1} {key}",
                key,
                value,
                two.get(key, ours.get(key) if key in ("tempo", "rest_s") else None),
            )


def move_facts(gold: dict[str, Any], ours: dict[str, Any] | None, where: str) -> Iterator[tuple[str, str, Any, Any]]:
    ours = ours or {}
    for key, value in gold.items():
        if key == "options":
            options = ours.get("options", [])
            pairs = dict(aligned(value, options, move_like))
            for number, option in enumerate(value):
                yield from move_facts(
                    option, options[pairs[number]] if number in pairs else None, f"{where} option {number + 1}"
                )
        else:
            yield f"{where} {key}", key, value, ours.get(key)


def move_like(gold: dict[str, Any], ours: dict[str, Any]) -> float:
    return (
        2.0
        if same(gold.get("name"), ours.get("name"), "name")
        else 1.0
        if same(gold.get("first"), ours.get("first"), "first") and "first" in gold
        else 0.3
    )


def piece_facts(gold: dict[str, Any], ours: dict[str, Any] | None) -> Iterator[tuple[str, str, Any, Any]]:
    right, found = gold["piece"], (ours or {}).get("piece", {})
    for key, value in right.items():
        if key == "movement":
            pairs = dict(aligned(value, found.get("movement", []), move_like))
            for number, move in enumerate(value):
                ours_move = found["movement"][pairs[number]] if number in pairs else None
                yield from move_facts(move, ours_move, f"movement {number + 1}")
        else:
            got = found.get(key)
            if got is None and key in ("rounds", "intervals") and len(found.get("movement", [])) == 1:
                # one movement in work and rest: as many intervals as rounds
                got = (
                    found.get("intervals" if key == "rounds" else "rounds")
                    if found.get("rest") or found.get("kind") == "work and rest"
                    else None
                )
            yield key, key, value, got


def score_of(name: str, text: str, gold: dict[str, Any]) -> Score:
    """Score the reading of one text."""
    reading = read(text)
    ours = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    score = Score(name)
    right = [(number, item) for number, session in enumerate(gold["sessions"]) for item in session.get("items", [])]
    found = [
        (session, item)
        for session in ours["sessions"]
        for item in session["items"]
        if item["kind"] in ("lift", "piece")
    ]
    if any(held(item) for _, item in right):
        names = {name for _, item in right if held(item) for name in names_of(item)}
        found = [
            (session, hold if (hold := as_hold(item)) and names_like(hold, names) else item) for session, item in found
        ]
    pairs = dict(aligned(right, found, lambda one, two: likeness(one[1], two[1])))
    asked = {line for ask in ours["asks"] for line in ask["lines"]}
    bad: set[int] = set()
    days: dict[int, str] = {}
    for place, (number, item) in enumerate(right):
        session, mine = found[pairs[place]] if place in pairs else ({}, None)
        days.setdefault(number, session.get("day", "") if session else "")
        facts = lift_facts(item, mine) if item["kind"] == "lift" else piece_facts(item, mine)
        label = f"{item['kind']} {place + 1}"
        for path, key, value, got in facts:
            fact = Fact(f"{label}: {path}", key, value, got, number, (mine or {}).get("line", 0))
            score.facts.append(fact)
            if not fact.ok:
                bad.add(number)
                if mine is not None and key in RELEVANT and got is not None and not _asked(mine, asked, text):
                    score.silent.append(f"{fact.path}: {got!r}, not {value!r}")
    for number, session in enumerate(gold["sessions"]):
        if session.get("day") is not None and session.get("items"):
            fact = Fact(f"session {number + 1}: day", "day", session["day"], days.get(number), number)
            score.facts.append(fact)
            if not fact.ok:
                bad.add(number)
    matched = set(pairs.values())
    for place, (_, item) in enumerate(found):
        if place not in matched:
            score.extra.append(
                f"line {item['line']}: {item.get('lift') or [each['name'] for each in item['piece']['movement']]}"
            )
            near = next(
                (number for at, (number, _) in enumerate(right) if pairs.get(at, -1) > place), len(gold["sessions"]) - 1
            )
            bad.add(near)
    score.sessions = len(gold["sessions"])
    score.whole = score.sessions - len(bad & set(range(score.sessions)))
    _asks(score, gold, ours)
    _numbers(score, text, ours)
    return score


def _asked(item: dict[str, Any], asked: set[int], text: str) -> bool:
    lines = text.split("\n")
    first = item["line"]
    return any(first <= line <= first + max(0, len(item.get("text", [])) - 1) for line in asked) or (
        first in asked and bool(lines)
    )


def _asks(score: Score, gold: dict[str, Any], ours: dict[str, Any]) -> None:
    wanted = {ask["line"] for ask in gold.get("asks", [])}
    score.asks = len(ours["asks"])
    for ask in ours["asks"]:
        if wanted & set(ask["lines"]):
            score.needed += 1
        else:
            score.asked_in_vain.append(f"line {ask['line']}: {ask['question']}")
    score.unasked = sorted(wanted - {line for ask in ours["asks"] for line in ask["lines"]})


def _numbers(score: Score, text: str, ours: dict[str, Any]) -> None:
    score.numbers = len(re.findall(r"\d+", text))
    notes: list[str] = list(ours["notes"])
    for session in ours["sessions"]:
        for item in session["items"]:
            if item["kind"] == "note":
                notes += item["text"]
            notes += item.get("notes", [])
            notes += [item.get("piece", {}).get("note", "")]
    score.in_notes = min(score.numbers, len(re.findall(r"\d+", "\n".join(notes))))


def scores(folder: Path) -> list[Score]:
    """Score all texts of a folder that have their facts beside them."""
    found = []
    for path in sorted(folder.glob("*.json")):
        gold = json.loads(path.read_text(encoding="utf-8"))
        found.append(score_of(path.stem, path.with_suffix(".txt").read_text(encoding="utf-8"), gold))
    return found


def figures(found: Sequence[Score]) -> dict[str, float]:
    """Return the five figures, and what they are of."""
    facts = [fact for score in found for fact in score.facts]
    sessions = sum(score.sessions for score in found)
    asks = [score.asks / max(1, score.sessions) for score in found for _ in range(score.sessions)]
    return {
        "facts": len(facts),
        "facts right": sum(fact.ok for fact in facts) / max(1, len(facts)),
        "sessions": sessions,
        "sessions wholly right": sum(score.whole for score in found) / max(1, sessions),
        "silent misreadings": sum(len(score.silent) for score in found),
        "items that nobody wrote": sum(len(score.extra) for score in found),
        "asks a session, median": statistics.median(asks) if asks else 0,
        "asks": sum(score.asks for score in found),
        "asks needed": sum(score.needed for score in found),
        "asks missing": sum(len(score.unasked) for score in found),
        "numbers in notes": sum(score.in_notes for score in found) / max(1, sum(score.numbers for score in found)),
    }


def main(arguments: Sequence[str]) -> None:
    verbose = "--verbose" in arguments
    folder = Path(next(each for each in arguments if not each.startswith("-")))
    found = scores(folder)
    if verbose:
        for score in found:
            wrong = [fact for fact in score.facts if not fact.ok]
            print(
                f"{score.name}: {len(score.facts) - len(wrong)}/{len(score.facts)} facts, {score.whole}/{score.sessions} sessions"
            )
            for fact in wrong:
                print(f"    {fact.path}: {fact.found!r}, not {fact.right!r}")
            for label, lines in (
                ("SILENT", score.silent),
                ("EXTRA", score.extra),
                ("ASKED IN VAIN", score.asked_in_vain),
                ("NOT ASKED", score.unasked),
            ):
                for line in lines:
                    print(f"    {label} {line}")
    for key, value in figures(found).items():
        print(
            f"{key:28} {value:.1%}"
            if key in ("facts right", "sessions wholly right", "numbers in notes")
            else f"{key:28} {value:g}"
        )


if __name__ == "__main__":
    main(sys.argv[1:])
