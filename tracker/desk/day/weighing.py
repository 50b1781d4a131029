"""What a prescribed set weighs here and today: of a max, by the coach's load or rule, or of the estimate; made by the kit."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.desk.day import body_percent, loading, sore
from tracker.desk.day.body_percent import OF_BOTH, Basis
from tracker.desk.day.loading import Weighed
from tracker.desk.day.scene import Scene
from tracker.desk.maxes import estimates, little
from tracker.desk.maxes.references import Reference
from tracker.desk.people import places
from tracker.desk.people.places import FIXED
from tracker.log.records import PlannedSetRow
from tracker.prescription.comeback import Comeback
from tracker.prescription.illness import AfterIllness
from tracker.prescription.rounding import NEAREST, RoundingChoice, choose_rounding
from tracker.prescription.substitution import FEEL_RIR, substitute
from tracker.strength.records import REP_MAXES
from tracker.units import Mass, short

AFTER_ILLNESS = RoundingChoice("down", ("it is one of the first sessions after an illness",))
LOWERED = RoundingChoice("down", ("the day is to be easier than asked",))
OF_AN_ESTIMATE = RoundingChoice("down", ("the load is of an estimate",))


@dataclass(frozen=True, slots=True)
class Part:
    """What is asked: so many per cent of a reference max are `target`; of a lift of the body, by which of the two ways."""

    percent: Decimal
    target: Mass
    basis: Basis = OF_BOTH
    body: str = ""  # which body mass it was worked out with


def weigh(
    scene: Scene,
    planned: PlannedSetRow,
    chosen: Reference | None,
    ease: Decimal | None,
    history: estimates.LiftHistory,
    of: estimates.LiftHistory,
    basis: Basis = OF_BOTH,
) -> tuple[Weighed, Part | None]:
    """Find the load that a set asks for here and today, and the part of a max that it is; `basis` for a lift of the body."""
    of_break = isinstance(scene.back, Comeback)
    if of_break and chosen is not None and planned.percent is not None and is_of_now(chosen, scene):
        scene = replace(scene, back=None)  # it was tested since the break: its percentages need no way back
    share = _share(scene, ease)
    if planned.rule and (planned.rule == "doubled" or planned.percent is None or chosen is None):
        return _by_rule(scene, planned, history), None
    if planned.percent is None:
        return _asked_otherwise(scene, planned, share, history), None
    if chosen is None:
        unknown = f"No {planned.of_reps}RM of {(planned.of_lift or planned.lift).title} is known yet."
        return Weighed(None, None, (f"{unknown} {little.WORDS if of.sets else little.NOTHING}",)), None
    if why := body_percent.none_yet(planned, chosen.load, basis, history):
        return Weighed(None, None, (why,)), None
    whole = planned.lift.body and basis.of == "whole"
    asked = planned.percent * share
    target = body_percent.share_of(history, chosen.load, asked / 100, scene.day, basis.of)
    # Where the coach's rule says the same repetitions with it, the repetitions are the coach's.
    own = None if planned.rule else history
    made = loading.weigh(scene, planned.lift, planned.reps, target, rounding_for(chosen, scene), own)
    with_body = body_percent.body_words(history, scene.day) if whole else ""
    return _lowered(scene, made), Part(asked, target, basis, with_body)


def is_of_now(reference: Reference, scene: Scene) -> bool:
    """Whether a max was tested since the newest break."""
    return scene.break_ended is not None and reference.source == "tested" and reference.day >= scene.break_ended


def _share(scene: Scene, ease: Decimal | None) -> Decimal:
    """Return what is left of a load on an easier day, and in the first sessions after weeks away."""
    away = scene.back.percent if scene.back else Decimal(0)
    return (1 - (ease or Decimal(0)) / 100) * (1 - away / 100) * (1 - Decimal(scene.sore.easier(scene.day)) / 100)


def _lowered(scene: Scene, weighed: Weighed) -> Weighed:
    """Say beside a load that it starts lower."""
    if weighed.made is None:
        return weighed
    easier = scene.sore.easier(scene.day)
    why = (scene.back.short if scene.back else "", sore.ACHES_EASED.format(percent=easier) if easier else "")
    return replace(weighed, notes=(*weighed.notes, *(each for each in why if each)))


def held_down(scene: Scene, planned: PlannedSetRow, weighed: Weighed, most: Mass | None) -> Weighed:
    """Let no load be heavier than what was missed today, whatever the plan or the estimate says."""
    made = weighed.made
    if made is None or most is None or made.load.kg <= most.kg:
        return weighed
    lower = loading.at_most(most, made, scene, planned.lift)
    words = f"{short(made.load)} was asked; after today's miss nothing heavier than {short(most)}."
    if lower is None:
        return Weighed(None, None, (f"{words} Nothing here is as light.",))
    return Weighed(lower, None, (words,))


def _asked_otherwise(scene: Scene, planned: PlannedSetRow, share: Decimal, history: estimates.LiftHistory) -> Weighed:
    """Find the load of a set without a percentage: the coach's own, or what the estimate says of the wanted reserve."""
    if planned.load is not None:
        target = Mass(planned.load.amount * share, planned.load.unit)
        lower = scene.back is not None or scene.sore.easier(scene.day) > 0
        return _lowered(
            scene, loading.weigh(scene, planned.lift, planned.reps, target, LOWERED if lower else NEAREST, None)
        )
    reps = planned.reps + math.ceil(planned.reserve) if planned.reserve is not None else None
    if reps is None or planned.rep_out:
        return Weighed(None)
    target = _estimated(scene, planned, reps, share, history)
    if target is None:
        return Weighed(None)
    found = loading.weigh(scene, planned.lift, planned.reps, target, OF_AN_ESTIMATE, None)
    if found.made is None:
        return found
    notes = ("A load of your own estimate for that reserve; change it by feel.", *found.notes)
    return _lowered(scene, replace(found, notes=notes))


