"""Five invented layouts of tables of sets; none is any program's."""

from __future__ import annotations

import io
from datetime import date, timedelta

FIRST = date(2026, 3, 2)
LIFTS = ("front squat", "strict press", "deadlift")


def rows():
    """Yield twenty-four sets: day, lift, kilograms, repetitions."""
    for number in range(24):
        yield FIRST + timedelta(days=number // 3 * 2), LIFTS[number % 3], 40 + 2.5 * (number % 9), 3 + number % 4


def comma() -> bytes:
    """Commas, ISO dates, kg in the heading, a counter of sets that is not the repetitions."""
    lines = ["Set no,When,Movement,Weight (kg),Done,Remarks"]
    lines += [
        f'{at % 3 + 1},{day},{lift},{kg:g},{reps},"felt ok, {at}"' for at, (day, lift, kg, reps) in enumerate(rows())
    ]
    return "\n".join(lines).encode()


def semicolons() -> bytes:
    """Semicolons, decimal commas, days first with points, a byte order mark; the unit stands in every cell."""
    lines = ["Tag;Uebung;Last;Wdh"]
    lines += [
        f"{day:%d.%m.%Y};{lift};{kg:.1f} kg;{reps}".replace(".5 kg", ",5 kg").replace(".0 kg", ",0 kg")
        for day, lift, kg, reps in rows()
    ]
    return b"\xef\xbb\xbf" + "\r\n".join(lines).encode()


def tabs() -> bytes:
    """Tabs, UTF-16 with its mark, months first with slashes, pounds and kilograms by row."""
    lines = ["what\thow heavy\tin\thow often\ton"]
    lines += [
        f"{lift}\t{kg:g}\t{'lbs' if at % 2 else 'kg'}\t{reps}\t{day:%m/%d/%Y}"
        for at, (day, lift, kg, reps) in enumerate(rows())
    ]
    return "\n".join(lines).encode("utf-16")


def titled() -> bytes:
    """A title above the heading, month names, one row for several equal sets, pounds said nowhere."""
    lines = ["Log of the winter,,,,", "", "Day,Lift name,Sets of it,Each,Plates and bar"]
    lines += [
        f"{day.day} {day:%b} {day.year},{lift},{at % 2 + 1},{reps},{kg * 2:g}"
        for at, (day, lift, kg, reps) in enumerate(rows())
    ]
    return "\n".join(lines).encode()


def workbook() -> bytes:
    """An xlsx with real dates and numbers, on the second of two sheets."""
    from openpyxl import Workbook

    book = Workbook()
    book.active.title = "About"
    book.active["A1"] = "nothing here"
    sheet = book.create_sheet("Everything lifted")
    sheet.append(["Body part", "Lift", "kg", "Reps", "On"])
    for day, lift, kg, reps in rows():
        sheet.append(["legs" if "squat" in lift else "rest", lift, kg, reps, day])
    into = io.BytesIO()
    book.save(into)
    return into.getvalue()
