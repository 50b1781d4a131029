"""From a wanted load to what stands at the place: the one way for every page, with other repetitions where nothing is close.

What the coach's sheet says of other kit goes first and is no matter of this module's: `lines.py` asks for it by the rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.desk.day.scene import Scene
from tracker.desk.maxes import estimates
from tracker.desk.people import places
from tracker.desk.people.places import FIXED, MadeLoad
from tracker.log.records import LiftRecord
from tracker.prescription.changes import load_in_turn
from tracker.prescription.rounding import RoundingChoice, change_note
from tracker.prescription.substitution import Substitute, substitute
from tracker.units import Mass, plain, short

BARS = ("barbell", "unasked")


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a set is done with here: the load, other repetitions where it takes them, and what is to be said."""

    made: MadeLoad | None
    instead: Substitute | None = None
    notes: tuple[str, ...] = ()
    missing: bool = False  # nothing that stands here makes it


def weigh(
    scene: Scene, lift: LiftRecord, reps: int, target: Mass, how: RoundingChoice, history: estimates.LiftHistory | None
) -> Weighed:
    """Make a wanted load at the place of a scene.

    Of fixed masses the close one is taken. Where none is close, and the member's own sets with this implement say how many
    repetitions another one allows, the repetitions change and the reserve stays (`history`; None keeps the repetitions).
    """
    if lift.implement in FIXED and scene.place is not None and history is not None and history.model is not None:
        rep_max = {n: band.estimate for n, band in history.model.estimate(scene.day).rep_max.items()}
        masses = places.fixed_masses(scene.place, lift)
        found = substitute(reps, masses, target=target, rep_max=rep_max, double=False)
        if found.load is not None:
            made = places.exactly(found.load, target, lift)
            return Weighed(made) if found.reps == reps else Weighed(made, found, (found.words,))
    if scene.in_unit is not None:
        target = Mass(target.to(scene.in_unit), scene.in_unit)
    made = places.make_load(target, lift, scene.member, scene.place, how)
    if made is not None and lift.body and made.load.amount < 0 and not helps(scene):
        return Weighed(None, None, (no_help(scene, made.load),), missing=True)
    if made is None:
        return Weighed(None, None, (nothing_here(scene, lift),), missing=True)
    note = made.note
    if note is None and lift.implement not in FIXED and not lift.body:
        note = change_note(target, made.load, how)
    return Weighed(made, None, (note,) if note else ())


def helps(scene: Scene) -> bool:
    """Whether a band or machine is at hand that takes a part of the body's mass; where no place is known, everything is."""
    return scene.place is None or places.takes_of_body(scene.place)


def no_help(scene: Scene, load: Mass) -> str:
    """Say that less than the body was asked for, and that nothing here helps."""
    where = scene.place.name if scene.place else "here"
    return (
        f"{plain(abs(load.amount))} {load.unit} of help were asked for, and no band or machine is in the kit of {where}. Fewer "
        "repetitions, or an easier movement: ask your coach."
    )


def nothing_here(scene: Scene, lift: LiftRecord) -> str:
    """Say that the place has nothing for a lift, and what to do about it."""
    where = f"{scene.place.name} has" if scene.place else "There is"
    lone = places.lone_masses(scene.place, lift) if scene.place else ()
    if lone:
        one = places.SINGLE[lift.implement]
        return (
            f"{where} one {one} of {short(lone[-1])}, and two are asked. Do it with one at a time, the repetitions on each side, "
            "or ask your coach."
        )
    return f"{where} nothing for {lift.title}. Ask your coach for another way, or change the place."


def at_most(most: Mass, made: MadeLoad, scene: Scene, lift: LiftRecord) -> MadeLoad | None:
    """Return a load that is not heavier than `most`: the same one, or the nearest below it; None where there is none."""
    if made.load.kg <= most.kg:
        return made
    lower = places.make_load(most, lift, scene.member, scene.place, RoundingChoice("down"))
    return replace(lower, target=made.target, note=None) if lower is not None and lower.load.kg <= most.kg else None


def fewest_changes(scene: Scene, rows: Sequence[tuple[LiftRecord, MadeLoad | None]]) -> list[MadeLoad | None]:
    """Of equal choices of discs for the sets of a lift, take those that change least from set to set."""
    found = [made for _, made in rows]
    on_a_bar = [i for i, (lift, made) in enumerate(rows) if made and lift.implement in BARS]
    for wanted in dict.fromkeys(rows[i][0] for i in on_a_bar):
        same = [(i, made) for i in on_a_bar if rows[i][0] == wanted and (made := rows[i][1])]
        units = {disc.unit for _, made in same for disc in made.per_side}
        kit = places.bar_kit(scene.member, scene.place, mixed=len(units) > 1)
        if kit is None:
            continue
        for (i, made), loading in zip(same, load_in_turn([made.load for _, made in same], kit), strict=True):
            if loading.load.kg == made.load.kg:
                words = places.discs_in_words(loading.per_side)
                found[i] = replace(made, per_side=loading.per_side, words=words)
    return found
