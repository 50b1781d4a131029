"""The lines of a piece as a printed sheet has them: parts behind commas, each said in one way. What is other is not theirs."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.piece import Count, Measure, Movement, Pair
from tracker.prescription.sheet.tokens.tokens import seconds
from tracker.prescription.sheet.words.names import full_name
from tracker.units import MOST_KG, Mass

MOST_COUNT, MOST_CM, MOST_ROUNDS = 1_000_000, 1000, 500
_TIME = r"\d+:\d{2}(?::\d{2})?|\d+\s*(?:seconds?|secs?|s|minutes?|mins?|hours?|h)\b"
_KINDS: tuple[tuple[str, str], ...] = (
    ("as many as possible", rf"(?:as many (?:(?:reps|repetitions|rounds)(?: and (?:reps|repetitions))? )?as possible|amrap)(?:(?: in| for)? (?P<cap>{_TIME}))?"),
    ("for time", r"for time"),
    ("every minute", rf"(?:every minute(?: on the minute)?|emom)(?:(?: for)? (?P<total>{_TIME}))?"),
    ("every minute", rf"every (?P<work>{_TIME})(?: for (?P<total>{_TIME}))?"),
    ("work and rest", rf"(?:(?P<n>\d+) x )?(?P<work>{_TIME}) (?:work|on)"),
    ("work and rest", r"(?:(?P<n>\d+) x )?intervals"),
    ("distance", rf"as far as possible (?:in|for) (?P<cap>{_TIME})|max distance"),
    ("calories", rf"as many calories as possible (?:in|for) (?P<cap>{_TIME})|max calories"),
    ("heaviest", rf"(?:the )?heaviest(?: load)?(?: (?:in|within) (?P<cap>{_TIME}))?"),
    ("unscored", rf"not scored(?: for (?P<cap>{_TIME}))?"),
)  # fmt: skip
_KIND_RULES = tuple((kind, re.compile(pattern)) for kind, pattern in _KINDS)
_SCHEME = re.compile(r"(?P<a>\d+) (?P<way>up|down) by (?P<b>\d+)(?: to (?P<top>\d+) and back)?")
_LISTED = re.compile(r"\d+(?:\s*-\s*\d+)+")
_OPTIONS: tuple[tuple[str, re.Pattern[str]], ...] = tuple((name, re.compile(pattern)) for name, pattern in (
    ("cap_s", rf"(?:time )?cap(?: of)? (?P<v>{_TIME})"), ("length", rf"for (?P<v>{_TIME})"), ("rest_s", rf"(?:(?P<v>{_TIME}) rest|rest (?P<w>{_TIME}))"),
    ("intervals", r"(?P<v>\d+) (?:times|rounds)"), ("in_turn", r"in turn|one movement each time"), ("scored_by", r"(?P<v>lowest|total|finished) counts"),
    ("tie_break", r"tie-?\s?break after (?P<v>.+)"), ("partners", r"(?P<v>\d+) partners"), ("setting", r"(?P<v>indoors|outdoors)"), ("each", r"(?P<v>\d+) (?:reps |repetitions )?of each"),
))  # fmt: skip
_ROUNDS = re.compile(r"(?P<n>\d+) rounds?(?:\s+of)?(?:\s+|$)")
_LOAD = re.compile(
    r"(?:(?P<i>[12])\s*x\s*)?(?P<a>\d+(?:[.,]\d+)?)(?:/(?P<b>\d+(?:[.,]\d+)?))?\s*(?P<u>kg|lb)s?\b\s*(?P<w>.*)"
)
_HEIGHT = re.compile(r"(?P<a>\d+(?:[.,]\d+)?)(?:/(?P<b>\d+(?:[.,]\d+)?))?\s*cm\s+(?:high|box)")
_TARGET = re.compile(r"to (?P<a>\d+(?:[.,]\d+)?)\s*cm")
_COUNT = re.compile(
    r"(?:(?P<list>\d+(?:-\d+)+)|(?P<ladder>\d+ (?:up|down) by \d+(?: to \d+ and back)?)|(?P<pair>\d+/\d+)|(?P<clock>\d+:\d{2})|(?P<most>max)|(?P<n>\d+))"
    r"\s*(?P<unit>(?:cal(?:orie)?s?|metres?|meters?|m|km|s|secs?|seconds?|mins?|minutes?)\b)?\s+"
)
_NAME = re.compile(r"[^\W\d_](?:[^\W\d_]|[ '.&-])*")
_PART = re.compile(r"(?P<part>buy-in|cash-out): ")
_WHEN = re.compile(r"(?P<when>[^,:0-9]{1,40}): ")


def _length(text: str | None) -> int | None:
    found = seconds(text) if text else None
    return found if found and 0 < found <= 24 * 3600 else None


def printed_kind(text: str) -> dict[str, Any] | None:
    """Read how a piece is done: `4 rounds, for time, cap 14:00`; None where it is not written so."""
    fields: dict[str, Any] = {}
    parts = [part.strip() for part in text.lower().split(",") if part.strip()]
    if not parts:
        return None
    if found := _ROUNDS.match(parts[0]):
        fields["rounds"] = int(found["n"])
        rest = parts[0][found.end() :].strip()
        parts = [rest, *parts[1:]] if rest else parts[1:]
    elif (
        printed_count(parts[0]) is None
        and (found := re.match(r"(\d+(?:-\d+)+|\d+ (?:up|down) by \d+(?: to \d+ and back)?) (?=\D)", parts[0]))
        and (count := printed_count(found[1]))
    ):
        fields["scheme"] = count
        parts = [parts[0][found.end() :].strip(), *parts[1:]]
    for part in parts:
        if not (_kind_part(part, fields) or _option_part(part, fields)):
            return None
    if "tie_break" in fields and (found := re.search(r"tie-?\s?break after ([^,]+)", text, re.IGNORECASE)):
        fields["tie_break"] = found[1].strip()  # in its own letters
    total = fields.pop("total", None)
    if total and fields.get("work_s"):
        if total % fields["work_s"]:
            return None
        fields.setdefault("intervals", total // fields["work_s"])
    return fields if "kind" in fields and not fields.get("rounds", 1) > MOST_ROUNDS else None


def _kind_part(part: str, fields: dict[str, Any]) -> bool:
    if "kind" in fields:
        return False
    for kind, pattern in _KIND_RULES:
        found = pattern.fullmatch(part)
        if found is None:
            continue
        groups = found.groupdict()
        fields["kind"] = kind
        if cap := _length(groups.get("cap")):
            fields["cap_s"] = cap
        if kind == "every minute":
            fields["work_s"] = _length(groups.get("work")) or 60
        elif work := _length(groups.get("work")):
            fields["work_s"] = work
        if total := _length(groups.get("total")):
            fields["total"] = total
        if groups.get("n"):
            fields["intervals"] = int(groups["n"])
        return True
    return False


def _option_part(part: str, fields: dict[str, Any]) -> bool:
    if (count := printed_count(part)) is not None and "scheme" not in fields:
        fields["scheme"] = count
        return True
    for option, pattern in _OPTIONS:
        name = option
        found = pattern.fullmatch(part)
        if found is None:
            continue
        value: Any = found.groupdict().get("v") or found.groupdict().get("w")
        if name in ("cap_s", "rest_s", "length"):
            value = _length(value)
            if value is None:
                return False
            if name == "length":
                name = "total" if fields.get("kind") == "every minute" else "cap_s"
        elif name == "in_turn":
            value = True
        elif name == "scored_by":
            value = {"lowest": "lowest", "total": "total", "finished": "completed"}[value]
        elif name == "each":
            name, value = "scheme", Count((int(value),))
        elif name in ("intervals", "partners"):
            value = int(value)
        if name in fields:
            return False
        fields[name] = value
        return True
    return False


def printed_count(text: str) -> Count | None:
    """Read counts of rounds: `21-15-9`, `3 up by 3`, `2 up by 2 to 10 and back`."""
    if _LISTED.fullmatch(text):
        numbers = tuple(int(each[:7]) for each in re.findall(r"\d+", text))
        return Count(numbers) if all(0 < each <= MOST_COUNT for each in numbers) else None
    found = _SCHEME.fullmatch(text)
    if found is None:
        return None
    first, step = int(found["a"][:7]), int(found["b"][:7]) * (1 if found["way"] == "up" else -1)
    if not first or not step:
        return None
    if found["top"] is None:
        return Count((first,), step)
    rounds, rest = divmod(int(found["top"][:7]) - first, step)
    if rest or not 0 < rounds <= MOST_ROUNDS:
        return None
    way = [first + step * index for index in range(rounds + 1)]
    return Count((*way, *reversed(way[:-1])))


def printed_movement(text: str, line: int = 0, *, free: bool = True) -> Movement | None:
    """Read a movement: `12 wall ball, 6 kg ball, to 300 cm`; None where it is not written so.

    With `free` any words behind a comma are kept as its standard; else none that begin with a number or "or".
    """
    parts = [part.strip() for part in re.split(r",(?!\d)", text)]
    head, marks = parts[0], [part for part in parts[1:] if part]
    fields: dict[str, Any] = {"line": line}
    if found := _PART.match(head):
        fields["part"], head = found["part"], head[found.end() :]
    elif found := _WHEN.match(head):
        fields["when"], head = found["when"].strip(), head[found.end() :]
    if (found := _COUNT.match(head.lower())) is not None:
        if not _counted(found, fields):
            return None
        head = head[found.end() :].strip()
    if (
        not _NAME.fullmatch(head)
        or len(head) > 60
        or head.lower().startswith(("x ", "max ", "or "))
        or " or " in f" {head.lower()} "
    ):
        return None
    fields["name"] = full_name(head)[0]
    standard = [mark for mark in marks if not _mark(mark, fields)]
    if not free and any(re.match(r"\d|or\b|@", mark) for mark in standard):
        return None
    return Movement(**fields, standard=", ".join(standard))


def _counted(found: re.Match[str], fields: dict[str, Any]) -> bool:
    unit = found["unit"] or ""
    measure: Measure = (
        "cal"
        if unit.startswith("cal")
        else "m"
        if unit in ("m", "km") or unit.startswith("met")
        else "s"
        if unit[:1] in ("s",) or unit.startswith("min")
        else "reps"
    )
    factor = 1000 if unit == "km" else 60 if unit.startswith("min") else 1
    fields["measure"] = measure
    if found["list"] or found["ladder"]:
        fields["count"] = printed_count(found["list"] or found["ladder"])
        return fields["count"] is not None
    if found["pair"]:
        larger, smaller = (int(each[:7]) for each in found["pair"].split("/"))
        fields["sides"] = (larger, smaller)
        return larger > smaller > 0
    if found["clock"]:
        fields["count"], fields["measure"] = Count((seconds(found["clock"]),)), "s"
        return not unit and seconds(found["clock"]) > 0
    if found["most"]:
        fields["most"] = True
        return True
    number = int(found["n"][:8]) * factor
    fields["count"] = Count((number,))
    return 0 < number <= MOST_COUNT


def _mark(mark: str, fields: dict[str, Any]) -> bool:
    lower = mark.lower()
    if lower in ("each side", "per side") and "each_side" not in fields:
        fields["each_side"] = True
    elif (found := _LOAD.fullmatch(lower)) and "load" not in fields:
        load = _load(found)
        if load is None:
            return False
        fields |= {"load": load, "implement": " ".join(found["w"].split()), "implements": int(found["i"] or 1)}
    elif (found := _HEIGHT.fullmatch(lower)) and not {"height_cm", "heights_cm"} & fields.keys():
        one = _decimal(found["a"])
        if found["b"]:
            fields["heights_cm"] = (one, _decimal(found["b"]))
        else:
            fields["height_cm"] = one
    elif (found := _TARGET.fullmatch(lower)) and "target_cm" not in fields:
        fields["target_cm"] = _decimal(found["a"])
    elif lower in _MEASURES and fields.get("measure", "reps") == "reps" and not {"count", "sides"} & fields.keys():
        fields["measure"] = _MEASURES[lower]
    elif lower.startswith("with ") and "assistance" not in fields:
        fields["assistance"] = " ".join(mark[5:].split())
    else:
        return False
    return True


_MEASURES: dict[str, Measure] = {"in metres": "m", "in calories": "cal", "in seconds": "s"}


def _load(found: re.Match[str]) -> Mass | Pair | None:
    unit: Any = found["u"]
    masses = [Mass(_decimal(each), unit) for each in (found["a"], found["b"]) if each]
    if any(not 0 < mass.kg <= MOST_KG for mass in masses):
        return None
    return masses[0] if len(masses) == 1 else Pair(masses[0], masses[1])


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
