"""Write the demo's history from a seed: `python make_demo.py [--seed N] [--out FOLDER]`.

Reads members.toml, places.toml and waves.toml beside it; writes sets.csv, sessions.csv, body_mass.csv,
references.csv, wave_places.csv and scores.csv. The same seed gives the same bytes. See about.txt.
"""

from __future__ import annotations

import argparse
import csv
import random
import sys
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.dont_write_bytecode = True  # nothing but the demo's own files lies in its folder
sys.path[:0] = [str(HERE), str(HERE.parent)]

from scoring import SCORE_COLUMNS, score_rows  # noqa: E402 - its folder has to be on the path first
from truth import ATHLETES, WEEKS, Athlete  # noqa: E402
from visit import SESSION_COLUMNS, SET_COLUMNS, Diary, Kit, Visit  # noqa: E402

SEED = 20260302
FIRST_WEEK = {"Ondrej": 33}  # the week in which the present wave began; for the others the last one
DAYS = {"Kitchen": (1, 5), "Millrace": (0, 2, 4), "Weathervane": (0, 2, 4)}
WAVES = {"Mirela": "Kitchen", "Sunniva": "Weathervane"}  # all others: Millrace
TESTED = (
    {"front squat", "deadlift", "snatch"},
    {"front squat", "press", "clean and jerk"},
)  # in turn, every fourth week


def kit_loads(places: Sequence[Mapping[str, Any]]) -> Kit:
    """Every load that each place can make, by place, implement, unit and bar."""
    kit: dict[tuple[str, str, str, str], list[Decimal]] = {}
    for place in places:
        for unit in ("kg", "lb"):
            discs = [(Decimal(d["mass"]), d["pairs"]) for d in place["discs"] if d["unit"] == unit]
            for bar in place["bars"]:
                if bar["unit"] == unit:
                    loads = [Decimal(bar["mass"]) + 2 * side for side in sums(discs)]
                    kit[place["name"], "barbell", unit, bar["name"]] = loads
            kit[place["name"], "body", unit, ""] = sums([(mass, 1) for mass, _ in discs])
        bells = place["dumbbells"]
        kit[place["name"], "dumbbells", bells["unit"], ""] = [Decimal(mass) for mass in bells["masses"]]
    return kit


def sums(discs: Sequence[tuple[Decimal, int]]) -> list[Decimal]:
    """Every sum of the discs at hand, from nothing, lightest first."""
    reached = {Decimal(0)}
    for mass, count in discs:
        reached = {at + mass * n for at in reached for n in range(count + 1)}
    return sorted(reached)


def live(diary: Diary, wave: Mapping[str, Any]) -> int:
    """Fill a member's diary, week by week; returns the step of the wave that is due on the anchor, counted from 1."""
    athlete, dice = diary.athlete, diary.dice
    athlete.wander(dice)
    began = FIRST_WEEK.get(athlete.name, WEEKS - 1)
    per_week, days = len(wave["step"]) // 3, DAYS[wave["name"]]
    next_step = 1
    for week in range(athlete.first_week, WEEKS):
        if week in athlete.away:
            continue
        for n in range(len(days)):
            if week < began and dice.random() > athlete.attendance:
                continue
            one_session(diary, wave, week, n)
            if week >= began:
                next_step = block_of(diary, week) * per_week + n + 2
        if dice.random() < 0.4 and week < WEEKS - 1:
            saturday(diary, week)
    return next_step


def block_of(diary: Diary, week: int) -> int:
    """0, 1, 2: the week of a wave; 3: a week of tests or easy days."""
    return (week - FIRST_WEEK.get(diary.athlete.name, WEEKS - 1)) % 4


