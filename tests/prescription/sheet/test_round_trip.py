"""A printed sheet reads back to the same sheet, whatever it says."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.prescription.sheet.corpus import CORPUS
from tracker.prescription.sheet import as_json, parse_sheet, print_sheet, read, said_back
from tracker.prescription.sheet.model import (
    IMPLEMENTS,
    Alternative,
    FindMax,
    InReserve,
    LiftBlock,
    MassRange,
    Of,
    Percent,
    Reps,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Count, Movement, Pair, PieceBlock
from tracker.units import Mass  # fmt: skip

TEXTS = Path(__file__).with_name("texts")
# Names as the table has them, and some that it does not have; a name that it has otherwise is written out on reading.
NAMES = st.sampled_from(
    ["front squat", "press", "bent over row", "farmers carry", "v-up", "Überzug", "step up and over", "hang power clean",
     "Rest pause press", "find balance", "tempo thing", "clean pull", "superset thing"]
)  # fmt: skip
LIFTS = st.sampled_from(
    [
        "Front squat",
        "Press",
        "Bent over row",
        "Überzug",
        "Hang power clean",
        "Pendlay row",
        "Snatch pull",
        "Weighted pull-up",
    ]
)
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"], include_characters=" ,:;@%+-#()x0123456789"), min_size=1, max_size=30).map(
    lambda words: " ".join(words.split())
)  # fmt: skip
TITLES = WORDS.filter(bool)
# Remarks in brackets, and titles behind a day, hold words alone: a load in them would be read.
REMARKS = st.sampled_from(["stay tall", "slow down", "Überlänge", "elbows high, breathe", "no misses", "für dich"])
HEADS = st.sampled_from(["Front squat day", "kitchen floor", "Test", "Überholspur"])
SECONDS = st.integers(1, 24 * 3600)
RESTS = st.integers(20, 3600)
TEMPOS = st.sampled_from(["", "3-1-1-0", "2-0-X-0", "X-X-X-X"])
MASSES = st.builds(Mass, st.sampled_from(["60", "0.5", "92.5", "999"]).map(Decimal), st.sampled_from(["kg", "lb"]))
PAIRS = st.sampled_from([Pair(Mass(Decimal(60), unit), Mass(Decimal("42.5"), unit)) for unit in ("kg", "lb")])  # type: ignore[arg-type]
RANGES = st.just(MassRange(Mass(Decimal(60), "kg"), Mass(Decimal(70), "kg")))
HALVES = st.integers(2, 20).map(lambda twice: Decimal(twice) / 2)
OFS = (
    st.builds(Of, st.integers(1, 30))
    | st.just(Of(1, percent=Decimal(90)))
    | st.just(Of(5, percent=Decimal("87.5")))
    | st.just(Of(3, "push jerk"))
)


@st.composite
def reps(draw: st.DrawFn, parts: int, *, out: bool) -> Reps:
    numbers = tuple(draw(st.integers(1, 99 // parts)) for _ in range(parts))
    if parts > 1:
        return Reps(numbers)
    if out:
        return Reps(numbers, out=True)
    return Reps(numbers, draw(st.none() | st.integers(numbers[0] + 1, 100)))


@st.composite
def groups(draw: st.DrawFn, parts: int, of: Of | None) -> SetGroup | FindMax:
    rest, note = draw(st.none() | RESTS), draw(st.just("") | REMARKS)
    if draw(st.integers(0, 5)) == 0:
        return FindMax(
            draw(st.integers(1, 30)), draw(st.booleans()), draw(st.none() | st.integers(60, 3600)), rest, note
        )
    out = parts == 1 and draw(st.booleans())
    percents = st.builds(
        Percent,
        st.integers(2, 400).map(lambda half: Decimal(half) / 2),
        OFS.filter(lambda each: each != of) | st.none() if of else OFS,
    )
    spans = st.builds(
        lambda low, more: Percent(Decimal(low), None if of else Of(1), Decimal(low + more)),
        st.integers(40, 90),
        st.integers(1, 10),
    )
    load = draw(
        st.none()
        | percents
        | spans
        | st.builds(Rpe, HALVES)
        | st.just(Rpe(Decimal(7), Decimal(8)))
        | st.builds(InReserve, HALVES)
        | MASSES
        | PAIRS
        | RANGES
    )
    effort = (
        draw(st.none() | st.just(Rpe(Decimal(8))) | st.just(InReserve(Decimal(2))))
        if isinstance(load, Percent | Mass)
        else None
    )
    sets = 1 if out else draw(st.integers(1, 20))
    return SetGroup(sets, draw(reps(parts, out=out)), load, rest, draw(TEMPOS), note, effort)


def _shared(sets: tuple[SetGroup | FindMax, ...]) -> bool:
    """Whether all percentages name the same rep-max: the lift would then name it."""
    ofs = {group.load.of for group in sets if isinstance(group, SetGroup) and isinstance(group.load, Percent)}
    return len(ofs) == 1 and None not in ofs


@st.composite
def lifts(draw: st.DrawFn, *, joined: bool) -> LiftBlock:
    names = tuple(draw(st.lists(LIFTS, min_size=1, max_size=3)))
    of = draw(st.none() | OFS)
    sets = tuple(
        draw(
            st.lists(groups(len(names), of), min_size=1, max_size=3).filter(
                lambda each: of is not None or not _shared(tuple(each))
            )
        )
    )
    own = st.builds(
        Alternative,
        st.sampled_from(IMPLEMENTS),
        st.just("own"),
        st.just("") | LIFTS,
        st.lists(groups(len(names), of), min_size=1, max_size=2).map(tuple),
    )
    ruled = st.builds(
        Alternative, st.sampled_from(IMPLEMENTS), st.sampled_from(["doubled", "same"]), st.just("") | LIFTS
    )
    others = st.builds(
        lambda other, when: Alternative(other.implement, other.rule, other.lift, other.sets, when),
        own | ruled,
        st.sampled_from(["", "home", "no rig"]),
    )
    return LiftBlock(
        names, draw(st.sampled_from(IMPLEMENTS)), of, draw(st.booleans()), draw(st.none() | RESTS), draw(TEMPOS), sets,
        tuple(draw(st.lists(others, max_size=2))), tuple(draw(st.lists(TITLES, max_size=2, unique=True))), joined,
        draw(st.none() | st.integers(30, 600)),
    )  # fmt: skip


@st.composite
def movements(draw: st.DrawFn, counts: st.SearchStrategy[Count] | None, *, options: bool = True) -> Movement:
    count = draw(counts) if counts is not None else None
    measure = (
        draw(st.sampled_from(["reps", "cal", "m", "s"])) if not (count and (count.listed or count.step)) else "reps"
    )
    load = draw(st.none() | MASSES | PAIRS)
    sides = draw(st.none() | st.just((12, 9))) if count is None else None
    most = count is None and sides is None and draw(st.booleans())
    return Movement(
        draw(NAMES), count, measure, load, draw(st.sampled_from(["", "kettlebell", "ball"])) if load else "",
        draw(st.integers(1, 2)) if load else 1, draw(st.booleans()), draw(st.none() | st.just(Decimal("50.5"))),
        draw(st.none() | st.just(Decimal(300))), draw(st.sampled_from(["", "green band"])),
        draw(st.sampled_from(["", "to eye height", "strict, slow", "24/20\", over the bar"])),
        tuple(draw(st.lists(movements(None, options=False), max_size=2))) if options else (), sides, most,
        draw(st.sampled_from(["", "buy-in", "cash-out"])) if options else "", "" if options else draw(st.sampled_from(["", "home", "no rig"])),
    )  # fmt: skip


KINDS = [
    "as many as possible",
    "for time",
    "every minute",
    "work and rest",
    "distance",
    "calories",
    "heaviest",
    "unscored",
]


@st.composite
def pieces(draw: st.DrawFn) -> PieceBlock:
    kind = draw(st.sampled_from(KINDS))
    fixed = st.builds(Count, st.tuples(st.integers(1, 100)))
    rising = st.builds(Count, st.tuples(st.integers(1, 100)), st.integers(1, 9))
    listed = st.builds(Count, st.tuples(st.integers(1, 50), st.integers(1, 50), st.integers(1, 50)))
    counts = draw(
        st.sampled_from([fixed, rising, listed] if kind in ("as many as possible", "unscored") else [fixed, listed])
    )
    scheme = draw(counts) if kind not in ("distance", "calories", "heaviest") and draw(st.booleans()) else None
    one = kind in ("distance", "calories", "heaviest")
    timed = kind in ("as many as possible", "distance", "calories", "heaviest")
    intervals = kind in ("every minute", "work and rest")
    return PieceBlock(
        draw(st.just("") | TITLES), kind, tuple(draw(st.lists(movements(None if scheme or one else counts), min_size=1, max_size=1 if one else 3))), scheme,
        None if counts is listed or one else draw(st.none() | st.integers(1, 20)),
        draw(SECONDS) if timed else draw(st.none() | SECONDS) if kind in ("for time", "unscored") else None,
        draw(SECONDS if kind == "every minute" else st.none() | SECONDS) if intervals else None,
        draw(st.sampled_from([0, 10, 90])) if kind != "every minute" else 0,
        draw(st.none() | st.integers(1, 99)) if intervals else None, draw(st.booleans()), draw(st.sampled_from(["total", "lowest", "completed"])),
        draw(st.just("") | NAMES), draw(st.integers(1, 4)), draw(st.sampled_from(["", "indoors", "outdoors"])),
        tuple(draw(st.lists(TITLES, max_size=2, unique=True))),
    )  # fmt: skip


@st.composite
def sessions(draw: st.DrawFn, *, named: bool) -> Session:
    """One session, its day still to be given."""
    lines = st.lists(TITLES, min_size=1, max_size=2).map(tuple)
    texts = st.builds(Text, st.sampled_from(["warm-up", "cool-down"]), lines)
    notes = st.lists(st.builds(Text, st.just("note"), lines), max_size=1) if named else st.just([])
    blocks: list[LiftBlock | PieceBlock | Text] = []
    for _ in range(draw(st.integers(1, 3))):
        above = bool(blocks) and isinstance(blocks[-1], LiftBlock)
        blocks.append(draw(lifts(joined=above and draw(st.booleans())) | pieces() | texts))
    return Session((*draw(notes), *blocks), draw(st.just("") | HEADS) if named else "")


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    days = sorted(draw(st.sets(st.integers(0, 60), min_size=1, max_size=3)))
    style = draw(st.sampled_from(["none", "numbered", "weekdays", "dates"]))
    plain = [draw(sessions(named=style != "none")) for _ in days[: 1 if style == "none" else 3]]
    place = {
        "none": lambda _: {},
        "numbered": lambda day: {"week": day // 7 + 1, "day": day % 7 + 1},
        "weekdays": lambda day: {"week": day // 7 + 1, "weekday": day % 7},
        "dates": lambda day: {"on": date.fromordinal(740_000 + day)},
    }[style]
    dated = tuple(Session(each.items, each.title, **place(day)) for each, day in zip(plain, days, strict=False))
    starts = draw(st.none() | st.dates()) if style in ("none", "numbered") else None
    return Sheet(dated, draw(st.just("") | TITLES), starts, tuple(draw(st.lists(TITLES, max_size=2))))


def test_many_sets_of_few_are_printed_so_that_nothing_is_asked() -> None:
    typed = read("Press, barbell\n18 x 4, rest 6:40")
    assert [ask.key for ask in typed.asks] == ["order of sets and repetitions"]
    printed = print_sheet(typed.sheet)
    assert "18 sets of 4" in printed
    again = read(printed)
    assert again.sheet == typed.sheet
    assert again.asks == ()


def test_one_set_of_a_complex_before_a_max_is_no_part_of_it() -> None:
    printed = print_sheet(read("Front squat + Press, dumbbell\n1 x 2 + 1\nfind a 1RM").sheet)
    assert printed.splitlines() == ["Front squat + Press, dumbbell", "1 x 2 + 1", "find a 1RM"]


@settings(max_examples=150, phases=[Phase.generate], deadline=None)
@given(sheets())
def test_a_printed_sheet_reads_back_to_the_same_sheet_and_asks_nothing(sheet: Sheet) -> None:
    printed = print_sheet(sheet)
    reading = read(printed)
    assert reading.sheet == sheet
    assert print_sheet(reading.sheet) == printed
    assert said_back(reading.sheet) == said_back(sheet)
    assert as_json(sheet)["title"] == sheet.title
    assert [ask for ask in reading.asks if not ask.key.startswith("implement of")] == []


@pytest.mark.parametrize("text", [*CORPUS, *(path.read_text(encoding="utf-8") for path in sorted(TEXTS.glob("*.txt")))])
def test_what_was_typed_prints_and_reads_back_to_the_same(text: str) -> None:
    sheet = parse_sheet(text)
    assert parse_sheet(print_sheet(sheet)) == sheet
