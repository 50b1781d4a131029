"""Make the study: `python -m tracker.study --out study.html`; `--quick` for a first look.

With `--kept FOLDER` what is done is kept there, portion by portion, and the same command goes on after a stop.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from itertools import chain, groupby
from pathlib import Path
from signal import SIGTERM, signal
from time import monotonic

from tracker import __version__
from tracker.errors import BadInputError
from tracker.study import lifters, parts, portions
from tracker.study.page import page
from tracker.study.tables import Part, Study

MEMBERS, ATHLETES, SEEDS = 300, 242, 5
QUICK = (6, 11, 1)
SEED = 70100  # of invented people; no parameter of the model was chosen on it
HALVES = ("odd", "even")
PROCESSES = 2
FITTED_HALF = "odd"  # of competitors, by their numbers
REFERENCES = Path(__file__).parents[2] / "tests" / "references"


def main(arguments: list[str] | None = None) -> None:
    """Read the arguments, run, write the page."""
    asked = _parser().parse_args(arguments)
    out: Path = asked.out
    if not out.parent.is_dir():
        raise BadInputError(f"There is no folder {out.parent}.", mend="Make it first, or give another --out.")
    if asked.processes < 1:
        raise BadInputError(f"{asked.processes} processes can't work.", mend="Give --processes 1 or more.")
    members, athletes, seeds = QUICK if asked.quick else (asked.members, asked.athletes, asked.seeds)
    kept: Path | None = asked.kept
    if kept:
        kept.mkdir(exist_ok=True)
    began = monotonic()
    study = made(members, athletes, seeds, asked.seed, asked.data, kept, asked.processes)
    out.write_text(page(study), encoding="utf-8")
    _say(f"{out}: {out.stat().st_size / 1e6:.1f} MB, {monotonic() - began:.0f} s")


def made(
    members: int, athletes: int, seeds: int, seed: int, data: Path, kept: Path | None = None, processes: int = PROCESSES
) -> Study:
    """Run everything and put it together; what needs a file of open data that is not there is left out, and said."""
    bench, meets = data / "bench_reps_to_failure.csv", data / "competition_lifters.csv"
    missing = [each.name for each in (bench, meets) if not each.is_file()]
    halves = {half: portions.of_competitors(meets, half) for half in HALVES} if meets.is_file() else {}
    thin, tested = portions.of_members(members, seed), portions.of_athletes(athletes, range(seed + 1, seed + 1 + seeds))
    done = portions.worked([*thin, *tested, *chain(*halves.values())], kept, processes, _say)
    found = portions.members(done[each] for each in thin)
    by_seed = {
        int(source): portions.lifts(done[each] for each in some)
        for source, some in groupby(tested, key=lambda each: each.source)
    }
    competed = [_competed(half, [done[each] for each in some]) for half, some in halves.items()]
    real = lifters.errors(bench) if bench.is_file() else []
    sections = [parts.thin_part(found, seed), parts.calibration_part(found), parts.tested_part(by_seed)]
    sections += [parts.formulas_part(found, real), *([parts.competitors_part(competed)] if competed else [])]
    seconds = sum(each.seconds for each in done.values())
    under = (
        f"Made on {date.today():%d %B %Y} with version {__version__}, {seconds:.0f} s of one processor. "
        "What the estimate of a lift's maxes is worth: on invented people whose truth is "
        "known, and on open data of real ones. It is no promise for anybody, and nobody is cleared to train by it."
    )
    sections.append(_how(missing))
    return Study("What the estimate is worth", under, tuple(sections))


def _competed(half: str, some: Sequence[portions.Done]) -> parts.Competed:
    """Put the portions of one half of the competitors together, by lift."""
    by_lift = {
        kind.split("-")[1].removesuffix("_press"): portions.scores(each)
        for kind, each in groupby(some, key=lambda done: done.portion.kind)
    }
    return parts.Competed(f"{half} half", half == FITTED_HALF, len(next(iter(by_lift.values()))), by_lift)


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
    parser.add_argument("--kept", type=Path, help="A folder that keeps what is done, so that the same command goes on.")
    parser.add_argument("--processes", type=int, default=PROCESSES, help="How many portions are worked at a time.")
    return parser


def _say(line: str) -> None:
    print(line, file=sys.stderr, flush=True)


if __name__ == "__main__":
    signal(SIGTERM, lambda *_: sys.exit("Stopped."))  # by an exception, so that the other processes end too
    try:
        main()
    except KeyboardInterrupt:
        sys.exit("Stopped; with --kept the same command goes on where it was.")
    except BadInputError as error:
        sys.exit(str(error))
