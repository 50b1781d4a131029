"""A class of invented members with maxes of their own, in kilograms and pounds, for what a coach does with many."""

from datetime import timedelta
from decimal import Decimal

from tests.day import this_day
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

NAMES = (
    "Aldis", "Brannoch", "Corvin", "Delphine", "Eskil", "Fennimore", "Gudrun", "Halvard", "Isaura", "Jorunn", "Kasimir", "Linnea",
    "Maximiliana", "Nerys", "Oswin", "Petronella", "Quillon", "Rosalind", "Sigrid", "Thaddeus", "Ursula", "Valborg", "Wendelin", "Yseult",
)  # fmt: skip


def gym(log, name="Lanternmill"):
    """Both bars with discs in both units, and dumbbells."""
    items = [KitItemRecord("", "bar", "20 kg bar", Mass(Decimal(20), "kg"), 8)]
    items.append(KitItemRecord("", "bar", "45 lb bar", Mass(Decimal(45), "lb"), 8))
    for unit, masses in (("kg", "25 20 15 10 5 2.5 1.25"), ("lb", "45 35 25 10 5 2.5")):
        items += [KitItemRecord("", "disc", each, Mass(Decimal(each), unit), None) for each in masses.split()]
    items += [
        KitItemRecord("", "dumbbell", each, Mass(Decimal(each), "kg"), 2)
        for each in ["8", "10", "12.5", "15", "17.5", "20", "22.5"]
    ]
    return places.add_place(log, name, "kg", items)


def class_of(log, names=NAMES, today=None):
    """Return the step and the members: every sixth in pounds, every eighth without a max, one back from a break."""
    today = today or this_day()
    squat, press = people.add_lift(log, "front squat", "barbell"), people.add_lift(log, "press", "dumbbells")
    members = []
    for number, name in enumerate(names):
        unit = "lb" if number % 6 == 5 else "kg"
        member = people.add_member(log, name, unit)
        members.append(member)
        if number % 8 == 7:
            continue
        heavy, light = (
            (Decimal(60 + 5 * (number * 7 % 15)), Decimal(18)) if unit == "kg" else (Decimal(225), Decimal(45))
        )
        when = today - timedelta(days=20 + number)
        rep_maxes.add_rep_max(log, member.id, squat.id, when, 3, Mass(heavy, unit), tested=True)
        rep_maxes.add_rep_max(log, member.id, press.id, when, 8, Mass(light, unit), tested=False)
    if len(names) > 18:  # her last session was a month ago
        month_ago = today - timedelta(days=30)
        log_set.log_set(log, members[18].id, month_ago, NewSet(squat.id, Mass(Decimal(70), "kg"), 5, Decimal(2)))
    planned = (
        NewPlannedSet(squat.id, 1, 4, Decimal(72), 3), NewPlannedSet(squat.id, 1, 4, Decimal(77), 3),
        NewPlannedSet(squat.id, 3, 4, Decimal(82), 3), NewPlannedSet(press.id, 3, 8, Decimal(78), 8),
    )  # fmt: skip
    with log.act("wave") as act:
        log_waves.add_wave(act, "Spring tide", [NewStep("Squat and press, week 2", 0, planned)])
    with log.reading() as session:
        step = log_waves.wave_steps(session)[0]
    return step, members
