"""A printed sheet reads back to the same sheet, whatever it says."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tracker.conditioning.piece_record import piece_from
from tracker.prescription.sheet import as_json, parse_sheet, print_sheet, said_back
from tracker.prescription.sheet.lines import line_of
from tracker.prescription.sheet.model import (
    IMPLEMENTS,
    Alternative,
    FindMax,
    InReserve,
    LiftBlock,
    Of,
    Percent,
    Reps,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Count, Movement, Piece, piece_record
from tracker.prescription.sheet.slips import looks_like_sets
from tracker.units import Mass  # fmt: skip

NAMES = st.sampled_from(
    ["front squat", "Press", "bent-over row", "farmer's carry", "V-up", "Überzug", "step up and over", "hang power clean",
     "Rest pause press", "find balance", "row", "tempo squat", "barbell row", "superset press"]
)  # fmt: skip
WORDS = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"], include_characters=" ,:;@%+-#()x0123456789"), min_size=1, max_size=30
).map(str.strip)  # fmt: skip
TITLES = WORDS.filter(bool)
REMARKS = TITLES.filter(lambda words: not set("()") & set(words) and not _cut(words))
SECONDS = st.integers(1, 24 * 3600)
TEMPOS = st.sampled_from(["", "3-1-1-0", "2-0-X-0", "X-X-X-X"])
MASSES = st.builds(Mass, st.sampled_from(["60", "0.5", "92.5", "999"]).map(Decimal), st.sampled_from(["kg", "lb"]))
HALVES = st.integers(2, 20).map(lambda twice: Decimal(twice) / 2)
OFS = st.builds(Of, st.integers(1, 30), st.just("") | NAMES)


def _cut(words: str) -> bool:
    """Whether a remark would be cut by one of the coach's own comments."""
    return line_of(1, f"3 x 5 ({words})").text != f"3 x 5 ({words})"


def _free(words: str) -> bool:
    """Whether a line under a text stays a part of it."""
    line = line_of(1, words)
    return line.kind == "" and not (looks_like_sets(line.text) and "@" in line.text)


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
    rest, note = draw(st.none() | SECONDS), draw(st.just("") | REMARKS)
    if draw(st.integers(0, 5)) == 0:
        return FindMax(draw(st.integers(1, 30)), draw(st.none() | SECONDS), rest, note)
    out = parts == 1 and draw(st.booleans())
    percents = st.builds(
        Percent, st.integers(1, 400).map(lambda half: Decimal(half) / 2), OFS if of is None else OFS | st.none()
    )
    load = draw(st.none() | percents | st.builds(Rpe, HALVES) | st.builds(InReserve, HALVES) | MASSES)
    return SetGroup(1 if out else draw(st.integers(1, 50)), draw(reps(parts, out=out)), load, rest, draw(TEMPOS), note)


@st.composite
def lifts(draw: st.DrawFn, *, joined: bool) -> LiftBlock:
    names = tuple(draw(st.lists(NAMES, min_size=1, max_size=3)))
    of = draw(st.none() | OFS)
    sets = tuple(draw(st.lists(groups(len(names), of), min_size=1, max_size=3)))
    own = st.builds(
        Alternative,
        st.sampled_from(IMPLEMENTS),
        st.just("own"),
        st.just("") | NAMES,
        st.lists(groups(len(names), of), min_size=1, max_size=2).map(tuple),
    )
    ruled = st.builds(
        Alternative, st.sampled_from(IMPLEMENTS), st.sampled_from(["doubled", "same"]), st.just("") | NAMES
    )
    return LiftBlock(
        names, draw(st.sampled_from(IMPLEMENTS)), of, draw(st.booleans()), draw(st.none() | SECONDS), draw(TEMPOS), sets,
        tuple(draw(st.lists(own | ruled, max_size=2))), tuple(draw(st.lists(TITLES, max_size=2))), joined,
    )  # fmt: skip


@st.composite
def movements(draw: st.DrawFn, counts: st.SearchStrategy[Count] | None, *, options: bool = True) -> Movement:
    count = draw(counts) if counts is not None else None
    measure = (
        draw(st.sampled_from(["reps", "cal", "m", "s"])) if count and not count.listed and not count.step else "reps"
    )
    load = draw(st.none() | MASSES)
    return Movement(
        draw(NAMES), count, measure, load, draw(st.sampled_from(["", "kettlebell", "ball"])) if load else "",
        draw(st.integers(1, 2)) if load else 1, draw(st.booleans()), draw(st.none() | st.just(Decimal("50.5"))),
        draw(st.none() | st.just(Decimal(300))), draw(st.sampled_from(["", "green band"])), draw(st.sampled_from(["", "to eye height", "strict, slow"])),
        tuple(draw(st.lists(movements(None, options=False), max_size=2))) if options else (),
    )  # fmt: skip


@st.composite
def pieces(draw: st.DrawFn) -> Piece:
    kind = draw(
        st.sampled_from(
            [
                "as many as possible",
                "for time",
                "every minute",
                "work and rest",
                "distance",
                "calories",
                "heaviest",
                "unscored",
            ]
        )
    )
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
    return Piece(
        draw(TITLES), kind, tuple(draw(st.lists(movements(None if scheme or one else counts), min_size=1, max_size=1 if one else 3))), scheme,
        None if counts is listed or one else draw(st.none() | st.integers(1, 20)),
        draw(SECONDS) if timed else draw(st.none() | SECONDS) if kind in ("for time", "unscored") else None,
        draw(SECONDS) if intervals else None, draw(SECONDS) if kind == "work and rest" else 0,
        draw(st.integers(1, 99)) if intervals else None, draw(st.booleans()), draw(st.sampled_from(["total", "lowest", "completed"])),
        draw(st.just("") | NAMES), draw(st.integers(1, 4)), draw(st.sampled_from(["", "indoors", "outdoors"])),
        tuple(draw(st.lists(TITLES, max_size=2))),
    )  # fmt: skip


@st.composite
def sessions(draw: st.DrawFn, *, named: bool) -> Session:
    """One session, its day still to be given: notes of a session stand before its lifts and pieces."""
    texts = st.builds(
        Text, st.sampled_from(["warm-up", "cool-down"]), st.tuples(TITLES, TITLES.filter(_free)) | st.tuples(TITLES)
    )
    notes = st.lists(st.builds(Text, st.just("note"), st.tuples(TITLES)), max_size=2) if named else st.just([])
    blocks: list[LiftBlock | Piece | Text] = []
    for _ in range(draw(st.integers(1, 3))):
        above = bool(blocks) and isinstance(blocks[-1], LiftBlock)
        blocks.append(draw(lifts(joined=above and draw(st.booleans())) | pieces() | texts))
    return Session((*draw(notes), *blocks), draw(st.just("") | TITLES) if named else "")


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


@settings(max_examples=150, phases=[Phase.generate])
@given(sheets())
def test_a_printed_sheet_reads_back_to_the_same_sheet(sheet: Sheet) -> None:
    printed = print_sheet(sheet)
    again = parse_sheet(printed)
    assert again == sheet
    assert print_sheet(again) == printed
    assert said_back(again) == said_back(sheet)
    assert as_json(sheet)["title"] == sheet.title


@settings(max_examples=100)
@given(pieces())
def test_every_piece_of_a_sheet_is_one_that_can_be_scored(piece: Piece) -> None:
    scored = piece_from(piece_record(piece))
    assert (scored.title, scored.kind, len(scored.tasks)) == (piece.title, piece.kind, len(piece.movements))
    assert scored.rounds == (piece.rounds or (1 if piece_record(piece).get("rounds") == 1 else None))