def one_session(diary: Diary, wave: Mapping[str, Any], week: int, n: int) -> None:
    """One planned session: the wave's step, or, every fourth week, a test or an easy day."""
    block = block_of(diary, week)
    step = wave["step"][min(block, 2) * (len(wave["step"]) // 3) + n]
    lines = step["lines"]
    title = "test day" if block == 3 else step["title"].split(",")[0].lower() + " day"
    visit = enter(diary, week, DAYS[wave["name"]][n], title)
    back = bool(diary.athlete.away) and 0 <= week - diary.athlete.away.stop < 4
    for line in lines:
        lift, of = line["lift"], line["of"]
        if (lift, of) not in diary.believed:
            first = visit.nearest(lift, line["implement"], 0.95 * diary.athlete.rep_max(lift, visit.week, of))
            diary.refer(lift, of, first, visit.day, "declared")
        if block == 3 and not back and wave["name"] == "Kitchen":
            visit.rep_out(lift, of)
        elif block == 3 and not back and lift in TESTED[week // 4 % 2]:
            visit.find_max(lift, of)
        elif block == 3:
            visit.wave(lift, of, "3x5@70", line["implement"])
        else:
            visit.wave(lift, of, line["sets"], line["implement"], scale=0.9 if back else 1.0)
    second = {"press": "pull-up", "deadlift": "push press"}.get(lines[0]["lift"])
    if second in diary.athlete.lifts and block != 3 and diary.dice.random() < 0.75:
        visit.second(second)
    away_from_class = visit.place == "Garage"
    visit.close(piece=not away_from_class and diary.dice.random() < 0.55)


def saturday(diary: Diary, week: int) -> None:
    """A further session in some weeks: back squats, or what the spare room has."""
    home = diary.athlete.name == "Wren" and diary.dice.random() < 0.4
    lift = "split squat" if home else "back squat"
    if lift in diary.athlete.lifts:
        visit = enter(diary, week, 5, "at home" if home else "back squat day", place="Spare room" if home else None)
        visit.second(lift)
        visit.close(piece=False)


def enter(diary: Diary, week: int, weekday: int, title: str, place: str | None = None) -> Visit:
    """Come in: the place, and a form of the day."""
    name = diary.athlete.name
    usual = {"Mirela": "Kitchen", "Tobin": "Garage" if weekday == 2 else "Lanternmill"}.get(name, "Lanternmill")
    form = max(-0.045, min(0.045, diary.dice.gauss(0, diary.athlete.form_sd)))
    return Visit(diary, diary.day(week, weekday), week + weekday / 7, place or usual, title, form)


def weigh_ins(diary: Diary) -> list[dict[str, object]]:
    """A weighing on most Mondays, with the day's noise."""
    rows = []
    for week in range(diary.athlete.first_week, WEEKS):
        if diary.dice.random() < 0.6:
            mass = diary.body_mass(week) * (1 + diary.dice.gauss(0, 0.004))
            rows.append({"member": diary.athlete.name, "date": diary.day(week, 0).isoformat(),
                         "body_mass": f"{mass:.1f}", "unit": diary.unit})  # fmt: skip
    return rows


def write(path: Path, columns: Sequence[str], rows: Iterable[Mapping[str, object]]) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def read(name: str) -> dict[str, Any]:
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def diary_of(athlete: Athlete, members: Mapping[str, Any], kit: Kit, seed: int) -> Diary:
    """An empty diary; each member has dice of their own, so that one's history does not hang on another's."""
    facts = next(m for m in members["member"] if m["name"] == athlete.name)
    dice = random.Random(f"{seed} {athlete.name}")
    return Diary(athlete, facts["unit"], float(facts["body_mass"]), members["anchor"], dice, kit)


def make(out: Path, seed: int = SEED) -> None:
    """Write all six files into `out`."""
    members, kit = read("members.toml"), kit_loads(read("places.toml")["place"])
    waves = {wave["name"]: wave for wave in read("waves.toml")["wave"]}
    diaries, steps = [diary_of(athlete, members, kit, seed) for athlete in ATHLETES], []
    for diary in diaries:
        wave = waves[WAVES.get(diary.athlete.name, "Millrace")]
        due = live(diary, wave)
        began = diary.day(FIRST_WEEK.get(diary.athlete.name, WEEKS - 1), DAYS[wave["name"]][0])
        steps.append({"member": diary.athlete.name, "wave": wave["name"], "started": began.isoformat(),
                      "next_step": due, "due": members["anchor"].isoformat()})  # fmt: skip
    weighed = [
        row for diary in diaries if diary.athlete.name in ("Wren", "Ondrej", "Tobin") for row in weigh_ins(diary)
    ]
    scores = score_rows(diaries, random.Random(f"{seed} scores"))
    by_day = lambda row: (row["date"], row["member"], row.get("order", 0))  # noqa: E731 - a sort key in one line
    write(out / "sets.csv", SET_COLUMNS, sorted((row for d in diaries for row in d.sets), key=by_day))
    write(out / "sessions.csv", SESSION_COLUMNS, sorted((row for d in diaries for row in d.sessions), key=by_day))
    write(out / "body_mass.csv", ("member", "date", "body_mass", "unit"), sorted(weighed, key=by_day))
    write(
        out / "references.csv",
        tuple(diaries[0].references[0]),
        sorted((r for d in diaries for r in d.references), key=by_day),
    )
    write(out / "wave_places.csv", tuple(steps[0]), steps)
    write(out / "scores.csv", SCORE_COLUMNS, sorted(scores, key=by_day))


def main() -> None:
    options = argparse.ArgumentParser(description="Write the demo's history files from a seed.")
    options.add_argument("--seed", type=int, default=SEED)
    options.add_argument("--out", type=Path, default=HERE)
    chosen = options.parse_args()
    chosen.out.mkdir(parents=True, exist_ok=True)
    make(chosen.out, chosen.seed)


if __name__ == "__main__":
    main()
