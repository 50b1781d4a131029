"""The sections of the study, from what was found to words, tables and figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import plotly.graph_objects as go

from tracker.charts import study as charts
from tracker.strength.backtest.thin_table import MemberScore
from tracker.strength.formulas import FORMULAS
from tracker.study import lifters
from tracker.study.calibration import chances, levels
from tracker.study.figures import Figure, ratio, root, share, worst
from tracker.study.invented import KIND_WORDS, LiftResult, MemberResult, by_kind
from tracker.study.tables import Part, Picture, Table
from tracker.wording import counted

ENOUGH_SETS = 50  # in a group of chances, for a mark in the picture; design
WANTED = (74.0, 88.0)  # % of truths that an 80 % band should hold in each kind of thin evidence; design
PLUS_MINUS = "± is one standard error between people."
NO_PROMISE = (
    "Invented people train and write as somebody thought that people do. The figures say how well the estimate does where "
    "those assumptions hold; how near they are to the members of a gym is not known."
)


@dataclass(frozen=True, slots=True)
class Competed:
    """Competitors of one half of a file, scored over all lifts of each, and whether that half served for fitting."""

    name: str
    fitted: bool
    people: int
    scores: Mapping[str, Sequence[MemberScore]]  # by lift, in the order of people


def _picture(caption: str, draw: Callable[[bool], go.Figure]) -> Picture:
    return Picture(caption, draw(False), draw(True))


def _people(number: int) -> str:
    return "1 person" if number == 1 else f"{number:,} people"


def _dots(name: str, figures: Mapping[str, Figure]) -> charts.Series:
    return charts.Series(
        name,
        tuple(
            charts.Dot(row, each.value, each.error, f"{name}: {each.words} % ({each.people} people)")
            for row, each in figures.items()
            if each.people
        ),
    )


def thin_part(members: Sequence[MemberResult], seed: int) -> Part:
    """Members of whom little is known."""
    kinds = by_kind(members)
    ours = {kind: root([each.score.square for each in some]) for kind, some in kinds.items()}
    carried = {kind: root([each.score.carried_square for each in some]) for kind, some in kinds.items()}
    held = {kind: share([each.score.held for each in some]) for kind, some in kinds.items()}
    rows = [
        (
            f"{kind}: {KIND_WORDS[kind]}", str(len(some)), ours[kind].words, carried[kind].words,
            share([each.score.bias for each in some]).words, held[kind].words,
            share([each.score.width for each in some]).words,
        )
        for kind, some in kinds.items()
    ]  # fmt: skip
    head = (
        "kind",
        "people",
        "error %",
        "last test carried on, error %",
        "bias %",
        "80 % band held, % of days",
        "width of the band, %",
    )
    return Part(
        "Where little is known",
        (
            f"Invented members, {_people(len(next(iter(kinds.values()))))} of each kind, half a year of one lift each. "
            "The generator was written from a description of such members, without sight of the model. " + PLUS_MINUS,
            NO_PROMISE,
        ),
        (
            _picture(
                "Error of the estimate of the rep-max that is asked, beside the last test carried on. Less is better.",
                lambda dark: charts.errors_figure(
                    [_dots("estimate", ours), _dots("last test", carried)], title="error, % of the rep-max", dark=dark
                ),
            ),
            _picture(
                f"How often the truth lay within the 80 % band; wanted is {WANTED[0]:.0f} to {WANTED[1]:.0f} % in each kind, "
                "more where the band is wide for want of evidence.",
                lambda dark: charts.held_figure(_dots("held", held), wanted=WANTED, dark=dark),
            ),
        ),
        (Table("Members of whom little is known", head, rows),),
        (f"Seed {seed}.",),
    )  # fmt: skip


def tested_part(lifts: Mapping[int, Sequence[LiftResult]]) -> Part:
    """Athletes who test every six to twelve weeks; `lifts` by seed."""
    everything = [each for some in lifts.values() for each in some]
    names = {
        "estimate": "estimate",
        "carried": "last test",
        "formula": "Epley, best of 6 weeks",
        "oracle": "told the truth's habits",
    }
    rows: list[tuple[str, ...]] = []
    for kind, some in [*by_kind(everything).items(), ("all", everything)]:
        squares = [[each.squares.get(key, float("nan")) for each in some] for key in names]
        rows.append((
            kind, str(len(some)), *(root(each).words for each in squares), f"{worst(squares[0]):.1f}",
            share([each.held for each in some]).words,
        ))  # fmt: skip
    ratios = [_of_oracle(some) for some in lifts.values()]
    spread = f" (by seed {min(ratios)[0]:.2f} to {max(ratios)[0]:.2f})" if len(ratios) > 1 else ""
    over, error = _of_oracle(everything)
    return Part(
        "Where a max is tested now and then",
        (
            "Invented athletes who test a rep-max every 6 to 12 weeks, from beginners to poor judges of effort. Errors are of the "
            "tested rep-max on days after the first test. " + PLUS_MINUS,
            ("The last column but two is the same filter, told the athlete's own curve, habit of reporting and gain: about the "
            f"least error that such a filter can have. The estimate's error divided by it is {over:.2f} ± {error:.2f}{spread}."),
            "This generator and the model rest on like assumptions, and the model's constants were chosen on other seeds of it.",
        ),
        tables=(Table(
            "Athletes who test", ("kind", "lifts", *(f"{name}, error %" for name in names.values()), "worst lift, %", "80 % band held, % of days"),
            rows,
        ),),
        after=(f"{'Seed' if len(lifts) == 1 else 'Seeds'} {', '.join(map(str, lifts))}.",),
    )  # fmt: skip


def _of_oracle(lifts: Sequence[LiftResult]) -> tuple[float, float]:
    """Return the estimate's error over the least that such a filter can have, and its error between lifts."""
    return ratio([each.squares["estimate"] for each in lifts], [each.squares["oracle"] for each in lifts])


