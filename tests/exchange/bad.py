"""Two hundred files that must be refused, a hundred written by hand as (name, bytes), a hundred damaged by chance.

Each is a good table with one thing wrong; what is right in it must not be taken either.
"""

from __future__ import annotations

import io
import random
import zipfile

SEED = 20261125
HEADING = "date,lift,load,unit,reps,rir,outcome,kind,body mass,order,note"
GOOD = "2026-03-02,back squat,80,kg,5,2,done,work,,1,fine"


def table(*rows: str, heading: str = HEADING) -> bytes:
    return "\n".join((heading, *rows)).encode()


def with_cell(at: int, text: str) -> bytes:
    """A good row, and below it one with another text in one cell."""
    cells = GOOD.split(",")
    cells[at] = text
    return table(GOOD, ",".join(cells), GOOD)


# What can't stand in a cell, by the number of its column.
CELLS: dict[int, tuple[str, ...]] = {
    0: (
        "", "yesterday", "2026-02-30", "2026-13-01", "2026-00-10", "0026-03-02", "1949-12-31", "2099-01-01", "2026-03", "20260302", "2026-3-2-1",
        "1e3", "٢٠٢٦-٠٣-٠٢", "2026-03-02 25h", "2027-01-01",
    ),
    1: ("", "   ", "x" * 201, "a\u202eb", "a\u0007b", "\u2028"),
    2: (
        "", "heavy", "nan", "inf", "-inf", "1e2", "0", "-5", "1000.5", "99999", "80 kg x", "8O", "80..5", "80,5,5", "0x50", "８０", "5x5", "1/2", "--80",
        "1" * 40, "80 stone", "80-90",
    ),
    3: ("", "stone", "g", "kgg", "kg lb", "1", "lbz", "КГ"),
    4: ("", "five", "5.5", "-1", "201", "0", "1e1", "5-6", "5+", "٥", "99999999999", "5 5", "nan"),
    5: ("-1", "2.25", "101", "two", "nan", "2-3", "RPE 8"),
    6: ("yes", "failed", "1", "done!", "missed?"),
    7: ("warmup", "amrap", "x", "work work"),
    8: ("10", "400", "-80", "heavy", "nan"),
    9: ("first", "-1", "1.5", "99999999"),
    10: ("x" * 2001, "bell \u0007"),
}  # fmt: skip


def _packed(**parts: str) -> bytes:
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w") as box:
        for name, text in parts.items():
            box.writestr(name, text)
    return into.getvalue()


WHOLE: dict[str, bytes] = {
    "nothing": b"",
    "blank lines": b"\n\n \n",
    "one word": b"hello",
    "prose": b"Today I lifted a lot, and then I went home.\nIt was good.\n",
    "only a title": b"My training\nof last year\n",
    "no load": table("2026-03-02,back squat,5,kg", heading="date,lift,reps,unit"),
    "a cell too many": table(GOOD, GOOD + ",more"),
    "an open quote": table(GOOD, '2026-03-02,"back squat,80,kg,5,2,done,work,,1,x'),
    "a quote in the middle": table(GOOD, '2026-03-02,"back" squat,80,kg,5,2,done,work,,1,x'),
    "bytes that are no text": table(GOOD) + b"\n\xff\xfe\x00\x01",
    "Western letters of one byte": table(GOOD.replace("fine", "schön")).decode().encode("latin-1"),
    "UTF-32": table(GOOD).decode().encode("utf-32"),
    "half of UTF-16": table(GOOD).decode().encode("utf-16")[:-1] + b"\xd8",
    "UTF-16 with a lone half sign": b"\xff\xfe" + table(GOOD).decode().encode("utf-16-le") + b"\x00\xd8x\x00",
    "zeros": b"\x00" * 5000,
    "control characters": table(GOOD.replace("fine", "\x1b[31mred")),
    "a picture": b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 8,
    "an old workbook": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 4000,
    "a packed file that is no workbook": _packed(readme="hello"),
    "a cut workbook": b"PK\x03\x04" + b"\x00" * 60,
    "a workbook without its sheets": _packed(**{"[Content_Types].xml": "<Types/>", "xl/workbook.xml": "<workbook/>"}),
    "markup": b"<html><body><table><tr><td>80</td></tr></table></body></html>",
    "a JSON list": b'[{"date": "2026-03-02", "lift": "squat", "load": 80, "reps": 5}]',
    "an SQLite file": b"SQLite format 3\x00" + b"\x00" * 4000,
    "two dates that can't both be": table("13/02/2026,squat,80,kg,5,,,,,,", "02/13/2026,squat,80,kg,5,,,,,,"),
}  # fmt: skip


def by_hand() -> list[tuple[str, bytes]]:
    """Return the files that were thought of."""
    cells = [(f"column {at + 1}: {text[:20]!a}", with_cell(at, text)) for at, texts in CELLS.items() for text in texts]
    return [*WHOLE.items(), *cells]


def by_chance(number: int) -> list[tuple[str, bytes]]:
    """Return good tables of thirty rows in which one needed cell was damaged, in several separators and encodings."""
    chance = random.Random(SEED)
    made = []
    for at in range(number):
        separator = chance.choice(",;\t")
        rows = [[f"2026-03-{chance.randrange(1, 29):02d}", chance.choice(("squat", "press")), str(chance.randrange(40, 200)), "kg", str(chance.randrange(1, 9))] for _ in range(30)]  # fmt: skip
        row, column = chance.randrange(3, 30), chance.choice((0, 2, 3, 4))
        rows[row][column] = _damaged(rows[row][column], chance)
        lines = [separator.join(("date", "lift", "load", "unit", "reps")), *(separator.join(cells) for cells in rows)]
        encoding = chance.choice(("utf-8", "utf-8-sig", "utf-16"))
        made.append(
            (f"{at}: row {row + 2}, column {column + 1}, {rows[row][column]!a}", "\n".join(lines).encode(encoding))
        )
    return made


def _damaged(text: str, chance: random.Random) -> str:
    """Put a letter or sign into a cell, where none can be."""
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice("xyz?!#=*~ö") + text[at:]
