"""`tidemark weights`: percentages of a reference max into loads that the kit can make."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import database_option, json_option
from tracker.cli.output import rounded, say_json, say_table
from tracker.errors import BadInputError
from tracker.prescription.kit import BarKit, parse_pairs
from tracker.prescription.wave import ReferenceMax, WorkingSet, common_kit, parse_reference, parse_wave, working_sets
from tracker.units import Mass, parse_mass, plain

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tracker.desk.maxes.estimates import LiftHistory
    from tracker.log.records import LiftRecord, MemberRecord
    from tracker.log.unit_of_work import Log
    from tracker.prescription.plates import Rounding

MOST_SETS = 200  # in one answer; more is a slip of the finger


@click.command()
@click.option(
    "--reference", required=True, metavar="nRM=LOAD", help="The rep-max that percentages refer to: 3RM=92.5kg."
)
@click.option("--wave", required=True, metavar="SETS", help='Sets x repetitions @ percent: "1x4@72, 1x4@77, 3x4@82".')
@click.option("--bar", metavar="LOAD", help="The empty bar: 20kg. Its unit is the unit of the answer.")
@click.option(
    "--pairs", metavar="DISCS", help='mass:pairs at hand, "25:1 20:1 2.5:1"; a mass alone is as many as needed.'
)
@click.option("--place", metavar="NAME", help="Take bar and discs of a place in the log.")
@click.option("--rounding", type=click.Choice(["nearest", "down"]), default="nearest", show_default=True)
@click.option("--member", metavar="NAME", help="With --lift: say how likely each set is for this member of the log.")
@click.option("--lift", metavar="NAME", help="With --member: the lift, such as 'front squat, barbell'.")
@database_option
@json_option
def weights(
    reference: str,
    wave: str,
    bar: str | None,
    pairs: str | None,
    place: str | None,
    rounding: Rounding,
    member: str | None,
    lift: str | None,
    as_json: bool,
) -> None:
    """Turn percentages of a rep-max into loads that your kit can make.

    Without --bar and --pairs it is a 20 kg bar with common discs, or a 45 lb bar for a reference in pounds. Half-way
    between two loads goes down. A load that the kit can't make is the closest it can, and says so. With --member and
    --lift the reference may be 3RM alone: the tested or estimated one of the log.
    """
    given = _given(reference, member, lift)
    wanted = parse_wave(wave, where="--wave")
    if sum(each.sets for each in wanted) > MOST_SETS:
        raise BadInputError(
            f"That is more than {MOST_SETS} sets.", where="--wave", mend="Ask for one session at a time."
        )
    kit = _kit(given, bar, pairs, place)
    sets = working_sets(given, wanted, kit, rounding)
    chances = _chances(sets, member, lift)
    if as_json:
        say_json({"reference": _reference(given), "sets": _records(sets, chances)})
    else:
        _say(given, kit, sets, chances)


def _given(reference: str, member: str | None, lift: str | None) -> ReferenceMax:
    """Return the rep-max that was typed, or the one of the log that "3RM" alone asks for."""
    alone = re.fullmatch(r"\s*(\d{1,2})\s*RM\s*", reference, re.IGNORECASE | re.ASCII)
    if alone is None or lift is None:
        return parse_reference(reference, where="--reference")
    from datetime import date

    from tracker.desk.maxes.references import references

    reps, (log, who, which) = int(alone[1]), _named(member, lift)
    if which.implement not in ("barbell", "unasked"):
        what = f"{which.title} is not done with a bar and discs."
        raise BadInputError(what, where="--lift", mend="The pages make its loads.")
    found = references(estimates_of(log, who, which), reps, date.today(), who.unit)
    if not found:
        mend = f"Write it out, such as {reps}RM=92.5kg."
        raise BadInputError(f"The log has no {reps}RM of {which.title}.", where="--reference", mend=mend)
    return ReferenceMax(reps, found[0].load, found[0].source)


def _kit(given: ReferenceMax, bar: str | None, pairs: str | None, place: str | None) -> BarKit:
    if place is not None:
        if bar or pairs is not None:
            raise BadInputError(
                "The kit is given twice.", where="--place", mend="Leave out --bar and --pairs, or --place."
            )
        return _kit_of_place(place)
    bare = common_kit(given.load.unit) if bar is None else _with_bar(parse_mass(bar, where="--bar"))
    return bare if pairs is None else replace(bare, discs=parse_pairs(pairs, bare.unit, where="--pairs"))


def _with_bar(bar: Mass) -> BarKit:
    try:
        return replace(common_kit(bar.unit), bar=bar)
    except BadInputError as err:
        raise BadInputError(err.what, where="--bar", mend=err.mend) from None


def _kit_of_place(name: str) -> BarKit:
    from tracker.cli.options import with_log
    from tracker.desk.people import places

    known = places.places(with_log())
    found = next((each for each in known if each.name.casefold() == " ".join(name.split()).casefold()), None)
    if found is None:
        names = ", ".join(each.name for each in known) or "none yet"
        raise BadInputError(f"There is no place {name}.", where="--place", mend=f"The log has: {names}.")
    kit = places.kit_with(found, next(iter(found.of_kind("bar")), None))
    if kit is None:
        raise BadInputError(f"{found.name} has no bar.", where="--place", mend="Name another place, or give --bar.")
    return kit


def _chances(sets: Sequence[WorkingSet], member: str | None, lift: str | None) -> list[float | None]:
    """How likely each set is, in turn, where the log has an estimate for the member."""
    if member is None and lift is None:
        return [None] * len(sets)
    if lift is None:
        raise BadInputError("Which lift is it?", where="--lift", mend="Give --member and --lift together.")
    from datetime import date

    history = estimates_of(*_named(member, lift))
    if history.model is None:
        return [None] * len(sets)
    today, model = date.today(), history.model
    moved = [history.moved_kg(Mass(each.load, each.unit), today) for each in sets]
    return [
        model.chance(kg, each.reps, day=today, sets_before=before)
        for before, (kg, each) in enumerate(zip(moved, sets, strict=True))
    ]


def _named(member: str | None, lift: str) -> tuple[Log, MemberRecord, LiftRecord]:
    from tracker.cli.options import lift_named, member_named, with_log

    log = with_log()
    return log, member_named(log, member), lift_named(log, lift)


def estimates_of(log: Log, member: MemberRecord, lift: LiftRecord) -> LiftHistory:
    """Return all that the log knows of the member's lift."""
    from tracker.desk.maxes import estimates

    return estimates.history(log, member.id, lift)


