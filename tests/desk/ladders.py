"""A ladder and a piece for time that tests of the desk share, and the way to a score."""

from datetime import timedelta
from decimal import Decimal

from tests.day import this_day
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log.scores import scores_of
from tracker.units import parse_mass

RUN = Steady(3, 3)
LADDER = Piece(
    "Lantern ladder",
    "as many as possible",
    (
        Task("kettlebell swing", RUN, load=parse_mass("16kg"), implement="kettlebell", standard="to eye height"),
        Task("box step-over", RUN, height_cm=Decimal(50)),
        Task("hand-release push-up", RUN, options=(Task("push-up, hands on a box", RUN, height_cm=Decimal(60)),)),
    ),
    cap_s=720,
)
TIMED = Piece(
    "Downhill",
    "for time",
    (Task("deadlift", Steady(10), load=parse_mass("60kg")),),
    rounds=3,
    cap_s=300,
    tie_break="round 2",
)
KNEES = "hand-release push-up -> push-up from the knees"


def scored(log, member, piece, said, days_ago=0, **named):
    words = said if isinstance(said, Said) else Said(said)
    return conditioning.log_score(log, member.id, piece.id, this_day() - timedelta(days=days_ago), words, **named)


def all_scores(log, member, **named):
    with log.reading() as session:
        return scores_of(session, member.id, **named)