def calibration_part(members: Sequence[MemberResult]) -> Part:
    """Bands of every width, and chances of sets."""
    found = levels([each.score.below for each in members if each.kind != "easy"])
    groups = chances(members)
    band_rows = [(f"{each.said} %", each.held.words, str(each.held.people)) for each in found]
    set_rows = [
        (f"{each.low} to {each.high} %", f"{each.said:.1f}", each.made.words, f"{each.sets:,}", str(each.made.people))
        for each in groups
    ]
    bands = [
        (
            each.said,
            charts.Dot(
                str(each.said), each.held.value, each.held.error, f"said {each.said} %, found {each.held.words} %"
            ),
        )
        for each in found
    ]
    enough = [each for each in groups if each.sets >= ENOUGH_SETS]
    sets = [
        (
            each.said,
            charts.Dot(
                "",
                each.made.value,
                each.made.error,
                f"said {each.said:.0f} %, made {each.made.words} % of {counted(each.sets, 'set')}",
            ),
        )
        for each in enough
    ]
    return Part(
        "Does it happen as often as it is said",
        (
            "Bands: of truths, how many lie within the central band of each width; all kinds above but the one with easy sets "
            "alone, whose band is wide by design. Chances: of planned sets of five, how many were made, by the chance that "
            "was given the day before. " + PLUS_MINUS,
        ),
        (
            _picture("Bands: found over said.", lambda dark: charts.calibration_figure(
                bands, across="width of the band as said, %", up="truths within it, %", dark=dark)),
            _picture(f"Chances: sets made over the chance given, where there are {ENOUGH_SETS} sets or more.", lambda dark: charts.calibration_figure(
                sets, across="chance as said, %", up="sets made, %", dark=dark)),
        ),
        (
            Table("Bands of every width", ("said", "held, %", "people"), band_rows),
            Table("Chances of planned sets", ("chance given", "mean chance, %", "made, %", "sets", "people"), set_rows),
        ),
    )  # fmt: skip


