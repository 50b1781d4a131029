"""Reads how pieces are done: where one begins, its clock, rounds, rest, title."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lifts.marks import HOME_LIFT
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import BULLET, KEYS, REMARK
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS, NO_SCORE, Head
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.movement_words import HOW
from tracker.prescription.sheet.pieces.printed_lines import printed_kind, printed_movement
from tracker.prescription.sheet.pieces.usual_movements import (
    load_of_all,
    shared_load,
)
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.walk.bare_times import BareTimes

# Pieces that fill a time: what is for time below them is another piece
_FILLED = ("as many as possible", "every minute", "work and rest")


class Pieces(BareTimes):
    """How pieces are done."""

    def _printed(self, line: Line, text: str) -> bool:
        """Read a line of a piece that a printed sheet has: how it is done, a movement, an option of the one above."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        bare = REMARK.sub("", BULLET.sub("", text, count=1) if BULLET.match(text) else text).strip()
        if not piece.fields and not piece.moves:
            fields = printed_kind(bare)
            if fields is None:
                return False
            piece.scheme = fields.pop("scheme", None)
            piece.fields |= fields
            piece.printed = True
        elif (
            bare.lower().startswith("or ")
            and piece.moves
            and (option := printed_movement(bare[3:].strip(), line.number, free=piece.printed)) is not None
        ):
            last = piece.moves[-1]
            piece.moves[-1] = replace(last, options=(*last.options, option))
        elif (
            not self.gap
            and not KEYS.match(bare)
            and (move := printed_movement(bare, line.number, free=piece.printed)) is not None
            and (piece.printed or move.count is not None)
            and not HOME_LIFT.match(bare)
        ):
            piece.moves.append(move)
        else:
            return False
        piece.text.append(line.raw.rstrip())
        self._role(line, "movement" if piece.moves else "piece", piece)
        return True

    def _open_piece(self, line: Line, label: str) -> PieceDraft:
        piece = PieceDraft(line.number, label=label or self.label, section=self.section)
        self._item(piece)
        piece.text.append(line.raw.rstrip())
        piece.indent = line.indent
        piece.shared_load = self.hinted.pop("load of all", None)
        piece.fields |= self.hinted
        self.hinted = {}
        return piece

    def _begins_piece(
        self, line: Line, tokens: list[Token], head: Head, names: list[Token], kinds: set[str], own: str
    ) -> bool:
        open_piece = self.open_piece
        if not head.clock and not names and (time := self._time_of_minutes(line, tokens)):
            head.fields |= {"kind": "every minute", "work_s": 60, "intervals": time.value // 60}
            head.clock = head.strength_clock = True
            head.used.add(tokens.index(time))
            return True
        if (
            (not head.clock or head.fields == {"kind": "unscored"})
            and not names
            and (time := self._time_above(line, tokens, own, head))
        ):
            self._filled_by(line, time, tokens, own, head)
            return True
        if not head.clock and len(names) > 1 and (time := self._time_before(tokens, own, head)):
            self._filled_by(line, time, tokens[: tokens.index(time) + 2], own, head)
            return True
        if not head.clock and not names and self._cap_alone(line, tokens, head):
            head.fields["kind"], head.clock = "for time", True
            self.open = self.open if isinstance(self.open, PieceDraft) else None
            return True
        if head.clock:
            self._talking_pace(tokens, own, head)
            if open_piece is not None and not open_piece.moves and "kind" not in open_piece.fields:
                return True
            if (
                open_piece is not None
                and open_piece.moves
                and not names
                and open_piece.fields.get("kind") == head.fields.get("kind") == "as many as possible"
                and "cap_s" not in head.fields
            ):
                return False
            only_time = kinds & CLOCKS <= {"fortime"} and head.fields.get("kind") in ("for time", "unscored")
            if only_time and open_piece is not None and not names and "kind" not in open_piece.fields:
                return False
            if (
                only_time
                and self.prose
                and not names
                and not self._moves_follow(line)
                and not any(token.kind in ("rounds", "list", "cap") for token in tokens)
            ):
                return False
            return not (
                only_time
                and open_piece is not None
                and open_piece.moves
                and not names
                and not self.gap
                and not (
                    (self._gap_since(open_piece) or open_piece.fields.get("kind") in _FILLED)
                    and self._moves_follow(line, counted=True)
                )
            )
        significant = [token for token in tokens if token.kind not in ("word", "sep", "andword")]
        lift = self.open_lift
        if significant and significant[0].kind == "list" and not (lift is not None and lift.empty and not names):
            numbers, more, _ = significant[0].value
            if (
                len(names) >= 2
                or (
                    names
                    and (more is not None or numbers[0] >= 9 or any(token.kind in ("cal", "dist") for token in tokens))
                )
                or (not names and self._moves_follow(line) and not (open_piece and open_piece.moves and not self.gap))
            ):
                return "pct" not in kinds and "rpe" not in kinds
        if significant and significant[0].kind == "buyin" and open_piece is None:
            return True
        if "rounds" in head.fields and not kinds & {"setsx", "pct"}:
            if (
                open_piece is not None
                and open_piece.moves
                and not self.gap
                and (open_piece.fields.get("kind") or open_piece.loose is False)
                and not names
                and not self._moves_follow(line)
            ):
                return False
            if open_piece is not None and (not open_piece.moves or all(move.part for move in open_piece.moves)):
                return True
            if (significant and significant[0].kind in ("rounds", "cap")) or names:
                return bool(names) or self._moves_follow(line) or "time" in kinds
        return False

    def _gap_since(self, piece: PieceDraft) -> bool:
        """Whether a blank line stands between the last movement of a piece and the line that is read, with words behind it."""
        last = max((move.line for move in piece.moves), default=piece.line)
        between = [other for other in self.lines[: self.at] if other.number > last]
        return any(other.blank for other in between)

    def _cap_alone(self, line: Line, tokens: list[Token], head: Head) -> bool:
        """Whether a line says no more than a time cap, right above movements with their counts: `TC 14`."""
        piece = self.open_piece
        return (
            set(head.fields) == {"cap_s"}
            and not self.windows
            and all(token.kind in ("cap", "sep") for token in tokens)
            and (piece is None or (bool(piece.moves) and self.gap))
            and self._moves_follow(line, counted=True)
        )

    def _talking_pace(self, tokens: list[Token], own: str, head: Head) -> None:
        """`10 minutes at talking pace, go round and round ... No score`: rounds that nobody counts."""
        below = " ".join(other.text.lower() for other in self.lines[self.at + 1 : self.at + 8])
        said = any(token.kind == "amrap" and re.search(r"a\.?m\.?r|as many|max|count", token.text) for token in tokens)
        if (
            head.fields.get("kind") == "as many as possible"
            and not said
            and NO_SCORE.search(f"{own} {self.later} {below}")
        ):
            head.fields["kind"] = "unscored"

    def _piece_head(self, line: Line, tokens: list[Token], head: Head, own: str, label: str) -> bool:
        piece = self.open_piece
        if (
            piece is not None
            and not piece.moves
            and piece.fields.get("kind") == "for time"
            and piece.fields.get("rounds")
            and head.fields.get("kind") == "work and rest"
        ):  # "3 rounds each for time. Work 4:00, rest 2:00"
            head.fields = {"rest_s": head.fields.get("rest_s", 0)}
            head.clock = False
        fresh = (
            piece is None
            or bool(piece.moves)
            or (
                "kind" in piece.fields
                and head.clock
                and bool(head.fields.get("kind"))
                and piece.fields.get("kind") != head.fields["kind"]
            )
        )
        if (
            piece is not None
            and piece.moves
            and all(move.part == "buy-in" for move in piece.moves)
            and "rounds" not in piece.fields
            and not head.fields.get("kind")
            and not self.gap
        ):
            fresh = False
        if (
            piece is not None
            and piece.moves
            and all(move.part == "buy-in" for move in piece.moves)
            and head.fields.get("kind") == "as many as possible"
            and re.search(r"\b(?:remain\w*|time left|left over|rest of the time)\b", own)
            and not self.gap
        ):
            fresh = False
            piece.fields["kind"] = "as many as possible"
        if (
            piece is not None
            and piece.part
            and not piece.fields.get("kind")
            and not (self.gap and piece.fields.get("rounds"))
        ):
            fresh = False
        if (
            fresh
            and piece is not None
            and piece.loose
            and not piece.fields
            and not self.gap
            and (head.fields.get("kind") != "work and rest" or all(move.count is None for move in piece.moves))
            and ("rounds" in head.fields or "kind" in head.fields)
            and not any(t.kind == "name" for t in tokens)
        ):
            fresh = False  # a run before "5 rounds": the same piece
        if fresh or piece is None:
            piece = self._open_piece(line, label)
        elif line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        was_clock = piece.strength_clock
        for key, value in head.fields.items():
            piece.fields.setdefault(key, value)
        piece.strength_clock = head.strength_clock or was_clock
        piece.death_by = piece.death_by or head.death_by
        piece.from_start = piece.from_start or head.from_start
        piece.step = piece.step or head.step
        piece.loose = False
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        self._rest_of(piece, rest)
        rest = [token for token in rest if token.kind != "rest"] if "rest_s" in piece.fields else rest
        self._role(line, "piece", piece)
        part = next((token.kind for token in tokens if token.kind in ("buyin", "cashout")), "")
        piece.part = {"buyin": "buy-in", "cashout": "cash-out"}.get(part, "")
        rest = [token for token in rest if token.kind not in ("buyin", "cashout")]
        rest = self._titled(piece, rest, line)
        if (
            len(rest) >= 1
            and rest[0].kind in ("mass", "pair")
            and (len(rest) == 1 or rest[1].text == ":")
            and (load := shared_load(rest[:1], "", self.unit)) is not None
        ):
            piece.shared_load, rest = load, rest[1:]
        if (load := load_of_all(own)) is not None:
            piece.shared_load = load
        rest = self._interval_time(piece, _name_behind(rest, tokens))
        read = read_moves(
            rest,
            unit=self.unit,
            line=line.number,
            free=bool(re.search(r"[:,+]|\bof\b", own)) and not self.prose,
            slash_or=False,
            heading=True,
        )
        if read.scheme is not None:
            piece.scheme = read.scheme
        if (
            piece.scheme is not None
            and piece.scheme.step > 0
            and piece.fields.get("kind") is None
            and (times := [token for token in tokens if token.kind == "time" and token.value >= 60])
        ):
            piece.fields |= {"kind": "as many as possible", "cap_s": times[0].value}
            read = read_moves(
                [token for token in rest if token not in times and token.text != "ladder"],
                unit=self.unit,
                line=line.number,
                free=False,
                slash_or=False,
                heading=True,
            )
        self._take_moves(line, piece, read, own)
        piece.inline = bool(piece.moves)
        piece.part = ""
        if len(re.findall(r"(?<!\d)\d\)", own)) >= 2 and piece.moves:
            piece.stations = len(piece.moves)
        return True

    def _titled(self, piece: PieceDraft, rest: list[Token], line: Line) -> list[Token]:
        """`Cindy: 20 min AMRAP of ...`: the words before a colon are the piece's title."""
        words: list[Token] = []
        for token in rest[:5]:
            if token.kind == "sep" and token.text in ":-" and words:
                if not piece.title and not self.prose and not (len(words) == 1 and len(words[0].text) < 3):
                    typed = re.search(r"(?<!\w)" + re.escape(words[0].text) + r"[^:–—-]*", line.text, re.IGNORECASE)
                    if typed and re.search(r"\d ?[x×] ?\d|\d ?%|[.,] ", typed[0]):
                        typed = None  # another sentence, in which the word stands too
                    piece.title = (typed[0] if typed else " ".join(each.text for each in words)).strip(" '\"“”")
                return rest[len(words) + 1 :]
            if token.kind != "word" or token.text in HOW or not token.text.strip("'\"").isalpha():
                break
            words.append(token)
        return rest

    def _interval_time(self, piece: PieceDraft, rest: list[Token]) -> list[Token]:
        """`4 rounds: 2 min row, 1 min rest` is work and rest; `every round` and the like say nothing of a movement."""
        if "rounds" in piece.fields and piece.fields.get("rest_s") and "kind" not in piece.fields:
            times = [token for token in rest if token.kind == "time"]
            if len(times) == 1 and times[0].value >= 15:
                piece.fields["kind"] = "work and rest"
                piece.fields["work_s"] = times[0].value
                return [token for token in rest if token is not times[0]]
        if piece.fields.get("kind") == "every minute" and "intervals" not in piece.fields:
            total = next(
                (token for token in rest if token.kind == "time" and token.value >= piece.fields.get("work_s", 60)),
                None,
            )
            if total is not None:
                piece.fields["intervals"] = total.value // piece.fields["work_s"]
                return [token for token in rest if token is not total]
            if (
                count := next((token for token in rest if token.kind in ("sets", "setsx", "xnum")), None)
            ) is not None and count.kind == "xnum":
                piece.fields["intervals"] = count.value
                return [token for token in rest if token is not count]
        if piece.fields.get("kind") == "work and rest" and "intervals" not in piece.fields:
            count = next(
                (
                    token
                    for token in rest
                    if token.kind in ("xnum", "reps")
                    or (
                        token.kind == "num"
                        and rest.index(token) + 1 < len(rest)
                        and rest[rest.index(token) + 1].text in ("x", "times", "intervals", "each")
                    )
                ),
                None,
            )
            if count is not None:
                piece.fields["intervals"] = int(count.value)
                return [token for token in rest if token is not count]
        return rest


def _name_behind(rest: list[Token], tokens: list[Token]) -> list[Token]:
    """`Push jerk: E2MOM x 6, 3 reps @ 60 kg`: the name that stands before its clock comes behind its count."""
    names = [token for token in rest if token.kind == "name"]
    if len(names) != 1 or rest[0] is not names[0] or len(rest) == len(tokens):
        return rest
    counts = [token for token in rest if token.kind in ("num", "reps", "cal", "dist", "calpair")]
    head = next((token for token in tokens if token not in rest and token.start > names[0].start), None)
    if len(counts) != 1 or head is None or counts[0].start < head.start:
        return rest
    loads = [token for token in rest[1 : rest.index(counts[0])] if token.kind in ("mass", "pair", "mass2", "implement")]
    return [counts[0], names[0], *loads, *rest[rest.index(counts[0]) + 1 :]]
