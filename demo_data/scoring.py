"""Scores of the demo's conditioning pieces, in the words that people call across a gym."""

from __future__ import annotations

import random
from collections.abc import Sequence
from datetime import date, timedelta
from itertools import accumulate

from truth import WEEKS
from visit import Diary

from tracker.conditioning.ladder import Ladder, equal_ladder
from tracker.conditioning.standing import standing
from tracker.conditioning.times import time_words

Score = tuple[str, str, str, str]
DOWNHILL_CAP_S = 540
SCORE_COLUMNS = ["member", "date", "place", "piece", "score", "splits", "substitutions", "note"]
LANTERN, KITCHEN = equal_ladder(3, 3, 3), Ladder(tuple(equal_ladder(n, 0, 1).runs[0] for n in (10, 8, 12)))
ENGINE = {  # invented: benchmark repetitions at the start, seconds for Mill wheel, metres of an interval, clean in kg
    "Wren": (168, 590, 505, 60),
    "Tobin": (181, 570, 540, 85),
    "Ondrej": (155, 640, 550, 95),
    "Sunniva": (128, 760, 455, 35),
}
TURNS = ("Lantern ladder", "Mill wheel", "Sluice gate", "Downhill", "Weir", "Lantern ladder", "Ten minutes on the rower",
         "Mill wheel", "Heavy clean in twelve minutes", "Downhill")  # fmt: skip
WREN_TURNS = ("Lantern ladder", "Mill wheel", "Sluice gate", "Lantern ladder", "Downhill", "Weir", "Lantern ladder",
              "Mill wheel", "Ten minutes on the rower", "Lantern ladder", "Downhill", "Heavy clean in twelve minutes")  # fmt: skip
KNEES = "hand-release push-up -> push-up from the knees"
SWING = "kettlebell swing -> kettlebell swing, 12 kg"


def score_rows(diaries: Sequence[Diary], dice: random.Random) -> list[dict[str, object]]:
    """Score some of the sessions that ended in a piece, and name the piece there; the others are left as easy ones."""
    rows: list[dict[str, object]] = []
    for diary in diaries:
        name, last, times = diary.athlete.name, date.min, 0
        for session in (session for session in diary.sessions if session["note"]):
            day = date.fromisoformat(str(session["date"]))
            if day - last < timedelta(days=6 if name == "Sunniva" else 11):
                session["note"] = "easy ten minutes on the bike, not scored"
                continue
            turns = {"Mirela": ("Kitchen rounds",), "Wren": WREN_TURNS}.get(name, TURNS)
            title = turns[times % len(turns)]
            trained = (day - diary.day(diary.athlete.first_week, 0)).days / 7 / WEEKS
            fit = 1 + 0.10 * trained + dice.gauss(0, 0.03)
            values = (
                name,
                day.isoformat(),
                session["place"],
                title,
                *one_score(name, title, fit, times, dice),
            )
            rows.append(dict(zip(SCORE_COLUMNS, values, strict=True)))
            session["note"], last, times = title, day, times + 1
    return rows


def one_score(name: str, title: str, fit: float, times: int, dice: random.Random) -> Score:
    """The score, the splits, what was swapped, and a note."""
    if title == "Kitchen rounds":
        return standing(KITCHEN, round(171 * fit)).words, "", "", ""
    if title == "Lantern ladder":
        return lantern_score(name, round(ENGINE[name][0] * fit), times, dice)
    if title in ("Mill wheel", "Downhill"):
        return timed_score(name, title, fit, dice)
    return numbered_score(name, title, fit, dice), "", "", ""


def timed_score(name: str, title: str, fit: float, dice: random.Random) -> Score:
    """A piece for time: finished, or capped with repetitions missing."""
    if title == "Downhill":
        time = 545 / fit + dice.gauss(0, 15)
        swapped = "deadlift -> deadlift, 40 kg" if name == "Sunniva" else ""
        missing = max(1, round((time - DOWNHILL_CAP_S) / 4))
        return (time_words(time) if time < DOWNHILL_CAP_S else f"CAP + {missing}"), "", swapped, ""
    swapped = "toes-to-bar -> hanging knee raise" if name in ("Sunniva", "Ondrej") else ""
    laps = [ENGINE[name][1] / fit * (0.235 + 0.01 * n + dice.gauss(0, 0.004)) for n in range(4)]
    ends = list(accumulate(laps))
    return time_words(ends[-1]), " ".join(time_words(end) for end in ends), swapped, ""


def numbered_score(name: str, title: str, fit: float, dice: random.Random) -> str:
    """Intervals kept, metres, calories or a load."""
    _, _, metres, clean = ENGINE[name]
    each = ", ".join(str(round(metres * fit * (1.02 - 0.012 * n) + dice.gauss(0, 4))) for n in range(5))
    heaviest = (
        f"{5 * round(clean * fit / 0.4536 / 5)} lb" if name == "Tobin" else f"{2.5 * round(clean * fit / 2.5):g} kg"
    )
    return {
        "Sluice gate": f"{min(12, round(10.5 * fit))}/12",
        "Weir": f"{each} m",
        "Ten minutes on the rower": f"{round(metres / 4.1 * fit)} cal",
        "Heavy clean in twelve minutes": heaviest,
    }[title]


def lantern_score(name: str, total: int, times: int, dice: random.Random) -> Score:
    """The benchmark: mostly as written, once with a lighter bell, once with knees down, once with the count lost."""
    words = standing(LANTERN, total).words
    if name == "Wren" and times == 12:
        return f"between {total - 9} and {total + 6}", "", "", "lost count in the last round"
    if name == "Wren" and times == 6:
        return words, "", SWING, "the 16s were taken"
    if name == "Sunniva":
        return words, "", KNEES, ""
    ends, done, pace = [], LANTERN.position(total).rounds, total / 720
    for n in range(done):
        drift = 0.94 + 0.06 * LANTERN.through(n + 1) / total
        ends.append(drift * LANTERN.through(n + 1) / pace)
    splits = " ".join(time_words(end) for end in ends) if name != "Ondrej" or dice.random() < 0.5 else ""
    return words, splits, "", ""
