"""Make the study: `python -m tracker.study --out study.html`; `--quick` for a first look."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path
from time import monotonic

from tracker import __version__
from tracker.errors import BadInputError
from tracker.strength.backtest import competitors
from tracker.study import invented, lifters, parts
from tracker.study.page import page
from tracker.study.tables import Part, Study

MEMBERS, ATHLETES, SEEDS = 300, 242, 5
QUICK = (6, 11, 1)
SEED = 70100  # of invented people; no parameter of the model was chosen on it
FITTED_HALF = "odd"  # of competitors, by their numbers
REFERENCES = Path(__file__).parents[2] / "tests" / "references"


def main(arguments: list[str] | None = None) -> None:
    """Read the arguments, run, write the page."""
    asked = _parser().parse_args(arguments)
    out: Path = asked.out
    if not out.parent.is_dir():
        raise BadInputError(f"There is no folder {out.parent}.", mend="Make it first, or give another --out.")
    began = monotonic()
    members, athletes, seeds = QUICK if asked.quick else (asked.members, asked.athletes, asked.seeds)
    study = made(members, athletes, seeds, asked.seed, asked.data, began)
    out.write_text(page(study), encoding="utf-8")
    _say(f"{out}: {out.stat().st_size / 1e6:.1f} MB, {monotonic() - began:.0f} s")


def made(members: int, athletes: int, seeds: int, seed: int, data: Path, began: float) -> Study:
    """Run everything and put it together; what needs a file of open data that is not there is left out, and said."""
    _say(f"{members} invented members of each of {len(invented.KIND_WORDS)} kinds")
    found = list(invented.results(members, seed))
    tested: dict[int, list[invented.LiftResult]] = {}
    for each in range(seed + 1, seed + 1 + seeds):
        _say(f"{athletes} invented athletes, seed {each}")
        tested[each] = invented.former(athletes, each)
    real, halves, missing = _real(data)
    sections = [parts.thin_part(found, seed), parts.calibration_part(found), parts.tested_part(tested)]
    sections += [parts.formulas_part(found, real), *([parts.competitors_part(halves)] if halves else [])]
    under = (
        f"Made on {date.today():%d %B %Y} with version {__version__}, {monotonic() - began:.0f} s on "
        f"{invented.PROCESSES} processors. What the estimate of a lift's maxes is worth: on invented people whose truth is "
        "known, and on open data of real ones. It is no promise for anybody, and nobody is cleared to train by it."
    )
    sections.append(_how(missing))
    return Study("What the estimate is worth", under, tuple(sections))


def _real(data: Path) -> tuple[list[lifters.Errors], list[parts.Competed], list[str]]:
    """Score real people from the files in a folder; return also the names of files that are not there."""
    bench, meets = data / "bench_reps_to_failure.csv", data / "competition_lifters.csv"
    missing = [each.name for each in (bench, meets) if not each.is_file()]
    real = lifters.errors(bench) if bench.is_file() else []
    halves: list[parts.Competed] = []
    if meets.is_file():
        for half in ("odd", "even"):
            _say(f"competitors, {half} half")
            people = list(competitors.competitors(meets, half))
            scores = {
                name.removesuffix("_press"): competitors.scores(people, at) for at, name in enumerate(competitors.LIFTS)
            }
            halves.append(parts.Competed(f"{half} half", half == FITTED_HALF, len(people), scores))
    return real, halves, missing


def _how(missing: list[str]) -> Part:
    words = [
        "Every figure is a mean over people, and its error is between people, since days of one person are alike.",
        "The same command with the same seed gives the same figures. Seeds of the page served for no choice of the model's parameters.",
    ]
    if missing:
        words.append(f"Left out, because the file was not there: {', '.join(missing)}.")
    return Part("How it was made", tuple(words))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tracker.study", description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--out", type=Path, default=Path("study.html"), help="The file to write.")
    parser.add_argument("--quick", action="store_true", help="A few people of each kind: under two minutes.")
    parser.add_argument("--members", type=int, default=MEMBERS, help="Invented members of each kind.")
    parser.add_argument("--athletes", type=int, default=ATHLETES, help="Invented athletes who test, a seed.")
    parser.add_argument("--seeds", type=int, default=SEEDS, help="Seeds of athletes who test.")
    parser.add_argument("--seed", type=int, default=SEED, help="The first seed.")
    parser.add_argument("--data", type=Path, default=REFERENCES, help="The folder with the files of open data.")
    return parser


def _say(line: str) -> None:
    print(line, file=sys.stderr, flush=True)


if __name__ == "__main__":
    try:
        main()
    except BadInputError as error:
        sys.exit(str(error))
