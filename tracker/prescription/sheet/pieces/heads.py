"""Reads how a piece is done from tokens: as many as possible, for time, on a clock, in intervals; its cap, rounds, rest, partners."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from tracker.limits import MOST_INTERVALS
from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.tokens.tokens import Token, seconds

TABATA = 8  # intervals, where no other number is said: common practice
CLOCKS = frozenset(
    {"amrap", "amrapx", "emom", "every", "rft", "fortime", "tabata", "onoff", "far", "mostcal", "mostload"}
)
HEADS = CLOCKS | {"unscored", "rounds", "cap", "onminute", "buyin", "cashout", "odd", "even", "alternate", "clock"}
_PAIRS = re.compile(
    r"\b(?:in pairs|in 2'?s|groups of 2|buddy|pairs\b|partners?\b|with a (?:partner|friend|buddy)|2er team|zu zweit|en pareja|por parejas|parejas|en bin[oô]mes?|par deux|à deux|a deux|à 2\b|zu 2\b(?! ?min)|paarweise|2er teams?|two of you|you go,? i go|i ?go,? you ?go|i ?g ?y ?g|igyg|ygig)"
)
_TEAM = re.compile(
    r"\bteams?(?: of|:)? (\d)\b|\b(\d)[- ](?:(?:person|man(?! ?makers?)|er)[- ]?(?:team)?|people teams?)\b|(?<!\()\b([2-9]) people\b|\bin (?:groups|threes|fours)(?: of (\d))?|\bin ([3-6])'?s\b"
)
_TURN = re.compile(
    r"\b(?:you go,? i go|i ?go,? you ?go|igyg|ygig|alternat\w*|in turn|one after the other|each does|rotate|switch(?:ing)? every)\b"
)
# Words that let counts rise from round to round: "+2 each round", "add 2 reps every round"
_STEP = re.compile(
    r"(?:\badd(?:ing)?|[+]|\bup(?: by)?|\bincreas(?:e|ing)(?: by)?|\bplus|\bmore by) ?(\d{1,2})(?: more)?(?: reps?)?(?: to (?:each|every|all)(?: movement)?s?)? ?(?:every|each|per|a|/) ?(?:rounds?|rds?|rnd|time|minute|min|set)\b"
    r"|\b(\d{1,2}) (?:more )?(?:reps? )?more (?:every|each|per) (?:round|rd|time|minute)\b"
)
_LOWEST = re.compile(
    r"\b(?:(?:slowest|lowest|worst|fewest)(?: (?:round|interval|rd|set|time|distance|minute|\d+|one))?(?: counts| is| of)?|score[^.]{0,20}(?:slowest|lowest|worst)|lowest counts|(?:ronda|rounds?) m[aá]s (?:baja|lenta)|niedrigste runde|langsamste runde|schlechteste runde|tour le plus (?:faible|lent)|(?:slowest|lowest|worst|fewest) [a-z0-9]+ (?:is|=|counts))\b"
)

# What is done over and over until the time is up
AGAIN = re.compile(
    r"\b(?:(?:start|begin)(?: all)? (?:again|over)|keep going|again and again|round and round|reprendre (?:au|du) d[eé]but|on recommence|von vorne|volver a empezar|repeat until|and repeat|back to the (?:top|start))\b"
)

NO_SCORE = re.compile(
    r"\b(?:no scores?|not scored|nothing to (?:score|count|log)|no clock|nicht gewertet|sin contar|pas de score|sin puntuación)\b"
)


@dataclass
class Head:
    """How a piece is done, as far as a line says it; `fields` are those of a piece."""

    fields: dict[str, Any] = field(default_factory=dict[str, Any])
    used: set[int] = field(default_factory=set[int])
    clock: bool = False  # it says a kind
    strength_clock: bool = False  # every so often: sets of a lift may be meant
    from_start: int = 0  # of "0:00-10:00": how long
    death_by: bool = False
    step: int = 0  # by how much counts rise from round to round
    turn: bool = False  # partners in turn, if there are partners


def read_head(tokens: list[Token], text: str, asker: Asker, line: int, typed: str) -> Head:
    """Read what the tokens of a line say of how a piece is done; `used` are the places of the tokens that said it."""
    head = Head()
    fields = head.fields

    def put(key: str, value: Any) -> None:
        fields.setdefault(key, value)

    for place, token in enumerate(tokens):
        kind, value = token.kind, token.value
        taken = True
        if kind == "amrap":
            put("kind", "as many as possible")
            if value:
                put("cap_s", value)
        elif kind == "amrapx":
            put("kind", "as many as possible")
            put("intervals", value[0])
            put("cap_s", value[1])
        elif kind in ("far", "mostcal", "mostload"):
            put("kind", {"far": "distance", "mostcal": "calories", "mostload": "heaviest"}[kind])
            put("cap_s", value)
        elif kind == "rft":
            put("kind", "for time")
            if value:
                put("rounds", value)
        elif kind == "fortime":
            put("kind", "for time")
        elif kind == "unscored":
            put("kind", "unscored")
        elif kind == "tabata":
            put("kind", "work and rest")
            put("work_s", 20)
            put("rest_s", 10)
            put("intervals", TABATA)
        elif kind == "onoff":
            put("kind", "work and rest")
            put("work_s", value[0])
            if value[1]:
                put("rest_s", value[1])
            if value[2]:
                put("rounds" if value[3] else "intervals", value[2])
        elif kind == "emom":
            _emom(value, head, asker, line, typed)
        elif kind == "every":
            taken = _every(value, head)
        elif kind == "onminute":
            put("kind", "every minute")
            put("work_s", 60)
            head.strength_clock = True
        elif kind == "rounds":
            put("rounds", value)
        elif kind == "cap":
            put("cap_s", value)
        elif kind in ("odd", "even", "alternate"):
            put("in_turn", True)
        elif kind == "clock":
            head.from_start = value[1] - value[0]
        else:
            taken = False
        if taken:
            head.used.add(place)
    if fields.get("intervals") == TABATA and (
        said := re.search(r"\b(\d{1,2}) (?:intervals|rounds in total|in total)\b", text)
    ):
        fields["intervals"] = int(said[1])
        head.used |= {
            place
            for place, token in enumerate(tokens)
            if said.start() <= token.start - (tokens[0].start if tokens else 0) < said.end()
        }
    head.clock = "kind" in fields
    _around(text, fields)
    offset = tokens[0].start if tokens else 0
    for pattern in (_TEAM, _PAIRS):
        for who in pattern.finditer(text):
            head.used |= {
                place
                for place, token in enumerate(tokens)
                if who.start() <= token.start - offset < who.end() and token.kind in ("num", "word")
            }
    if (found := _STEP.search(text)) and not re.search(r"\d ?(?:kg|lb|%)", found[0]):
        head.step = int(found[1] or found[2])
        head.used |= {
            place for place, token in enumerate(tokens) if found.start() <= token.start - offset < found.end()
        }
    head.turn = _TURN.search(text) is not None
    if re.search(r"\bdeath by\b", text):
        head.death_by = head.clock = True
        fields["kind"] = "every minute"
        fields["work_s"] = 60
    stations = re.search(r"\b(\d{1,2}) (?:different )?(?:stations?|exercises|stationen)\b", text)
    if stations and fields.get("kind") == "work and rest" and "rounds" in fields and "intervals" not in fields:
        fields["intervals"] = int(stations[1]) * fields["rounds"]
        fields["in_turn"] = True
    if re.search(r"\bchipper\b(?! (?:day|time|night|fun|friday|saturday|sunday)\b)", text):
        put("kind", "for time")
        head.clock = True
    return head


def _around(text: str, fields: dict[str, Any]) -> None:
    if found := _TEAM.search(text):
        number = next((each for each in found.groups() if each), None)
        if number and 2 <= int(number) <= 9:
            fields.setdefault("partners", int(number))
    elif _PAIRS.search(text):
        fields.setdefault("partners", 2)
    if _LOWEST.search(text):
        fields.setdefault("scored_by", "lowest")
    if "partners" in fields and _TURN.search(text):
        fields.setdefault("in_turn", True)


def _emom(found: re.Match[str], head: Head, asker: Asker, line: int, typed: str) -> None:
    groups = found.groupdict()
    if groups.get("e"):
        unit = groups.get("eu") or "min"
        work = (
            int(float(groups["e"].replace(":", ".")) * (1 if unit.startswith("s") else 60))
            if ":" not in groups["e"]
            else seconds(groups["e"])
        )
    else:
        k = groups.get("k") or "1"
        work = int(float(k) * 60)
    total, intervals = groups.get("t") or groups.get("t2"), None
    unit_said = (groups.get("u") or groups.get("u2") or "").strip()
    if total and ":" in total:
        intervals = seconds(total) // max(work, 1)
    elif total:
        number = int(total)
        times = (
            re.search(r"x\s*\d+\s*$|(?:rounds?|rn?ds|sets?)\s*$", found[0].strip(" )")) is not None and not unit_said
        ) or unit_said == "x"
        if times or (groups.get("e") and "for" not in found[0]) or work == 60:
            intervals = number
        else:
            intervals = number * 60 // max(work, 1)
            if not unit_said and number * 60 % max(work, 1) == 0 and number <= 20:
                choices = (
                    Choice("minutes", f"{number} minutes, {intervals} times"),
                    Choice("times", f"{number} times"),
                )
                if (
                    asker.choose(
                        "number behind every few minutes", line, typed, f"{number} minutes or {number} times?", choices
                    )
                    == "times"
                ):
                    intervals = number
    if not 5 <= work <= 3600:
        return
    head.fields.setdefault("kind", "every minute")
    head.fields.setdefault("work_s", work)
    if intervals and 1 <= intervals <= MOST_INTERVALS:
        head.fields.setdefault("intervals", intervals)
    head.strength_clock = True


def _every(found: re.Match[str], head: Head) -> bool:
    if found["other"]:
        work = 120
    elif found["m"]:
        work = 60
    elif found["d"]:
        work = seconds(found["d"])
    else:
        number = int(found["n"])
        work = number * 60 if number <= 15 else number
    if not 5 <= work <= 3600 * 3:
        return False
    intervals = None
    if total := found["t"] or found["t3"] or found["bt"]:
        intervals = seconds(total) // work
    elif number := found["x"] or found["bx"]:
        intervals = int(number)
    head.fields.setdefault("kind", "every minute")
    head.fields.setdefault("work_s", work)
    if intervals and 1 <= intervals <= MOST_INTERVALS:
        head.fields.setdefault("intervals", intervals)
    head.strength_clock = True
    return True
