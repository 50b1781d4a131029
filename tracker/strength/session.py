"""One day's sets as evidence: what each of them says of the day's capability, and how many hard sets came before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import isfinite, log

from tracker.errors import BadInputError
from tracker.strength.curve import Curve
from tracker.strength.effort import FAR_RIR, RepsEvidence
from tracker.strength.parameters import PIVOT, Parameters
from tracker.strength.records import REP_MAXES, SetRecord

HARD_WITHIN = 0.15  # a set counts as hard that shows at least so much of the day's best, in logarithms; design
# A set so far below the day's top, in logarithms, is light; further, a digit may be missing; design
WARM_UP = (0.35, 2.2)
HARD_BEFORE = 2  # so many hard sets before one to failure make it late; design
MOST_REPS_READ = 40  # repetitions beyond this are read as this many: no curve reaches so far; design
NOT_ONCE = 0.03  # a load that did not go up once lies so far above the 1RM, in logarithms; design
# What a first day's sets are guessed to have had left, only a centre for the prior: a part of a repetition, and of a report a
# part more than was written, since people stop earlier than they think (see `habits` in parameters.py); design
LEFT_WHERE_SURE, LEFT_OF_REPORT = 0.5, 1.2


@dataclass(frozen=True, slots=True)
class Observation:
    """A set with its evidence, the logarithm of its load (kg) and the hard sets before it on that day."""

    record: SetRecord
    evidence: RepsEvidence
    log_load: float
    before: int
    share: float = 1.0  # of its log likelihood that counts: reports of one day are alike

    @property
    def informs(self) -> bool:
        """Tell whether it says more than "at least this"."""
        return self.evidence.saying not in ("bound", "blank")


def check(record: SetRecord) -> None:
    """Refuse a set that can't be.

    Raises:
        BadInputError: if its load is not above zero, or a number in it is not finite or below zero.
    """
    where = f"set of {record.day}"
    if not isfinite(record.load_kg) or record.load_kg <= 0:
        raise BadInputError(f"A load of {record.load_kg} kg can't be.", where=where, mend="Give a load above zero.")
    if record.reps < 0 or (record.rir is not None and not (isfinite(record.rir) and record.rir >= 0)):
        raise BadInputError("Repetitions can't be below zero.", where=where, mend="Give 0 or more.")


@lru_cache(maxsize=8)
def _proofs(curve_at_eight: float) -> tuple[float, ...]:
    """Return log(pivot's rep-max / nRM) by the population's curve, for n up to the most that are read."""
    curve = Curve.through(curve_at_eight, 8, 1.0)
    above = [float(curve.drop(max(1, n)) - curve.drop(PIVOT)) for n in range(MOST_REPS_READ + 1)]
    return (above[0] - NOT_ONCE, *above[1:])


def shown(record: SetRecord, parameters: Parameters) -> float:
    """Return log(load for the pivot) that the completed repetitions alone prove, by the population's curve."""
    return log(record.load_kg) + _proofs(parameters.curve_at_eight)[min(record.reps, MOST_REPS_READ)]


def read(
    sets: Sequence[SetRecord], parameters: Parameters, usual: float | None, *, in_full: bool = False
) -> tuple[Observation, ...]:
    """Turn a day's sets, in order, into evidence.

    Only the heaviest test that was not followed by another try counts as all there was. Where no set of the day says
    more than "at least", the top set of unknown effort is a blank. A miss may be a slip, unless misses count `in_full`.
    """
    above, loads = _proofs(parameters.curve_at_eight), [log(record.load_kg) for record in sets]
    proved = [load + above[min(record.reps, MOST_REPS_READ)] for record, load in zip(sets, loads, strict=True)]
    best = max(proved)
    evidence_of_day = [_evidence(sets, i, usual, parameters, in_full=in_full) for i in range(len(sets))]
    if all(evidence.saying == "bound" for evidence in evidence_of_day):
        top = [
            i
            for i, record in enumerate(sets)
            if record.kind != "ramp" and record.outcome != "cut" and record.reps and proved[i] > best - HARD_WITHIN
        ]
        if top:
            i = max(top, key=lambda i: (proved[i], -i))
            evidence_of_day[i] = RepsEvidence("blank", evidence_of_day[i].reps)
    alike = max(1, sum(evidence.saying == "report" for evidence in evidence_of_day)) ** -parameters.alike
    said: list[Observation] = []
    before = 0
    for record, evidence, load, value in zip(sets, evidence_of_day, loads, proved, strict=True):
        share = alike if evidence.saying == "report" else 1.0
        said.append(Observation(record, evidence, load, before, share))
        before += record.kind != "ramp" and value > best - HARD_WITHIN
    return tuple(said)


def only_tests(sets: Sequence[SetRecord], parameters: Parameters) -> bool:
    """Tell whether a day was for testing alone: its light sets are a warm-up."""
    proved = [shown(record, parameters) for record in sets]
    heavy = max(proved) - WARM_UP[0]
    return all(each.kind == "test" for each, value in zip(sets, proved, strict=True) if value > heavy)


def told_reps(said: Sequence[Observation], before: tuple[int, int] | None) -> tuple[int, int] | None:
    """Return the fewest and the most repetitions of sets that say more than "at least", those of earlier days with them."""
    told = [max(1, min(each.record.reps, REP_MAXES[-1])) for each in said if each.informs]
    told += before or ()
    return (min(told), max(told)) if told else None


def went_to_failure(said: Sequence[Observation]) -> bool:
    """Tell whether a day has hard sets and then one that went on, with more repetitions than before, until none was left."""
    return any(
        each.before >= HARD_BEFORE
        and each.record.kind == "work"
        and (each.record.outcome == "missed" or each.record.rir == 0)
        and all(each.record.reps > other.record.reps for other in said[:at] if other.record.kind == "work")
        for at, each in enumerate(said)
    )


def _slip(record: SetRecord, before: Sequence[SetRecord], p: Parameters) -> float:
    """Return how likely a miss is none of strength: most so where the same load was just made for more."""
    if record.kind == "test":
        return p.slip_test
    made_more = any(
        each.load_kg >= record.load_kg and each.reps > record.reps and each.outcome == "done" for each in before
    )
    return p.slip_late if made_more else p.slip_first


def _evidence(sets: Sequence[SetRecord], i: int, usual: float | None, p: Parameters, *, in_full: bool) -> RepsEvidence:
    record = sets[i]
    reps = min(record.reps, MOST_REPS_READ)
    if record.outcome == "missed":
        return RepsEvidence("missed", reps, slip=p.slip_twice if in_full else _slip(record, sets[:i], p))
    if record.outcome == "cut" or record.kind == "ramp":
        return RepsEvidence("bound", reps)
    if record.kind == "test":
        tried_more = any(later.load_kg > record.load_kg and later.kind == "test" for later in sets[i + 1 :])
        return RepsEvidence("bound" if tried_more else "test", reps)
    if record.rir is None:
        return RepsEvidence("bound", reps)
    rir = min(record.rir, FAR_RIR)
    return RepsEvidence("report", reps, rir, usual is not None and abs(rir - usual) < 0.25)


def first_report(sets: Sequence[SetRecord], usual: float | None) -> float | None:
    """Return the member's first report of repetitions in reserve, which some write ever after."""
    if usual is not None:
        return usual
    return next((min(record.rir, FAR_RIR) for record in sets if record.rir is not None), None)


def first_guess(sets: Sequence[SetRecord], parameters: Parameters) -> float:
    """Guess log(load for the pivot) from the first day alone, by the population's curve; only a centre for the prior."""
    curve = Curve.through(parameters.curve_at_eight, 8, 1.0)
    heaviest = max(shown(record, parameters) for record in sets)
    meant = [record for record in sets if record.kind != "ramp"]
    if all(shown(record, parameters) < heaviest - WARM_UP[0] for record in meant):  # none of them was what was meant
        meant = list(sets)
    guesses: list[tuple[float, bool]] = []
    for record in meant:
        sure = record.outcome == "missed" or record.kind == "test"
        told = sure or (record.rir is not None and record.outcome != "cut")
        if told:
            left = LEFT_WHERE_SURE + (0.0 if sure else min(record.rir or 0.0, FAR_RIR) * LEFT_OF_REPORT)
            reps = max(0.7, min(record.reps + left, MOST_REPS_READ))
            value = log(record.load_kg) + float(curve.drop(reps) - curve.drop(PIVOT))
        else:
            value = shown(record, parameters) + parameters.ease
        guesses.append((value, told))
    if any(told for _, told in guesses):  # what is told stands above a guess of what is usual
        guesses = [guess for guess in guesses if guess[1]]
    top = max(guesses)[0]
    kept = sorted(value for value, told in guesses if told or not WARM_UP[0] < top - value < WARM_UP[1])
    # neither the highest nor the lowest where there is a choice: one of them may be a slip of the pen
    return kept[(3 * (len(kept) - 1)) // 4 if len(kept) > 3 else (len(kept) - 1) // 2]
