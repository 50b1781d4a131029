"""Levels that stand side by side, each with a way of its own to do the same: in columns, on one line, on lines in a row.

One of them is read, the others stay beside it as the coach's words, and which one it is gets asked: read one after the
other, all of them would be one piece, or the load of the strongest somebody else's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.days.sections import section_heading
from tracker.prescription.sheet.lines.columns import Cells, ways_to_part
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.option_table import option_columns
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.letters import clean, harmless
from tracker.prescription.sheet.words.plain_words import plain

# Words for levels, from what asks the least to what asks the most; common practice. Colours rise as belts and pistes do.
_RISING = (
    r"starters?|beginners?|beg|newbies|new|novices?|easy|easier|light|lighter|low|green|white|bronze|foundations?|anfänger|débutants?|principiantes?|base",
    r"mid|middle|medium|moderate|inter|int|intermediates?|blue|yellow|silver|regulars?|fortgeschrittene|intermédiaires?|intermedios?",
    r"strong|stronger|adv|advanced|hard|harder|heavy|heavier|high|red|gold|comp|competitors?|profis?|confirmés?|avanzados?|performance|elite",
    r"black",
)
_NUMBERED = r"(?:l|lvl|level|stufe|niveau|nivel) ?(?P<n>[1-5])"
_LEVEL = rf"(?:{_NUMBERED}|{'|'.join(_RISING)})"
_TITLE = re.compile(rf"\W*{_LEVEL}\s*(?:\([^()]*\))?\W*", re.IGNORECASE)
_LED = re.compile(rf"\W*(?P<who>{_LEVEL}\s*(?:\([^()]*\))?)\s*[:=]\s*(?P<told>\S.*)", re.IGNORECASE)
_CLOCKS = frozenset({"amrap", "emom", "rft", "fortime", "every", "tabata"})
_OF_ALL = re.compile(r"\b(?:everyone|everybody|all|most of you|the class|standard|alle|tous|todos)\b", re.IGNORECASE)
_SETS = re.compile(r"\d ?[x×*] ?\d|\b\d+ sets\b", re.IGNORECASE)
_NAME_FIRST = re.compile(r"(?P<name>[^\d]{3,}?)[\s:,-]+(?P<told>\d.*)")
_WORK = re.compile(rf"{_SETS.pattern}|%|\b(?:amrap|e\d?mom|e\d{{2,3}}s)\b", re.IGNORECASE)
_COUNTED = re.compile(r"(?P<n>\d{1,4}(?: ?(?:m|cals?|s))?)(?P<what>(?: [^\W\d_][\w-]*)*)(?P<rest>(?: ?@?[\d/].*)?)")


def levels_apart(lines: list[Line], asker: Asker) -> list[Line]:
    """Return the lines with one of the levels that stand side by side, and the others as words behind it."""
    found: list[Line] = []
    place = 0
    while place < len(lines):
        made = _table(lines, place, asker) or _in_a_row(lines, place, asker)
        if made is not None:
            more, place = made
            found += more
            continue
        found += [each for line in _on_one_line(lines[place], asker) for each in _in_passing(line, asker)]
        place += 1
    return found


def is_level(title: str) -> bool:
    """Whether the title of a column says for which level it is."""
    return _TITLE.fullmatch(title) is not None


def _rank(title: str) -> int:
    plainly = re.sub(r"\([^()]*\)", "", title).strip(" :*_-").lower()
    if found := re.fullmatch(_NUMBERED, plainly):
        return int(found["n"])
    return next((rank for rank, words in enumerate(_RISING) if re.fullmatch(words, plainly)), 0)


def _taken(titles: Sequence[str], line: Line, asker: Asker) -> int:
    """Which of the levels is read: the one that is said to be everybody's, else the answered one, else the easiest, asked."""
    if (of_all := next((place for place, title in enumerate(titles) if _OF_ALL.search(title)), -1)) >= 0:
        return of_all
    words = [" ".join(title.split()).strip(" :*_-").lower() for title in titles]
    order = sorted(range(len(words)), key=lambda place: _rank(words[place]))
    code = asker.choose(
        f"level of {', '.join(words)}",
        line.number,
        harmless(line.raw).strip(),
        "Levels stand side by side: which one is read for all?",
        tuple(Choice(words[place], f"{words[place]}; the others stay as words") for place in order),
    )
    return words.index(code)


