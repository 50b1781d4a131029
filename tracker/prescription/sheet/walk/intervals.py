"""Reads distances and times that are done several times: intervals with a rest, else rounds."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import Count, Movement
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import read_head
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.usual_movements import is_engine
from tracker.prescription.sheet.tokens.durations import seconds
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.pieces import Pieces
from tracker.prescription.sheet.words.letters import harmless

# What is done between two efforts, with its time before it: "90 s jog", "2 min easy"
_BETWEEN = frozenset({"jog", "jogging", "walk", "walking", "easy", "float", "spin", "recovery", "recover", "paddle", "off", "rest", "slow", "light", "gentle", "trot", "trab", "gehpause", "traben", "trabpause"})  # fmt: skip
# Metres that are done in intervals
_LAPS = frozenset({100, 150, 200, 250, 300, 400, 500, 600, 750, 800, 1000, 1200, 1500, 1600, 2000})
_AS_LONG = re.compile(
    r"\brest (?:as long as|longer than|shorter than) work\b|\brest ?=? ?(?:half|twice|equal|same|the same)\b|\b(?:full|complete) (?:rest|recovery)\b"
)


_ENGINE = r"(?:run|row|ski|bike|swim)"
_SEND_OFF = re.compile(
    rf"^\W*(?:(?P<n2>{_ENGINE})[ :,-]+)?(?P<x>\d{{1,2}}) ?x ?(?P<d>\d{{1,5}}) ?(?P<u>m|k|km)?\b ?(?P<n>{_ENGINE})?\s*,? ?(?:on|@|off|every|departing|leaving|going) (?:an? |the )?(?P<t>\d{{1,2}}:\d\d|\d{{1,2}}'(?:\d\d)?|\d{{1,2}} ?min)(?![\w:])(?! ?(?:min(?:ute)?s?\.? )?(?:rest|recovery|off|easy|break|jog|walk))(?P<rest>[^%]*)$"
)


def _near(tokens: list[Token], first: Token, name: Token) -> bool:
    """Whether a name belongs to an amount: nothing but words stands between."""
    low, high = sorted((tokens.index(first), tokens.index(name)))
    if low == 0 and tokens[low] is name and high == 2 and tokens[1].text == ",":
        return True  # "hollow hold, 3 sets of 30 seconds"
    return all(
        token.kind in ("word", "each", "orword", "max", "maxcal", "calword") or token.text in "(:-"
        for token in tokens[low + 1 : high]
    )


def _between(tokens: list[Token], after: Token) -> list[Token]:
    """The tokens of an easy time between two efforts, behind the amount; empty where there is none."""
    for place, token in enumerate(tokens):
        if token.kind != "time" or token.start < after.end or not 10 <= token.value <= 900:
            continue
        following = tokens[place + 1] if place + 1 < len(tokens) else None
        word = following.text.strip(".,;:)") if following is not None else ""
        if following is not None and (
            word in _BETWEEN or (following.kind == "name" and following.value.typed in _BETWEEN)
        ):
            return [token, following]
    return []


# Words by which a place or a heading says what is done over a distance
_WHERE = tuple(
    (name, re.compile(words))
    for name, words in (
        ("bike", r"\bbike[ -]?erg|\bbikes?\b|\bcycling\b"),
        ("ski", r"\bski[ -]?erg|\bskis?\b"),
        (
            "run",
            r"\b(?:track|run|running|runners?|runs|laufen|lauf|bahn|course à pied|piste|correr|pista|strides?|jog)\b",
        ),
        ("row", r"\b(?:ergs?|row|rower|rowers|rowing|rudern|rameur|remo|concept)\b"),
        ("swim", r"\b(?:pool|swim|swimming)\b"),
    )
)


_EASY = re.compile(
    r"\b(?:easy|steady|long|zone ?\d|z ?[1-5]\b|recovery|tempo|threshold|aerobic|relaxed|conversation\w*|locker|suave|facile|tranquille|endurance|at \w+ pace)\b"
)
_OF_RUNS = re.compile(r"\b(?:strides?|run|jog|/ ?km|(?:5k|10k|hm|m|marathon|race) pace|lauf|course à pied)\b")


class Intervals(Pieces):
    """Distances and times that are done several times."""

    def _times(self, tokens: list[Token], names: list[Token]) -> list[Token]:
        """Bring `6 x row 500 m`, `500 m row x 6` and `6 rounds: 500 m row` into one form: how often, how far, of what."""
        if any(is_engine(Movement(token.value.name)) for token in names):  # "row 3 x 500": metres, no repetitions
            tokens = [
                replace(token, kind="setsxm", value=(token.value[0], int(token.value[1][0]), "m"))
                if token.kind == "setsx" and len(token.value[1]) == 1 and token.value[1][0] >= 100
                else token
                for token in tokens
            ]
        elif not names and (
            any(token.kind == "rest" for token in tokens) or "pace" in {token.text for token in tokens}
        ):
            tokens = [
                replace(token, kind="setsxm", value=(token.value[0], int(token.value[1][0]), "m"))
                if token.kind == "setsx"
                and len(token.value[1]) == 1
                and token.value[1][0] in _LAPS
                and self._engine_above()
                else token
                for token in tokens
            ]
        kinds = [token.kind for token in tokens]
        amounts = [token for token in tokens if token.kind == "dist" and token.value[1] == "m"]
        engines = [token for token in names if is_engine(Movement(token.value.name))]
        if len(amounts) != 1 or not engines or {"setsxm", "setsxt", "setsx", "pct"} & set(kinds):
            return tokens
        often = [
            token
            for token in tokens
            if token.kind == "xnum" or (token.kind == "reps" and token.text.rstrip().endswith("x"))
        ]
        if len(often) != 1 or not (any(token.kind == "rest" for token in tokens) or _between(tokens, amounts[0])):
            return tokens
        amount, count = amounts[0], often[0]
        made = Token(
            "setsxm", (int(count.value), *amount.value), amount.start, amount.end, f"{count.value} x {amount.text}"
        )
        return [made if token is amount else token for token in tokens if token is not count]

    def _measured(self, line: Line, tokens: list[Token], own: str) -> bool:
        """`5 x 500 m row, rest 2:00` and `3 x 45 s plank`: intervals with a rest, else rounds."""
        first = next(token for token in tokens if token.kind in ("setsxm", "setsxt"))
        easy = _between(tokens, first)
        names = [token for token in tokens if token.kind == "name" and token not in easy]
        beside = [name for name in names if _near(tokens, first, name)] or (
            names if len(names) == 1 and is_engine(Movement(names[0].value.name)) else []
        )
        timed = any(token.kind == "rest" for token in tokens) or first.value[1] >= 400
        if not beside and not (
            first.kind == "setsxm"
            and first.value[2] == "m"
            and (
                names
                or easy
                or self.section == "conditioning"
                or (timed and (self._engine_above() or first.value[1] >= 200))
            )
        ):
            return False
        above = self.open if isinstance(self.open, LiftDraft) and not self.gap else None
        if above is not None and not beside:
            return False
        piece = self._open_piece(line, "")
        rests = [token for token in tokens if token.kind == "rest"]
        number = first.value[0]
        made = (
            Token("dist", (first.value[1], first.value[2]), first.start, first.end, first.text)
            if first.kind == "setsxm"
            else Token("time", first.value[1], first.start, first.end, first.text)
        )
        if first.kind == "setsxm" and first.value[2] == "cal":
            made = Token("cal", first.value[1], first.start, first.end, first.text)
        rest_s = rests[0].value if rests else easy[0].value if easy else None
        piece.fields |= {"kind": "unscored", "rounds": number}
        piece.repeats = True
        said = read_head([], own, self.asker, line.number, line.raw).fields
        piece.fields |= {key: said[key] for key in ("scored_by", "partners") if key in said}
        held = first.kind == "setsxt" and not any(is_engine(Movement(name.value.name)) for name in beside)
        if rest_s and held and rest_s > first.value[1]:
            piece.fields["rest_s"], piece.repeats = rest_s, False  # a hold is not scored for its rest
        elif rest_s:
            piece.fields |= {"kind": "work and rest", "intervals": piece.fields.pop("rounds"), "rest_s": rest_s}
        elif (first.kind == "setsxt" and not held) or _AS_LONG.search(own):
            piece.fields |= {"kind": "work and rest", "intervals": piece.fields.pop("rounds")}
        rest = [made if token is first else token for token in tokens if token not in rests and token not in easy]
        if rest[0].kind == "name" and len(rest) > 2 and rest[1].text == "," and rest[2] is made:
            del rest[1]
        most = any(token.kind in ("max", "maxcal") for token in tokens)
        if first.kind == "setsxt" and most and rest_s and held:
            piece.fields |= {"kind": "work and rest", "intervals": number, "rest_s": rest_s}
            piece.fields.pop("rounds", None)
        if (
            first.kind == "setsxt"
            and piece.fields.get("kind") == "work and rest"
            and (most or all(is_engine(Movement(name.value.name)) for name in beside))
        ):
            piece.fields["work_s"] = first.value[1]
            rest = [token for token in rest if token is not made]
        if not beside:  # "4 x 400 m, walk between": what is done over the distance is not said
            taken = self._of_what(line, first, own, easy)
            move = Movement(taken, Count((int(first.value[1]),)), "m", line=line.number)
            piece.moves.append(move)
            piece.notes.append(" ".join(token.text for token in tokens[tokens.index(first) + 1 :]))
            piece.loose = False
            self._role(line, "piece", piece)
            return True
        read = read_moves(rest, unit=self.unit, line=line.number, free=False, slash_or=True)
        if easy:
            piece.notes.append(" ".join(token.text for token in easy))
        self._take_moves(line, piece, read, own)
        piece.loose = False
        self._role(line, "piece", piece)
        return True

    def _endurance(self, line: Line, tokens: list[Token], own: str) -> bool:
        """`16 km easy`, `45 min zone 2`: a distance or a time at a pace, of what the lines above are about."""
        names = [token.value.name for token in tokens if token.kind == "name"]
        kinds = {"dist", "time", "word", "sep", "num", "miles", "andword", "name"}
        first = tokens[0] if tokens else None
        if first is None or any(token.kind not in kinds for token in tokens) or len(names) > 1:
            return False
        if names and not (self.prose and is_engine(Movement(names[0]))):
            return False
        far = first.kind in ("dist", "miles") and first.value[1] == "m" and first.value[0] >= 1000
        long = first.kind == "time" and 600 <= first.value <= 4 * 3600
        if not (far or long) or not _EASY.search(own) or any(t.kind in ("dist", "time", "miles") for t in tokens[1:]):
            return False
        name = names[0] if names else "run" if _OF_RUNS.search(own) else self._engine_above()
        if not name and far and re.search(r"\d ?(?:km?|miles?)\b", first.text):
            name = self._of_runs()
        above = self.open if isinstance(self.open, PieceDraft) and not self.gap and not self.open.loose else None
        if above is not None and above.repeats and above.moves:  # "6 x 400 m, then 1 mile at threshold"
            name = names[0] if names else above.moves[0].name
        elif above is not None:
            return False
        if not name:
            return False
        piece = self._open_piece(line, "")
        piece.fields["kind"] = "unscored"
        if long:
            piece.fields["cap_s"] = first.value
        count = Count((int(first.value[0]),)) if far else None
        piece.moves.append(Movement(name, count, "m" if far else "reps", line=line.number))
        words = " ".join(token.text for token in tokens[1:]).strip(" ,.;")
        piece.notes += [words] if words else []
        piece.loose = False
        self._role(line, "piece", piece)
        return True

    def _send_off(self, line: Line, text: str) -> bool:
        """`4 x 500 on 3:00`: so many times that distance, each one begun so long after the one before."""
        found = _SEND_OFF.match(text)
        if found is None or int(found["d"]) < 50 or "%" in text:
            return False
        name = found["n"] or found["n2"] or ""
        if not name:
            above = " ".join(other.text.lower() for other in self.lines[max(0, self.at - 4) : self.at])
            engines = re.findall(r"\b(run|row|ski|bike|swim)(?:ning|s|ing|er)?\b", above)
            if not engines:
                return False
            name = engines[-1]
        piece = self._open_piece(line, "")
        work = seconds(found["t"]) if re.search(r"[:'a-z]", found["t"]) else int(found["t"]) * 60
        piece.fields |= {"kind": "every minute", "work_s": work, "intervals": int(found["x"])}
        amount = int(found["d"]) * (1000 if (found["u"] or "").startswith("k") else 1)
        piece.moves.append(Movement(name, Count((amount,)), "m", line=line.number))
        if words := found["rest"].strip(" ,.;"):
            piece.notes.append(words)
        piece.loose = False
        self._role(line, "piece", piece)
        return True

    def _engine_above(self) -> str:
        """What the lines above or this one say distances are of: "Erg", "track", "bike erg"; empty where they do not say it."""
        near = [self.session.title, *(other.text for other in self.lines[max(0, self.at - 3) : self.at + 1])]
        for text in reversed(near):
            for name, words in _WHERE:
                if words.search(text.lower()):
                    return name
        return ""

    def _of_runs(self) -> str:
        """Run, where any line of the text names running; empty where none does."""
        runs = next(words for name, words in _WHERE if name == "run")
        return "run" if any(runs.search(other.text.lower()) for other in self.lines) else ""

    def _of_what(self, line: Line, first: Token, own: str, easy: list[Token]) -> str:
        """What a distance without a name is of: a run where its pace is told by the kilometre or it is jogged between; else asked."""
        said = own if self.section != "conditioning" else " ".join([own, self.session.title.lower()])
        if re.search(r"/ ?km\b|per (?:km|mile)|/ ?mi(?:le)?\b|\b(?:running|run|track|marathon|lauf)\b", said) or (
            easy and easy[1].text.startswith(("jog", "trab", "trot"))
        ):
            return "run"
        if re.search(r"/ ?500\b", said):
            return "row"
        if above := self._engine_above():
            return above
        choices = tuple(Choice(each, each) for each in ("run", "row", "bike", "ski"))
        return self.asker.choose(
            "distance without a name", line.number, harmless(line.raw).strip(), f"{first.text} of what?", choices
        )

    def _pyramid(self, line: Line, tokens: list[Token], own: str) -> bool:
        """`400-800-1200-800-400`, run or rowed: one interval of each distance."""
        first = tokens[0] if tokens and tokens[0].kind == "list" else None
        if first is None or min(first.value[0]) < 100:
            first = next((token for token in tokens if token.kind == "list" and min(token.value[0]) >= 100), None)
        names = [token for token in tokens if token.kind == "name" and is_engine(Movement(token.value.name))]
        above = " ".join(other.text.lower() for other in self.lines[max(0, self.at - 2) : self.at])
        near = re.search(r"\b(run|row|ski|swim)(?:ning|s|ing)?\b|\btrack\b", above)
        if first is None or len(first.value[0]) < 3 or any(token.kind == "pct" for token in tokens):
            return False
        if not names and near is None:
            return False
        name = names[0].value.name if names else near[1] or "run" if near is not None else "run"
        piece = self._open_piece(line, "")
        distances = tuple(int(each) for each in first.value[0])
        piece.fields |= {"kind": "work and rest", "rounds": len(distances)}
        piece.moves.append(Movement(name, Count(distances), "m", line=line.number))
        for token in tokens:
            if token.kind == "rest":
                piece.fields["rest_s"] = token.value
        words = [token.text for token in tokens if token is not first and token not in names[:1]]
        piece.notes += [" ".join(words).strip(" ,;:")] if words else []
        piece.loose = False
        self._role(line, "piece", piece)
        return True
