"""The demo: an invented gym, made again from its seed byte for byte, and nothing in it that could not be."""

import csv
import subprocess
import sys
import tomllib
from collections import Counter
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest

from tracker.conditioning.change import change_between
from tracker.conditioning.compare import beside
from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.words import parse_score, score_words

DEMO = Path(__file__).parent.parent / "demo_data"
MADE = ("sets", "sessions", "body_mass", "references", "wave_places", "scores")


def rows(name: str) -> list[dict[str, str]]:
    with (DEMO / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def toml(name: str):
    return tomllib.loads((DEMO / f"{name}.toml").read_text(encoding="utf-8"))


SETS, ANCHOR = rows("sets"), toml("members")["anchor"]


def run(out: Path, *options: str) -> dict[str, bytes]:
    subprocess.run([sys.executable, DEMO / "make_demo.py", "--out", out, *options], check=True, timeout=60)
    return {name: (out / f"{name}.csv").read_bytes() for name in MADE}


def test_the_seed_gives_the_same_bytes_again(tmp_path):
    made = run(tmp_path / "again")
    assert made == {name: (DEMO / f"{name}.csv").read_bytes() for name in MADE}


def test_another_seed_gives_another_history(tmp_path):
    made = run(tmp_path / "other", "--seed", "7")
    assert made["sets"] != (DEMO / "sets.csv").read_bytes()


def test_sets_have_the_columns_of_an_import_and_values_that_can_be():
    wanted = "member date lift load unit body_mass reps rir outcome kind order session place implement implements per_side note"
    assert list(SETS[0]) == wanted.split()
    for row in SETS:
        reps, load = int(row["reps"]), Decimal(row["load"])
        assert row["unit"] in ("kg", "lb")
        assert row["outcome"] in ("done", "missed", "cut")
        assert row["kind"] in ("work", "test", "ramp")
        assert reps >= (1 if row["outcome"] == "done" else 0)
        assert load > 0 or (load == 0 and row["body_mass"])
        assert not row["rir"] or 0 <= Decimal(row["rir"]) <= 6


def test_the_story_has_all_that_it_should_show():
    assert 2_000 <= len(SETS) <= 3_000
    days = [date.fromisoformat(row["date"]) for row in SETS]
    assert max(days) < ANCHOR
    assert timedelta(weeks=38) < ANCHOR - min(days) <= timedelta(weeks=39)
    members = {m["name"]: m for m in toml("members")["member"]}
    assert {row["member"] for row in SETS} == set(members)
    assert len(members) >= 4
    for name, facts in members.items():
        mine = [row for row in SETS if row["member"] == name]
        assert {row["unit"] for row in mine} == {facts["unit"]}
        assert {row["place"] for row in mine} <= set(facts["places"])
        blank = sum(not row["rir"] for row in mine if row["kind"] == "work" and row["outcome"] == "done")
        assert 0.1 < blank / len(mine) < 0.7
    outcomes, kinds = Counter(row["outcome"] for row in SETS), Counter(row["kind"] for row in SETS)
    assert outcomes["missed"] >= 20
    assert outcomes["cut"] >= 1
    assert kinds["test"] >= 40
    assert kinds["ramp"] >= 100
    assert any(row["body_mass"] and Decimal(row["load"]) > 0 for row in SETS)
    assert any(row["per_side"] for row in SETS)
    assert all(row["implement"] == "dumbbells" for row in SETS if row["member"] == "Mirela")


def test_one_member_comes_back_after_five_weeks_away():
    days = sorted({date.fromisoformat(row["date"]) for row in SETS if row["member"] == "Ondrej"})
    assert 33 <= (ANCHOR - days[-1]).days <= 45
    assert max((later - earlier).days for earlier, later in pairwise(days)) < 20


def test_each_member_shows_one_thing():
    lifts = {(row["member"], row["lift"]) for row in SETS}
    assert {name for name, lift in lifts if lift in ("snatch", "clean and jerk")} == {"Sunniva"}
    assert {row["member"] for row in SETS if row["unit"] == "lb"} == {"Tobin"}
    assert {row["member"] for row in SETS if row["place"] == "Kitchen"} == {"Mirela"}
    due = {row["member"]: row for row in rows("wave_places")}
    waves = {wave["name"]: wave for wave in toml("waves")["wave"]}
    first = toml("members")["member"][0]["name"]
    (line,) = waves[due[first]["wave"]]["step"][int(due[first]["next_step"]) - 1]["lines"]
    assert (first, line["implement"]) == ("Wren", "barbell")  # who comes first opens on a barbell


def test_no_lift_of_a_member_has_two_implements():
    assert (
        max(Counter((m, lift) for m, lift, _ in {(r["member"], r["lift"], r["implement"]) for r in SETS}).values()) == 1
    )


def side_sums(discs):
    reached = {Decimal(0)}
    for disc in discs:
        reached = {at + Decimal(disc["mass"]) * n for at in reached for n in range(disc["pairs"] + 1)}
    return reached


def test_every_load_can_be_made_where_it_was_lifted():
    """Counted anew from places.toml: a bar plus two equal sides, or a dumbbell on the rack."""
    places = {place["name"]: place for place in toml("places")["place"]}
    makeable = {}
    for place in places.values():
        for unit in ("kg", "lb"):
            sides = side_sums([disc for disc in place["discs"] if disc["unit"] == unit])
            bars = [Decimal(bar["mass"]) for bar in place["bars"] if bar["unit"] == unit]
            makeable[place["name"], unit] = {bar + 2 * side for bar in bars for side in sides}
    for row in SETS:
        load, place = Decimal(row["load"]), places[row["place"]]
        if row["implement"] == "dumbbells":
            assert load in {Decimal(mass) for mass in place["dumbbells"]["masses"]}
        elif row["implement"] == "barbell":
            assert load in makeable[row["place"], row["unit"]], row


def test_waves_stand_in_the_middle_with_a_reference_for_what_is_due():
    waves = {wave["name"]: wave for wave in toml("waves")["wave"]}
    references = {(row["member"], row["lift"], int(row["reps"])) for row in rows("references")}
    for row in rows("wave_places"):
        steps = waves[row["wave"]]["step"]
        step = steps[int(row["next_step"]) - 1]
        assert 1 < int(row["next_step"]) < len(steps)
        assert row["due"] == ANCHOR.isoformat()
        for line in step["lines"]:
            assert (row["member"], line["lift"], line["of"]) in references
    assert {(row["next_step"]) for row in rows("wave_places")} == {"3", "4"}


def test_sessions_match_the_sets_and_some_ratings_are_missing():
    sessions = rows("sessions")
    assert {(row["member"], row["date"]) for row in sessions} == {(row["member"], row["date"]) for row in SETS}
    missing = sum(not row["rating"] for row in sessions) / len(sessions)
    assert 0.05 < missing < 0.3
    assert all(2 <= int(row["rating"]) <= 10 for row in sessions if row["rating"])
    assert all(20 <= int(row["minutes"]) <= 120 for row in sessions)


def test_scores_lie_on_days_of_training_and_tell_of_unlike_and_lost_ones():
    scores, trained = rows("scores"), {(row["member"], row["date"]) for row in rows("sessions")}
    assert {(row["member"], row["date"]) for row in scores} <= trained
    wren = [row for row in scores if row["member"] == "Wren" and row["piece"] == "Lantern ladder"]
    assert len(wren) >= 5
    assert sum(bool(row["substitutions"]) for row in wren) == 1
    assert sum(row["score"].startswith("between") for row in wren) == 1


@pytest.mark.parametrize("record", toml("pieces")["piece"], ids=lambda record: record["title"])
def test_pieces_are_read_and_written_back(record):
    piece = piece_from(record)
    assert piece_from(record_of(piece)) == piece


def test_scores_are_read_said_back_and_compared_like_with_like():
    pieces = {record["title"]: piece_from(record) for record in toml("pieces")["piece"]}
    read = []
    for row in rows("scores"):
        extra = {"swaps": row["substitutions"], "splits": row["splits"], "note": row["note"]}
        score = parse_score(pieces[row["piece"]], date.fromisoformat(row["date"]), row["score"], **extra)
        assert parse_score(score.piece, score.day, score_words(score), **extra) == score
        read.append((row["member"], score))
    lantern = [score for member, score in read if member == "Wren" and score.piece.title == "Lantern ladder"]
    shown = beside(lantern[-1], lantern)
    assert [row.like for row in shown].count(False) == 1
    assert sum(bool(row.best) for row in shown) >= 1
    like = [row.score for row in shown if row.like]
    assert change_between(like[-2], like[-1], like).verdict in ("within", "perhaps")
