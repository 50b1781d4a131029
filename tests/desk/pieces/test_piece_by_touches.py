"""A piece by touches: kind, time, and movements from the table; bad touches are told and write nothing."""

from __future__ import annotations

import pytest

from tracker.conditioning.asked import asked_words
from tracker.desk.people import people
from tracker.desk.pieces import conditioning, piece_by_touches
from tracker.desk.pieces.piece_by_touches import WAYS, Part, movements, piece_of, usual_measure
from tracker.errors import BadInputError

BURPEES, RUN = Part("burpee", 10), Part("run", 200, "m")
ROW = Part("row", 1, "m")


@pytest.mark.parametrize(
    ("way", "parts", "more", "title", "kind"),
    [
        ("as many rounds as possible", [BURPEES, RUN], {"minutes": 12}, "12 min: 10 burpees and 200 m run", "as many as possible"),
        ("for time", [BURPEES, RUN], {"rounds": 3, "minutes": 15},
         "3 rounds for time, cap 15 min: 10 burpees and 200 m run", "for time"),
        ("for time", [Part("row", 2000, "m")], {}, "For time: 2,000 m row", "for time"),
        ("every minute", [Part("row", 12, "cal"), BURPEES], {"minutes": 10},
         "Every minute, 10 min: 12 cal row and 10 burpees", "every minute"),
        ("as far as possible", [ROW], {"minutes": 20}, "20 min: row", "distance"),
        ("as far as possible", [Part("bike", 1, "cal")], {"minutes": 20}, "20 min: bike", "calories"),
    ],
)  # fmt: skip
def test_each_kind_is_made_and_named_by_what_it_asks(way, parts, more, title, kind):
    piece = piece_of(way, parts, **more)
    assert (piece.title, piece.kind) == (title, kind)
    assert asked_words(piece)


def test_a_load_and_a_short_name_are_read_as_on_a_sheet(log):
    member = people.add_member(log, "Ivo")
    row = piece_by_touches.add_by_touches(
        log, "for time", [Part("kbs", 21, load="16"), Part("own thing", 5, load="35 lb")], rounds=2, member_id=member.id
    )
    first, second = row.piece.tasks
    assert (first.movement, str(first.load), second.movement, str(second.load)) == (
        "kettlebell swing", "16 kg", "own thing", "35 lb",
    )  # fmt: skip
    assert [each.id for each in conditioning.pieces(log, member.id)] == [row.id]


@pytest.mark.parametrize(
    ("way", "parts", "more", "what"),
    [
        ("for time", [], {}, "no movement"),
        ("as many rounds as possible", [BURPEES], {}, "how long"),
        ("as many rounds as possible", [BURPEES], {"minutes": 0}, "0 minutes"),
        ("every minute", [BURPEES], {"minutes": 241}, "241 minutes"),
        ("as far as possible", [BURPEES], {"minutes": 10}, "one movement"),
        ("as far as possible", [ROW, ROW], {"minutes": 10}, "one movement"),
        ("for time", [BURPEES], {"rounds": 101}, "101 rounds"),
        ("for time", [Part("burpee", 0)], {}, "0 reps"),
        ("for time", [Part("burpee", 10, load="heavy")], {}, "not a number"),
        ("for time", [Part("  ", 10)], {}, "name"),
        ("for time", [BURPEES] * 21, {}, "too many"),
    ],
)
def test_what_cant_be_is_told_and_nothing_is_written(log, way, parts, more, what):
    with pytest.raises(BadInputError) as told:
        piece_by_touches.add_by_touches(log, way, parts, **more)
    assert what in str(told.value)
    assert told.value.mend
    assert conditioning.pieces(log) == ()


def test_the_table_offers_movements_with_what_they_are_counted_in():
    assert len(movements()) >= 150
    assert (usual_measure("row"), usual_measure("burpee"), usual_measure("something else")) == ("m", "reps", "reps")
    assert len(WAYS) == 4