def formulas_part(members: Sequence[MemberResult], found: Sequence[lifters.Errors]) -> Part:
    """Every published formula beside the estimate, on invented members, and on real lifters where there are any."""
    kinds = [(kind, some) for kind, some in by_kind(members).items() if any(_has_value(each) for each in some)]
    methods = {"estimate": "this estimate", **{key: each.name for key, each in FORMULAS.items()}}
    rows = [
        (
            f"{name} ({FORMULAS[key].status})" if key in FORMULAS else name,
            *(root([_square(each, key) for each in some]).words for _, some in kinds),
        )
        for key, name in methods.items()
    ]
    tables = [
        Table("Error of the rep-max that is asked, %, invented members", ("method", *(kind for kind, _ in kinds)), rows)
    ]
    words = [
        "A formula takes one set, fresh, to failure. Here each gets its best set of six weeks whose effort is known, which is "
        "how it is used; where nobody reports or tests there is no value. How well each equation is known stands beside it. " + PLUS_MINUS
    ]  # fmt: skip
    if found:
        told = {1: "one set", 3: "three sets"}
        methods = {lifters.OWN: "own curve, learnt on other days", lifters.COMMON: "curve of somebody not known",
                   **{key: each.name for key, each in FORMULAS.items()}}  # fmt: skip
        tables.append(Table(
            f"Error of the 1RM, %, {counted(len(found), 'real lifter')}", ("method", *(f"from {word}" for word in told.values())),
            [(name, *(lifters.figure(found, key, number).words for number in told)) for key, name in methods.items()],
        ))  # fmt: skip
        words.append(
            f"Real lifters: {_people(len(found))} of open data (B. Mitter, University of Vienna, Apache-2.0), bench press by "
            "inference, sets to failure at 90, 80 and 70 % of a tested 1RM in two protocols. So few people can't rank methods."
        )
        words += [_verdict(found, number, word) for number, word in told.items()]
    return Part("Beside the published formulas", tuple(words), tables=tuple(tables))


def _verdict(found: Sequence[lifters.Errors], number: int, word: str) -> str:
    best, apart = lifters.told_apart(found, number)
    ours, theirs = lifters.figure(found, lifters.OWN, number), lifters.figure(found, best, number)
    figures = f"own curve {ours.words} %, {FORMULAS[best].name} {theirs.words} %"
    if not apart:
        return f"From {word} the own curve ties with the best formula: {figures}."
    better = "own curve" if ours.value < theirs.value else FORMULAS[best].name
    return f"From {word} the {better} is better by more than twice the error of the difference: {figures}."


def _square(member: MemberResult, key: str) -> float:
    return member.score.square if key == "estimate" else member.formulas[key]


def _has_value(member: MemberResult) -> bool:
    return not all(np.isnan(value) for value in member.formulas.values())


def competitors_part(halves: Sequence[Competed]) -> Part:
    """Real competitors: the next meet from meets alone."""
    rows: list[tuple[str, ...]] = []
    for half in halves:
        for name, scores in [*half.scores.items(), ("all lifts", _of_people(half))]:
            rows.append((
                f"{half.name}, {name}", str(half.people), root([each.square for each in scores]).words,
                root([each.carried_square for each in scores]).words, share([each.bias for each in scores]).words,
                share([each.held for each in scores]).words, share([each.width for each in scores]).words,
            ))  # fmt: skip
    used = "; ".join(
        f"{half.name}: {'served for fitting' if half.fitted else 'untouched by fitting'}" for half in halves
    )
    return Part(
        "Real competitors, meets alone",
        (
            ("The next meet's best lift, asked the day before it, 30 to 60 weeks after the last one, with nothing known of the "
            f"training between. Open competition results, names removed. {used}. {PLUS_MINUS}"),
            ("These are elite lifters and no picture of a gym's members. What was lifted on the day is the truth here, so the form of "
            "one day is in the error, and not in the band."),
            _beside_carried(halves),
        ),
        tables=(Table(
            "Competitors", ("who", "people", "error %", "last meet carried on, error %", "bias %", "80 % band held, %", "width of the band, %"), rows,
        ),),
    )  # fmt: skip


def _of_people(half: Competed) -> list[MemberScore]:
    """Join the lifts of each person, so that a person counts once."""

    def mean(name: str, lifts: Sequence[MemberScore]) -> float:
        return float(np.mean([getattr(each, name) for each in lifts]))

    return [
        MemberScore(
            mean("square", lifts),
            mean("bias", lifts),
            mean("held", lifts),
            mean("width", lifts),
            mean("carried_square", lifts),
        )
        for lifts in zip(*half.scores.values(), strict=True)
    ]


def _beside_carried(halves: Sequence[Competed]) -> str:
    """Say of each half whether the estimate is better or worse than carrying the last meet on, or neither can be said."""
    said: list[str] = []
    for half in halves:
        apart = np.array([each.square - each.carried_square for each in _of_people(half)])
        error = float(np.std(apart, ddof=1) / np.sqrt(len(apart)))
        if abs(float(apart.mean())) <= 2 * error:
            said.append(f"In the {half.name} the estimate and the last meet carried on can't be told apart.")
        else:
            said.append(
                f"In the {half.name} the estimate is {'better' if apart.mean() < 0 else 'worse'} than the last meet carried on."
            )
    return " ".join(said)
