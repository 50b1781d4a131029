"""Reads a coach's sheet as it is typed: what was understood, what can be read in two ways, and what became of each line."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import lru_cache
from itertools import pairwise
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.clock_ways import as_piece, lift_on_clock
from tracker.prescription.sheet.days.dates import full_date
from tracker.prescription.sheet.days.in_order import in_order, near
from tracker.prescription.sheet.days.parts_of_day import is_later, with_part
from tracker.prescription.sheet.days.weekdays import any_weekday, day_of_sentence
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import KEYS
from tracker.prescription.sheet.lines.tables import lines_of
from tracker.prescription.sheet.model import Item, Session, Sheet, Text
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.problems import Problem, SheetErrors
from tracker.prescription.sheet.understood import LineRead, Reading
from tracker.prescription.sheet.walk.drafts import Defaults, LiftDraft, SessionDraft, TextDraft
from tracker.prescription.sheet.walk.unread_work import ask_of_movements, ask_of_words
from tracker.prescription.sheet.walk.walker import Walker
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.usual_loads import (
    ALL_UNIT,
    LOAD_BEFORE_REPS,
    NAMES_A_MAX,
    NAMES_UNIT,
    SETS_IN_MASS,
    usual_unit,
)
from tracker.prescription.sheet.written.accounts import ask_of_numbers


def read(text: str, *, name: str = "", answers: Mapping[str, str] | None = None, today: date | None = None) -> Reading:
    """Read a sheet: see `read` of the room."""
    if not any(sign.isalnum() for sign in text):
        raise SheetErrors(
            (
                Problem(
                    1, 1, "There is nothing in it.", "a session as it is typed in a message", "Back squat 5x5 @ 75 %"
                ),
            ),
            name,
        )
    return _read(text, tuple(sorted((answers or {}).items())), today)


@lru_cache(maxsize=64)
def _read(text: str, answers: tuple[tuple[str, str], ...], today: date | None) -> Reading:
    asker = Asker(dict(answers))
    lines = lines_of(text, asker)
    typed = {line.number: harmless(line.raw) for line in lines}
    defaults = Defaults(unit=usual_unit(text), units=NAMES_UNIT.search(text) is not None, typed=typed)
    if said := ALL_UNIT.search(text):
        defaults.unit = "lb" if (said["u"] or said["v"])[0].lower() in "lp" else "kg"
        defaults.all_mass = not re.search(r"%|per ?cent", text, re.IGNORECASE)
    walker = Walker(lines, asker, defaults)
    lower = text.lower()
    walker.percent_near = (
        NAMES_A_MAX.search(lower) is not None or "%" in text or "percent" in lower or "per cent" in lower
    )
    walker.row_of_loads = len(LOAD_BEFORE_REPS.findall(lower)) > 2
    walker.mass_near = SETS_IN_MASS.search(lower) is not None
    walker.run()
    ask_of_words(walker, lines, asker)
    drafts = list(walker.sessions)
    for draft in drafts:
        draft.items = [_words_only(item) for item in draft.items if not isinstance(item, TextDraft) or item.lines]
        _easy_first(draft)
        walker.clocks_above(draft.items)
    for lift in (item for draft in drafts for item in draft.items if isinstance(item, LiftDraft)):
        lift.settle_reference()
    _maxes_told(drafts)
    drafts = _hoist(walker, drafts)
    _day_said(drafts, lines)
    made: list[tuple[Session, dict[int, int]]] = []
    for draft in _parts_named(_weeks_apart(drafts)):
        made.append(_session(draft, asker, defaults, today))
    sessions = in_order([session for session, _ in made])
    printed = {
        typed
        for draft in drafts
        for item in draft.items
        if (isinstance(item, LiftDraft) and item.strict)
        or (isinstance(item, PieceDraft) and (item.printed or item.explicit))
        for typed in item.text
    }
    ask_of_numbers([line for line in lines if line.raw.rstrip() not in printed], sessions, asker)
    notes = list(walker.notes)
    if not sessions:  # words alone
        words = notes or [harmless(line.raw).strip() for line in lines if line.raw.strip()]
        sessions, notes = [Session((Text("note", tuple(words), 1),), line=1)], []
    sheet = Sheet(tuple(sessions), walker.title, walker.starts, tuple(notes))
    return Reading(
        sheet,
        tuple(
            sorted(
                (replace(ask, lines=tuple(sorted(ask.lines))) for ask in asker.asks.values()), key=lambda ask: ask.line
            )
        ),
        _lines(walker, lines, made),
        dict(asker.answered),
    )


def _words_only(item: LiftDraft | PieceDraft | TextDraft) -> LiftDraft | PieceDraft | TextDraft:
    """A lift's name that never got sets is a note."""
    if isinstance(item, LiftDraft) and item.empty and not item.strict and not item.alternatives:
        return TextDraft("note", item.line, [harmless(each).strip() for each in item.text if each.strip()])
    empty = isinstance(item, PieceDraft) and not item.moves and (item.named or not item.explicit)
    if isinstance(item, PieceDraft) and empty and set(item.fields) <= (set() if item.named else {"kind", "work_s"}):
        return TextDraft("note", item.line, [harmless(each).strip() for each in item.text if each.strip()])
    return item


