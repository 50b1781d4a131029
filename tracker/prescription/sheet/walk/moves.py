"""Reads what is done in pieces: movements of an open piece, and movements without a word on how they are done."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from tracker.prescription.sheet.lifts.lift_line import (
    as_lift,
    first_up,
    left_words,
)
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Reps, SetGroup
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import AGAIN, CLOCKS, Head
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.movement_words import AMOUNTS
from tracker.prescription.sheet.pieces.usual_movements import (
    is_engine,
    is_test,
    shared_load,
)
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.intervals import Intervals
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain


def _counted_name(tokens: list[Token]) -> bool:
    """Whether these tokens end with a name that has its amount before it: what follows is no sets of it, but its load."""
    names = [place for place, token in enumerate(tokens) if token.kind == "name"]
    if not names:
        return False
    before = tokens[max(0, names[-1] - 2) : names[-1]] + tokens[names[-1] + 1 : names[-1] + 4]
    return any(token.kind in ("num", "reps", "dist", "cal", "time") for token in before)


def total_first(tokens: list[Token]) -> list[Token]:
    """`Band pull-aparts 100 total`: the word says that the number is all there is."""
    return [token for token in tokens if token.text not in ("total", "accumulate", "altogether")]


_TOTAL_COUNTS = re.compile(
    r"\b(?:total|gesamt\w*|number|anzahl|reps?|wiederholungen)\b[^.]{0,25}\b(?:score|ergebnis|counts|zählt|résultat|resultado)\b"
    r"|\b(?:score|ergebnis|résultat|resultado)\b[^.]{0,15}\b(?:total|reps?|number|gesamt\w*)\b",
    re.IGNORECASE,
)
_ROW = re.compile(r"\s*(?P<row>(?P<n>\d{1,3})(?:\s*[/-]\s*(?P=n))+)\s*(?:(?:\.\.+|…|etc).*)?$")


class Moves(Intervals):
    """The movements of pieces."""

    def _most_of_it(self, tokens: list[Token]) -> list[Token]:
        """In a time that is given, AMRAP before a movement is as many of it as there is time for: `1:00 AMRAP burpees`."""
        piece = self.open if isinstance(self.open, PieceDraft) and not (self.gap and self.open.moves) else None
        timed = piece is not None and (piece.fields.get("kind") in ("work and rest", "every minute"))
        if len(tokens) > 2 and tokens[0].kind == "time" and tokens[1].text == "-":
            tokens = [tokens[0], *tokens[2:]]  # "1 min - max burpees"
        found: list[Token] = []
        for place, token in enumerate(tokens):
            following = tokens[place + 1] if place + 1 < len(tokens) else None
            before = {each.kind for each in tokens[:place]}
            if token.kind == "minutesmark" and token.value[0] >= 30 and re.match(r"m ?\d", token.text):
                found.append(replace(token, kind="word"))  # an age group: m45+
                continue
            if token.text == "+" and found and found[-1].kind == "word" and re.match(r"m ?\d", found[-1].text):
                continue
            if (
                token.kind == "setsx"
                and token.value[0] == 2
                and token.value[2] == "pair"
                and token.value[1][0] > token.value[1][1] >= 5
                and _counted_name(tokens[:place])
            ):
                loads = [Decimal(each) for each in token.value[1]]
                found.append(replace(token, kind="mass2", value=(loads, "", 2)))
                continue
            if (
                token.kind == "setsx"
                and piece is not None
                and bool(piece.fields)
                and token.value[0] == 2
                and token.value[2] == "plain"
                and 6 <= token.value[1][0] <= 60
                and following is None
                and tokens[0].kind in ("num", "dist", "cal")
                and _counted_name(tokens[:place])
            ):  # "200 m farmers 2x24"
                found.append(replace(token, kind="mass2", value=([Decimal(token.value[1][0])], "", 2)))
                continue
            if (
                token.kind == "amrap"
                and token.value
                and piece is not None
                and "rounds" in piece.fields
                and "kind" not in piece.fields
                and following is not None
                and following.kind == "name"
                and re.match(r"[\d:]", token.text)
            ):
                found += [replace(token, kind="time"), replace(token, kind="max", start=token.end)]
            elif (
                token.kind == "amrap"
                and token.value is None
                and following is not None
                and following.kind in ("name", "cal", "calword")
                and (timed or before & {"onoff"} or (piece is not None and "time" in before))
            ):
                found.append(replace(token, kind="max"))
            else:
                found.append(token)
        return found

    def _sets_as_rounds(self, line: Line, tokens: list[Token]) -> list[Token]:
        """`4 sets:` above movements, and `3 sets: 20 sit-ups, 40 m carry`, are rounds; of one lift they are its sets."""
        kinds = {token.kind for token in tokens}
        names = [token for token in tokens if token.kind == "name"]
        if kinds & {"pct", "rpe", "rir", "tempo", "find", "atx", "atlist"}:
            return tokens
        if isinstance(self.open, LiftDraft) and not self.gap and len(names) < 2:
            return tokens
        first = tokens[0]
        if first.kind == "setcount" and names and kinds & {"unscored", "fortime"}:
            return [replace(first, kind="rounds"), *tokens[1:]]
        if (
            first.kind == "setcount"
            and not names
            and kinds <= {"setcount", "sep", "word", "unscored", "fortime", "cap", "rest"}
        ):
            follow = self._moves_follow(line, counted=True) or (
                "unscored" in kinds and any(token.kind == "name" for token in tokens_of(plain(self.later)))
            )
            return [replace(first, kind="rounds"), *tokens[1:]] if follow else tokens
        marked = re.search(r"sets?[ ]?(?:of|:)[ ]?\d+$", first.text) if first.kind == "setsx" else None
        if marked is None or len(first.value[1]) != 1 or len(names) < 2:
            return tokens
        parts = [place for place, token in enumerate(tokens) if token.kind == "sep" and token.text in ",+;"]
        counted = [place for place in parts if place + 1 < len(tokens) and tokens[place + 1].kind in AMOUNTS]
        if not counted:
            return tokens
        number = Token("num", Decimal(first.value[1][0]), first.end, first.end, str(first.value[1][0]))
        return [replace(first, kind="rounds", value=first.value[0]), number, *tokens[1:]]

    def _in_piece(self, line: Line, tokens: list[Token], head: Head, own: str) -> bool:
        self.took = self._under_piece(line, tokens, head, own)
        return self.took

    def _under_piece(self, line: Line, tokens: list[Token], head: Head, own: str) -> bool:
        piece = self.open
        assert isinstance(piece, PieceDraft)
        if (
            piece.death_by
            and piece.moves
            and any(token.kind in ("dist", "cal", "num", "miles", "every") for token in tokens)
            and not own.startswith(("min", "(", "score"))
        ):
            self.open = None
            self.gap = True
            return False
        self._fill(head)
        kinds = {token.kind for token in tokens}
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        self._rest_of(piece, rest)
        took_rest = any(token.kind == "rest" for token in rest)
        rest = [token for token in rest if token.kind != "rest"]
        if AGAIN.search(own) and "name" not in kinds and piece.moves:
            piece.notes.append(harmless(line.raw).strip())
            piece.text.append(line.raw.rstrip())
            self._role(line, "note", piece)
            return True
        part = "buy-in" if "buyin" in kinds else "cash-out" if "cashout" in kinds else ""
        if part:
            piece.part = part
            piece.fields.setdefault("kind", "for time")
            rest = [token for token in rest if token.kind not in ("buyin", "cashout")]
        rest = [token for token in rest if not (token.kind == "sep" and token.text == ":" and rest.index(token) == 0)]
        if self.gap and piece.moves and not part and not self._fits(piece, rest, own):
            return False
        if (
            piece.moves
            and not any(token.kind == "name" for token in rest)
            and (shared := shared_load(rest, own, self.unit)) is not None
            and not any(move.load for move in piece.moves)
        ):
            piece.shared_load = shared
            piece.text.append(line.raw.rstrip())
            self._role(line, "movement", piece)
            words = left_words([token for token in rest if token.kind not in ("pair", "mass")])
            piece.notes += [words] if words else []
            return True
        read = read_moves(
            rest,
            unit=self.unit,
            line=line.number,
            free=not self.prose and not (self.gap and bool(piece.moves)),
            slash_or=not piece.inline,
        )
        if self.prose and not read.counted and not read.known:
            return bool(head.used) or took_rest
        if self.prose and read.moves and not read.counted and piece.moves:
            return bool(head.used) or took_rest
        if read.scheme is not None and piece.scheme is None and all(move.part for move in piece.moves):
            piece.scheme = read.scheme
        if not read.moves and not read.options and read.scheme is None:
            if line.raw.rstrip() not in piece.text:
                piece.text.append(line.raw.rstrip())
            if read.left and (head.used or took_rest):
                words = left_words(read.left)
                if words:
                    piece.notes.append(words)
            self._role(line, "clock" if head.used or took_rest else "note", piece)
            if not (head.used or took_rest):
                piece.notes.append(harmless(line.raw).strip())
            return True
        self._take_moves(line, piece, read, own)
        if is_test(own) and len(piece.moves) == 1 and is_engine(piece.moves[0]) and piece.moves[0].measure == "m":
            piece.fields.setdefault("kind", "for time")
        piece.part = ""
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "movement", piece)
        return True

    def _next_row(self, line: Line, text: str) -> bool:
        """`6/6/6` below three movements of 3 each: the next round of a ladder."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        found = _ROW.match(text)
        if found is None or len(piece.moves) < 2 or len(re.findall(r"\d+", found["row"])) != len(piece.moves):
            return False
        counts = {move.count.reps[0] if move.count is not None and not move.count.listed else 0 for move in piece.moves}
        first = counts.pop() if len(counts) == 1 else 0
        if not first or int(found["n"]) <= first:
            return False
        if not piece.step:
            piece.step = int(found["n"]) - first
        piece.notes.append(harmless(line.raw).strip())
        piece.text.append(line.raw.rstrip())
        self._role(line, "clock", piece)
        return True

    def _fits(self, piece: PieceDraft, tokens: list[Token], own: str) -> bool:
        """Whether a line behind a blank line is still a movement of the piece: it begins with a count or an amount."""
        if self.prose:
            return False
        return (
            bool(tokens)
            and tokens[0].kind in ("num", "dist", "cal", "calpair", "miles", "time", "max", "orword")
            and any(token.kind == "name" for token in tokens)
        )

    def _most(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str], head: Head, own: str) -> bool:
        """`3 min max double unders`, `max cal row in 5 min`: as many as there is time for."""
        if (
            head.clock
            or len([token for token in tokens if token.kind == "time"]) != 1
            or not names
            or kinds & {"setsx", "pct"}
        ):
            return False
        piece = self.open_piece
        if (
            piece is not None
            and (
                piece.fields.get("kind") in ("every minute", "work and rest")
                or "rounds" in piece.fields
                or "rounds" in head.fields
            )
            and (not self.gap or not piece.moves)
        ):
            return False
        if "rounds" in kinds:
            return False
        time = next(token for token in tokens if token.kind == "time")
        if time.value < 20:
            return False
        made = self._open_piece(line, "")
        made.fields |= {"kind": "as many as possible", "cap_s": time.value}
        made.fields |= {key: head.fields[key] for key in ("partners", "scored_by") if key in head.fields}
        rest = [token for place, token in enumerate(tokens) if token is not time and place not in head.used]
        self._rest_of(made, rest)
        read = read_moves(
            [token for token in rest if token.kind != "rest"],
            unit=self.unit,
            line=line.number,
            free=False,
            slash_or=True,
        )
        self._take_moves(line, made, read, own)
        if len(made.moves) == 1 and is_engine(made.moves[0]) and made.moves[0].measure == "reps":
            measure = "m" if "maxdist" in kinds else "cal" if kinds & {"maxcal", "calword"} else "reps"
            made.moves[0] = replace(made.moves[0], measure=measure)  # "12 min row, max metres"
        if len(made.moves) == 1 and made.moves[0].measure in ("cal", "m"):
            made.fields["kind"] = "calories" if made.moves[0].measure == "cal" else "distance"
        self._role(line, "piece", made)
        return True

    def _loose(
        self,
        line: Line,
        tokens: list[Token],
        names: list[Token],
        kinds: set[str],
        own: str,
        head: Head,
        *,
        bullet: bool,
    ) -> bool:
        """A movement without a word on how it is done: a piece that is not scored."""
        if not names or kinds & {"pct", "setsx"}:
            return False
        tokens = total_first(tokens)
        buyin = bool(kinds & {"buyin", "cashout"})
        if self.prose and not (head.clock or kinds & {"cap"} or buyin or self._many(tokens)):
            return False
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        read = read_moves(rest, unit=self.unit, line=line.number, free=False, slash_or=True)
        counted = [move for move in read.moves if move.count is not None or move.sides or move.most]
        engine = (
            bool(names)
            and all(token.kind in ("name", "orword", "sep") for token in tokens)
            and all(is_engine(move) for move in (*read.moves, *read.options))
        )
        if (
            engine
            and not (self.session.headed and (not self.session.items or line.cell) and not self._amount_follows())
            and not self._intervals_follow(line)
        ):
            engine = False
        if not (counted or engine) or not read.known:
            return False
        piece = self._open_piece(line, "")
        piece.loose = True
        piece.part = "buy-in" if "buyin" in kinds else ""
        self._rest_of(piece, rest)
        for key, value in head.fields.items():
            piece.fields.setdefault(key, value)
        if (is_test(own) or re.search(r"\b(?:hard|beat|for your best|fast)\b", own)) and all(
            is_engine(move) and move.measure == "m" for move in counted
        ):
            piece.fields.setdefault("kind", "for time")
        self._take_moves(line, piece, read, own)
        if "kind" not in piece.fields and "rounds" not in piece.fields and _TOTAL_COUNTS.search(self.later):
            lengths = [token.value for token in rest if token.kind == "time" and token.value >= 120]
            if lengths or piece.fields.get("cap_s"):  # "10 min snatches. The total is the score."
                piece.fields |= {"kind": "as many as possible", "cap_s": piece.fields.get("cap_s") or lengths[0]}
                piece.moves = [
                    replace(m, count=None, measure="reps", most=True) if m.measure == "s" else m for m in piece.moves
                ]
        self._role(line, "piece", piece)
        return True

    def _amount_follows(self) -> bool:
        """Whether the next line begins with an amount: what stands above it, such as "Erg", is its heading."""
        below = self.lines[self.at + 1].text.strip() if self.at + 1 < len(self.lines) else ""
        return re.match(r"\W*\d", below) is not None

    def _few(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str]) -> bool:
        """`Then three slow negatives` in the sentences of a lift is one set of another."""
        if len(names) != 1 or kinds & (CLOCKS | {"cal", "dist", "miles", "rounds"}):
            return False
        count = next((token for token in tokens if token.kind == "num" and token.end <= names[0].start), None)
        entry = names[0].value.known
        if count is None or count.value > 10 or entry is None or entry.measure != "reps":
            return False
        full, found = as_lift(names[0])
        lift = self._open_lift(line, [first_up(full)], found)
        lift.prose = True
        lift.groups = [SetGroup(1, Reps((int(count.value),)), line=line.number)]
        lift.notes.append(" ".join(token.text for token in tokens))
        self._role(line, "lift", lift)
        return True

    def _many(self, tokens: list[Token]) -> bool:
        """Whether a sentence counts three movements or more, as a piece told in words does."""
        count = 0
        for place, token in enumerate(tokens):
            if (
                token.kind == "name"
                and place
                and tokens[place - 1].kind in ("num", "dist", "cal", "word")
                and any(each.kind in ("num", "dist", "cal") for each in tokens[max(0, place - 2) : place])
            ):
                count += 1
        return count >= 3
