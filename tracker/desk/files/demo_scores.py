"""Fills the demo's log with its conditioning pieces, their places in the waves, and what the members got in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any, Protocol

from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.pieces import Piece
from tracker.conditioning.words import parse_score
from tracker.desk.base.roles import may
from tracker.log import pieces as log_pieces
from tracker.log import rest as log_rest
from tracker.log import scores as log_scores
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Act, Log

RESTS = "Wren"  # says when she rests


class Story(Protocol):
    """What the loader of the demo knows: its files with their days moved, and what is in the log by now."""

    @property
    def members(self) -> Mapping[str, MemberRecord]: ...
    @property
    def places(self) -> Mapping[str, PlaceRecord]: ...
    def toml(self, name: str) -> dict[str, Any]: ...  # TOML holds what it holds
    def rows(self, name: str) -> Iterable[dict[str, str]]: ...
    def day(self, text: str | date) -> date: ...


@may("run")
def fill_scores(log: Log, story: Story) -> None:
    """Write the pieces, which sessions of waves they belong to, and all scores; members and waves are there already."""
    known: dict[str, tuple[str, Piece]] = {}
    with log.act("added the demo's pieces") as act:
        for record in story.toml("pieces")["piece"]:
            piece = piece_from(record)
            known[piece.title] = log_pieces.add_piece(act, piece), piece
        _into_waves(act, story, known)
    with log.act("added the demo's scores") as act:  # nobody's own act: undo does not reach it
        for row in story.rows("scores"):
            _score(act, story, row, *known[row["piece"]])
    with log.act("added the demo's days of rest") as act:
        _rest(act, story)


def _into_waves(act: Act, story: Story, known: Mapping[str, tuple[str, Piece]]) -> None:
    wanted = {
        (wave["name"], position): step["piece"]
        for wave in story.toml("waves")["wave"]
        for position, step in enumerate(wave["step"])
        if "piece" in step
    }
    for member in story.members.values():
        for step in log_waves.member_steps(act.session, member.id):
            title = wanted.pop((step.wave, step.position), None)  # once for all who do this wave
            if title:
                log_pieces.put_piece_into_step(act, step.step_id, known[title][0])


def _rest(act: Act, story: Story) -> None:
    """One member says of every day without a session that she rested; of the others nothing is known."""
    if RESTS not in story.members:
        return
    days = {story.day(row["date"]) for row in story.rows("sessions") if row["member"] == RESTS}
    first, last = min(days), max(days)
    for number in range((last - first).days):
        day = first + timedelta(days=number)
        if day not in days:
            log_rest.put_rest_day(act, story.members[RESTS].id, day)


def _score(act: Act, story: Story, row: Mapping[str, str], piece_id: str, piece: Piece) -> None:
    member, place = story.members[row["member"]], story.places[row["place"]]
    score = parse_score(
        piece, story.day(row["date"]), row["score"],
        swaps=row["substitutions"], splits=row["splits"], note=row["note"], unit=member.unit,
    )  # fmt: skip
    log_scores.add_score(act, member.id, piece_id, score, place_id=place.id)