_EASY = re.compile(
    r"\W*\d{1,2} ?(?:x|rounds?|rds?|rnds?)(?: of)?[ ,:(-]*(?:nice and |very |all |super )?(?:easy|light|relaxed|gentle|slow|loose)\W*",
    re.IGNORECASE,
)


def _easy_first(draft: SessionDraft) -> None:
    """`2 rounds easy` above the movements that come before all work are a warm-up, though nobody calls them so."""
    place = next((at for at, item in enumerate(draft.items) if not isinstance(item, TextDraft)), None)
    first = None if place is None else draft.items[place]
    if (
        place is not None
        and isinstance(first, PieceDraft)
        and set(first.fields) <= {"rounds"}
        and first.moves
        and not first.title
        and first.text
        and _EASY.fullmatch(first.text[0])
        and not any(move.load for move in first.moves)
        and any(
            isinstance(item, LiftDraft) or item.fields
            for item in draft.items[place + 1 :]
            if not isinstance(item, TextDraft)
        )
    ):
        lines = [harmless(each).strip() for each in first.text if each.strip()]
        draft.items[place] = TextDraft("warm-up", first.line, lines)


def _hoist(walker: Walker, drafts: list[SessionDraft]) -> list[SessionDraft]:
    """Notes above the first lift or piece of a sheet without a day are notes of the sheet; a weekday in its title is the day's."""
    if not drafts or drafts[0].headed:
        return drafts
    first = drafts[0]
    count = 0
    for item in first.items:
        if not (isinstance(item, TextDraft) and item.kind == "note"):
            break
        count += 1
    notes = [item for item in first.items[:count] if isinstance(item, TextDraft)]
    weekday = day_of_sentence(notes[0].lines[0]) if notes and notes[0].lines and len(notes[0].lines[0]) <= 60 else None
    on = full_date(notes[0].lines[0]) if weekday is not None and len(drafts) == 1 else None
    if on is not None and first.on is None:  # "Thursday engine 2026-11-27": the date says the day
        first.on, weekday = on, None
    walker.notes += [line for item in notes for line in item.lines]
    first.items = first.items[count:]
    found = drafts if first.items else drafts[1:]
    for draft in found:
        if (
            draft.weekday is None
            and draft.day is None
            and draft.on is None
            and draft.month_day is None
            and (not draft.headed or draft.week is not None)
        ):
            draft.weekday = weekday
    if first.items:
        first.line = first.items[0].line
    return found


_SETS_BEGIN = re.compile(r"\d ?[x×*] ?\d|%|@|\bsets?\b|\be\d?mom\b|\bamrap\b", re.IGNORECASE)


def _day_said(drafts: list[SessionDraft], lines: list[Line]) -> None:
    """The weekday that the words above the first item of the only session name, or those before its first number."""
    if len(drafts) != 1 or not drafts[0].items:
        return
    draft = drafts[0]
    if (
        draft.weekday is not None
        or draft.day is not None
        or draft.on is not None
        or draft.month_day is not None
        or draft.week is not None
    ):
        return
    first = next((item.line for item in draft.items if not (isinstance(item, TextDraft) and item.kind == "note")), 0)
    above = [line.text for line in lines if line.number < first and line.text.strip() and not KEYS.match(line.text)][:4]
    dates = {on for text in above if (on := full_date(text)) is not None}
    if len(dates) == 1:
        draft.on = dates.pop()
        return
    own = next((line.text for line in lines if line.number == first), "")
    words = re.split(r"\d", own, maxsplit=1)[0][:160]
    own = words if day_of_sentence(words) is not None else re.split(_SETS_BEGIN, own, maxsplit=1)[0][:60]
    words = "\n".join([*above, own]).strip()
    draft.weekday = day_of_sentence(words[:1].upper() + words[1:])


def _parts_named(drafts: list[SessionDraft]) -> list[SessionDraft]:
    """Let sessions that share a day bear the part of it in their titles; another day's stay as they are."""
    for before, now in pairwise(drafts):
        dated = before.on is not None and before.on == now.on  # the weekday may stand before one of the two dates alone
        same = dated or (before.on, before.month_day, before.weekday) == (now.on, now.month_day, now.weekday)
        if (
            same
            and now.week in (None, before.week)
            and now.day in (None, before.day)
            and is_later(now.part, before.part)
        ):
            before.title, now.title = with_part(before.part, before.title), with_part(now.part, now.title)
    return drafts