def _estimated(
    scene: Scene, planned: PlannedSetRow, reps: int, share: Decimal, history: estimates.LiftHistory
) -> Mass | None:
    """Return a share of the estimated nRM; None where nothing is known of it, or where it is no load."""
    if reps not in REP_MAXES or history.model is None or little.rests_on_little(history, scene.day):
        return None
    band = history.bar(history.model.estimate(scene.day).rep_max[reps], scene.day, scene.member.unit)
    if planned.lift.body:
        return history.share(Mass(Decimal(repr(round(band.estimate, 3))), scene.member.unit), share, scene.day)
    target = Mass(Decimal(repr(round(band.estimate, 3))) * share, scene.member.unit)
    return target if target.amount > 0 else None


def _by_rule(scene: Scene, planned: PlannedSetRow, history: estimates.LiftHistory) -> Weighed:
    """Do what the sheet says for another implement: its repetitions, at a load by feel, or by the member's own sets with it."""
    known = planned.lift.implement in FIXED and scene.place is not None
    masses = places.fixed_masses(scene.place, planned.lift) if known and scene.place else ()
    if known and not masses:
        return Weighed(None, substitute(planned.reps, ()), missing=True)
    at_hand = masses or (Mass(Decimal(1), scene.member.unit),)  # by feel: only that there is something
    rule = substitute(planned.reps, at_hand, double=planned.rule == "doubled")
    target = _estimated(scene, planned, (rule.reps or planned.reps) + FEEL_RIR, _share(scene, None), history)
    fit = [mass for mass in masses if target is not None and mass.kg <= target.kg]
    if not fit or target is None:
        return Weighed(None, rule)
    asked = (
        f"{rule.reps} instead of {planned.reps}, as the sheet says"
        if rule.reps != planned.reps
        else "As the sheet says"
    )
    words = f"{asked}; by your own sets with it this leaves about {FEEL_RIR}."
    return Weighed(places.exactly(fit[-1], target, planned.lift), replace(rule, load=fit[-1], words=words), (words,))


def rounding_for(reference: Reference, scene: Scene) -> RoundingChoice:
    """Round down where care is due, with the reasons, else to the nearest."""
    if isinstance(scene.back, AfterIllness):
        return AFTER_ILLNESS
    return choose_rounding(
        source=reference.source,
        age_days=reference.age_days(scene.day),
        days_off=days_off(scene),
        alone=scene.member.alone,
    )


def days_off(scene: Scene) -> int | None:
    """Return the days away for which loads are rounded down: on the whole way back those of the break."""
    return scene.back.days_off if scene.back else scene.person.days_off