def _words(line: Line, title: str, told: str) -> Line:
    return replace(line, text=f"{title.strip(' :*_')}: {told}", words=True, cell=True)


def _named(text: str) -> bool:
    return any(token.kind == "name" for token in tokens_of(plain(text)))


def _cell(first: str, cell: str) -> str:
    """Put the first column of a row before the cell that is read: a part of the session, a clock, the movement."""
    if not first:
        return cell
    kinds = {token.kind for token in tokens_of(plain(first))}
    if section_heading(f"{first}:") or kinds & _CLOCKS:
        return f"{first}: {cell}"
    if not _named(first):
        return cell if _named(cell) else f"{first}: {cell}"
    if _SETS.search(cell):
        return cell if _named(cell) else f"{first}: {cell}"
    counted = _COUNTED.fullmatch(cell)
    if counted is None or (_named(counted["what"]) and not _named(f"{counted['what']} {first}")):
        return cell
    if _named(counted["what"]) and len(counted["what"].split()) > 1:
        return cell
    longer = f"{counted['what']} {first}".strip().lower()
    whole = [token.value.known for token in tokens_of(plain(longer)) if token.kind == "name"]
    if counted["what"] and not (len(whole) == 1 and whole[0] is not None):
        return cell if _named(cell) else f"{first}: {cell}"
    return f"{counted['n']} {longer}{counted['rest']}"


def _strokes(text: str) -> list[str]:
    return [cell.strip() for cell in text.split(" / ")]


def _table(lines: list[Line], place: int, asker: Asker) -> tuple[list[Line], int] | None:
    """Read a table with a column for each level, below a row of their names."""
    head = lines[place]
    if not head.raw.strip() or option_columns(head.raw) is not None:
        return None
    for cells in (*ways_to_part(head.raw), _strokes):
        titles = [re.sub(r"[*_`]", "", each).strip() for each in cells(head.raw)]
        levels = [at for at, title in enumerate(titles) if title and is_level(title)]
        if len(levels) < 2 or levels != list(range(len(titles) - len(levels), len(titles))) or levels[0] > 1:
            continue
        if made := _rows(lines, place, cells, titles, levels, asker):
            return made
    return None


def _rows(
    lines: list[Line], place: int, cells: Cells, titles: list[str], levels: list[int], asker: Asker
) -> tuple[list[Line], int] | None:
    head = lines[place]
    rows: list[tuple[Line, list[str]]] = []
    for line in lines[place + 1 :]:
        if not line.raw.strip():
            break
        rows.append((line, [clean(each).strip() for each in cells(line.raw)]))
    beside = sum(sum(bool(cell.strip(" -–|")) for cell in row[levels[0] :]) > 1 for _, row in rows)
    if not beside or 2 * beside < len(rows):
        return None
    taken = levels[_taken([titles[at] for at in levels], head, asker)]
    first = titles[0] if levels[0] else ""
    found = [replace(head, text=clean(first), cell=False)] if first else [replace(head, text="", head=True)]
    for line, row in rows:
        if not any(sign.isalnum() for sign in line.raw):
            found.append(replace(line, text="", head=True))
            continue
        told = {at: row[at] for at in levels if at < len(row) and row[at].strip(" -–|")}
        lead = row[0] if levels[0] else ""
        if cells is _strokes and not levels[0] and (named := _NAME_FIRST.fullmatch(row[0])):
            lead, told[0] = named["name"], named["told"]  # "Squat 3x8 40 kg / 3x8 60 kg"
        if len(told) < 2:
            found.append(replace(line, text=": ".join(each for each in (lead, *told.values()) if each)))
            continue
        if taken in told:
            found.append(replace(line, text=_cell(lead, told[taken])))
        found += [_words(line, titles[at], told[at]) for at in told if at != taken]
    return found, place + 1 + len(rows)