def _weeks_apart(drafts: list[SessionDraft]) -> list[SessionDraft]:
    """`Week 1: ...`, `Week 2: ...` under one lift are sessions of their own."""
    found: list[SessionDraft] = []
    for draft in drafts:
        lifts = [item for item in draft.items if isinstance(item, LiftDraft) and item.weeks]
        if not lifts:
            found.append(draft)
            continue
        weeks = sorted({week for lift in lifts for week in lift.weeks})
        for place, week in enumerate(weeks):
            items: list[Any] = []
            for item in draft.items:
                if isinstance(item, LiftDraft) and item in lifts:
                    if week in item.weeks:
                        items.append(
                            replace(item, groups=[*(item.groups if place == 0 else []), *item.weeks[week]], weeks={})
                        )
                elif place == 0:
                    items.append(item)
            weekday = (
                draft.weekday
                if draft.weekday is not None
                else any_weekday(" ".join(each for lift in lifts for each in lift.text[:1]))
            )
            found.append(replace(draft, week=week, items=items, title=draft.title, headed=True, weekday=weekday))
    return found


def _maxes_told(drafts: list[SessionDraft]) -> None:
    """Let what a day says its percentages are of hold for its lifts."""
    for draft in drafts:
        for lift in (item for item in draft.items if isinstance(item, LiftDraft)):
            lift.day_of = draft.of


def _on_clocks(items: list[LiftDraft | PieceDraft | TextDraft], asker: Asker, defaults: Defaults) -> list[Any]:
    """Let strength on a clock be sets of a lift or a piece, as was answered; loads in kilograms are asked here."""
    found: list[Any] = []
    apart = [each.one_by_one() if isinstance(each, PieceDraft) else [each] for each in items]
    for item in [each for parts in apart for each in parts]:
        if isinstance(item, PieceDraft) and (lift := lift_on_clock(item)) is not None:
            typed = defaults.typed.get(item.line, "").strip()
            choices = (Choice("piece", "a piece on the clock"), Choice("lift", "sets of a lift"))
            found.append(
                lift
                if asker.choose("loads on a clock", item.line, typed, "Sets of a lift, or a piece?", choices) == "lift"
                else item
            )
        elif (
            isinstance(item, LiftDraft)
            and item.every_s
            and asker.answers.get("strength on a clock") == "piece"
            and (piece := as_piece(item)) is not None
        ):
            found.append(piece)
        else:
            found.append(item)
    return found


def _session(
    draft: SessionDraft, asker: Asker, defaults: Defaults, today: date | None
) -> tuple[Session, dict[int, int]]:
    items: list[Item] = []
    places: dict[int, int] = {}
    for item in _on_clocks(draft.items, asker, defaults):
        if isinstance(item, LiftDraft):
            made: Item = item.record(asker, defaults)
        elif isinstance(item, PieceDraft):
            made = item.record(asker)
            ask_of_movements(item, made, asker, defaults.typed.get(item.line, "").strip())
        else:
            made = item.record()
        places[id(item)] = len(items)
        items.append(made)
    on = draft.on
    if on is None and draft.month_day is not None and today is not None:
        on = near(draft.month_day, today)
    month_day = f"{draft.month_day[1]} {_MONTHS[draft.month_day[0] - 1]}" if draft.month_day and on is None else ""
    title = draft.title or ""
    if month_day and month_day not in title:
        title = f"{title} ({month_day})".strip() if title else month_day
    if on is not None:
        return Session(tuple(items), title, None, None, None, on, draft.line), places
    return Session(tuple(items), title, draft.week, draft.day, draft.weekday, None, draft.line), places


_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def _lines(walker: Walker, lines: list[Line], made: list[tuple[Session, dict[int, int]]]) -> tuple[LineRead, ...]:
    where: dict[int, tuple[int, int]] = {}
    for session, places in enumerate(places for kept, places in made if kept.items):
        for key, item in places.items():
            where[key] = (session, item)
    found: list[LineRead] = []
    seen: set[int] = set()
    for line in lines:
        if line.number in seen:
            continue
        seen.add(line.number)
        roles = walker.roles.get(line.number) or [("note", None)]
        role, item = roles[0]
        if role == "warm-up":  # a speaker's line may go on to the work
            role, item = next((each for each in roles if each[0] in ("lift", "sets", "piece")), roles[0])
        place = where.get(id(item), (-1, -1)) if item is not None else (-1, -1)
        found.append(LineRead(line.number, harmless(line.raw), role, *place))
    return tuple(sorted(found, key=lambda each: each.number))  # a level that is read may stand below others