def _reference(given: ReferenceMax) -> dict[str, object]:
    return {"reps": given.reps, "load": float(given.load.amount), "unit": given.load.unit, "source": given.source}


def _records(sets: Sequence[WorkingSet], chances: Sequence[float | None]) -> list[dict[str, Any]]:
    return [
        each.as_record() | ({} if chance is None else {"chance": chance})
        for each, chance in zip(sets, chances, strict=True)
    ]


def _say(given: ReferenceMax, kit: BarKit, sets: Sequence[WorkingSet], chances: Sequence[float | None]) -> None:
    load = str(given.load) if given.source != "estimated" else rounded(float(given.load.amount), given.load.unit)
    click.echo(f"{given.reps}RM {load}, {given.source}; bar {kit.bar}")
    likely = any(chance is not None for chance in chances)
    heading = ["set", "reps", "asked", "target", "load", "that is", *(["chance"] if likely else []), "each side"]
    rows = [
        [
            str(each.set), str(each.reps), f"{plain(each.percent)} %", f"{plain(round(each.target, 1))} {each.unit}",
            f"{plain(each.load)} {each.unit}", f"{each.actual_percent:.1f} %",
            *(["" if chance is None else f"{min(max(round(chance * 100), 1), 99)} %"] if likely else []), _discs(each),
        ]
        for each, chance in zip(sets, chances, strict=True)
    ]  # fmt: skip
    say_table(heading, rows, words=(len(heading) - 1,))
    for note in dict.fromkeys(each.note for each in sets if each.note):
        click.echo(f"Note: {note}")
    click.echo("Heavy sets want pins or a spotter, and your coach's word comes before any number here.")


def _discs(each: WorkingSet) -> str:
    same = all(disc.unit == each.unit for disc in each.per_side)
    words = [plain(disc.amount) if same else str(disc) for disc in each.per_side]
    return " + ".join(words) or "empty bar"