def _on_one_line(line: Line, asker: Asker) -> list[Line]:
    """Read `starter: 4x6 @ 60 kg | mid: 4x6 @ 80 | strong: 4x5 @ 110`: sets of levels, parted by strokes or semicolons."""
    for sign in ("|", ";", " / "):
        parts = [_LED.fullmatch(part.strip()) for part in line.text.split(sign)]
        if len(parts) < 2 or None in parts:
            continue
        levels = [part for part in parts if part is not None]
        if sum(_SETS.search(part["told"]) is not None for part in levels) < 2:
            continue
        taken = _taken([part["who"] for part in levels], line, asker)
        main = replace(line, text=levels[taken]["told"])
        return [main, *(_words(line, each["who"], each["told"]) for at, each in enumerate(levels) if at != taken)]
    return [line]


def _in_a_row(lines: list[Line], place: int, asker: Asker) -> tuple[list[Line], int] | None:
    """Read lines one below the other that are the session of a level each: `RED (comp): C&J ...`, `BLUE (everyone): ...`."""
    rows: list[tuple[Line, re.Match[str]]] = []
    above = {token.kind for token in tokens_of(plain(lines[place - 1].text))} if place else set[str]()
    headed = bool(above & {*_CLOCKS, "list", "rounds"}) and "name" not in above  # a piece without its movements
    for line in lines[place:]:
        found = _LED.fullmatch(line.text) if line.text.strip() else None
        if found is None or not (_WORK.search(found["told"]) or (headed and _named(found["told"]))):
            break
        rows.append((line, found))
    if len(rows) < 2:
        return None
    taken = _taken([row["who"] for _, row in rows], rows[0][0], asker)
    made = [replace(rows[taken][0], text=rows[taken][1]["told"])]
    made += [_words(line, row["who"], row["told"]) for at, (line, row) in enumerate(rows) if at != taken]
    return made, place + len(rows)


# Levels in passing, on a line of sets: "5x5: beginners 60 kg, advanced 100 kg", "newbies 3x8, everyone else 5x5 @ 75 %"
_WHO = re.compile(
    r"(?:^|(?<=[,;:(!.-])\s*|\s[–-]\s+|[,;]?\s+and\s+|\s(?=L[1-5]\b))(?:for )?(?:the )?(?P<who>beginners?|newbies|newcomers|novices|new (?:ones|people)|intermediates?|advanced|l[1-5]|level [1-5]|(?:deload|injured|masters?|teens?|kids|older|younger|comp(?:etition)?|new(?:er)?) (?:people|folks|crew|group|athletes|lifters|members)|everyone(?: else)?|everybody(?: else)?|all others|the others|the rest)(?=\s*[:=]?\s+[^\d,;.]{0,24}\d)\s*[:=]?\s*",
    re.IGNORECASE,
)
_REST_OF_ALL = re.compile(r"every|others|the rest", re.IGNORECASE)
_CHANGES = re.compile(r"(?:can |may |should )?(?:add|use|take|drop|go|stay|do|hold|keep|cut)\b", re.IGNORECASE)
_LOAD = re.compile(r"\d ?(?:%|kg|lb)|@ ?\d|\d ?x ?\d", re.IGNORECASE)


def _in_passing(line: Line, asker: Asker) -> list[Line]:
    """Read the sets of one level where a line of sets names several; what some change is words."""
    starts = list(_WHO.finditer(line.text)) if _SETS.search(line.text) and not line.words else []
    if not starts or {token.kind for token in tokens_of(plain(line.text))} & _CLOCKS:
        return [line]
    head = line.text[: starts[0].start()].rstrip(" ,;-–")
    ends = [each.start() for each in starts[1:]] + [len(line.text)]
    told = [(each["who"], line.text[each.end() : end].strip(" ,;)-–")) for each, end in zip(starts, ends, strict=True)]
    if not all(_LOAD.search(words) for _, words in told):
        return [line]
    of_head = _SETS.search(head) is not None
    rest = next((place for place, (who, _) in enumerate(told) if _REST_OF_ALL.search(who)), -1)
    if of_head and (len(told) == 1 or all(_CHANGES.match(words) for _, words in told)):
        return [replace(line, text=head.rstrip(":")), *(_words(line, *each) for each in told)]
    if len(told) == 1 and rest < 0:
        return [line]
    taken = rest if rest >= 0 else _taken([who for who, _ in told], line, asker)
    main = replace(line, text=f"{head.rstrip(':') if of_head else head} {told[taken][1]}".strip())
    return [main, *(_words(line, *each) for place, each in enumerate(told) if place != taken)]
