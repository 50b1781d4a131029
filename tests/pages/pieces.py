"""A piece that tests of its page share, and the way to its fields and scores."""

from __future__ import annotations

from decimal import Decimal

from streamlit.testing.v1 import AppTest

from tests.pages.conftest import field as any_field
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.log import scores as log_scores
from tracker.log.records import MemberRecord
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log
from tracker.units import parse_mass

RUN = Steady(3, 3)
LADDER = Piece(
    "Lantern ladder",
    "as many as possible",
    (
        Task("kettlebell swing", RUN, load=parse_mass("16kg"), implement="kettlebell"),
        Task("box step-over", RUN, height_cm=Decimal(50)),
        Task("hand-release push-up", RUN, options=(Task("push-up from the knees", RUN),)),
    ),
    cap_s=720,
)
ROW = Task("row", Steady(1), "m")


def scores(log: Log, member: MemberRecord) -> tuple[ScoreRow, ...]:
    with log.reading() as session:
        return log_scores.scores_of(session, member.id)


def field(at: AppTest, kind: str, ending: str):
    return any_field(at, kind, ending, "score_")


def button_labels(at: AppTest) -> list[str]:
    return [each.label for each in at.button]
