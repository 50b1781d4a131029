"""Files that are small and cost much to read, each made by a function; written by the tests, read in a process of its own."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Callable, Iterable
from functools import cache
from itertools import chain, repeat

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
HEAD = '<row r="1"><c r="A1" t="str"><v>date</v></c><c r="B1" t="str"><v>lift</v></c><c r="C1" t="str"><v>load</v></c></row>'
SHEET = f'<worksheet xmlns="{MAIN}"><sheetData>'
END = "</sheetData></worksheet>"
MB = 1024**2
UNPACKED_MB = 400  # more than a reader may take; a thousand show no more and take longer to pack


def package(
    sheets: Iterable[Iterable[str] | str], *, texts: Iterable[str] = (), styles: Iterable[str] = (),
    packing: int = zipfile.ZIP_DEFLATED,
) -> bytes:  # fmt: skip
    """Pack the smallest workbook that has these sheets; a part is written piece by piece."""
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w", packing) as packed:

        def put(name: str, pieces: Iterable[str] | str) -> None:
            with packed.open(name, "w") as part:
                for piece in [pieces] if isinstance(pieces, str) else pieces:
                    part.write(piece.encode())

        names = []
        for at, sheet in enumerate(sheets, 1):
            names.append(f"sheet{at}")
            put(f"xl/worksheets/sheet{at}.xml", sheet)
        kinds = [(name, "worksheet", f"worksheets/{name}.xml") for name in names]
        kinds += [("texts", "sharedStrings", "sharedStrings.xml"), ("styles", "styles", "styles.xml")]
        parts = "".join(f'<Relationship Id="{id_}" Type="{OFFICE}/{kind}" Target="{at}"/>' for id_, kind, at in kinds)
        put(
            "xl/sharedStrings.xml", [f'<sst xmlns="{MAIN}">', *([texts] if isinstance(texts, str) else texts), "</sst>"]
        )
        put("xl/styles.xml", [f'<styleSheet xmlns="{MAIN}"><cellXfs>', *styles, "</cellXfs></styleSheet>"])
        put("xl/_rels/workbook.xml.rels", f'<Relationships xmlns="{PACKAGE}">{parts}</Relationships>')
        shown = "".join(f'<sheet name="{name}" sheetId="{at}" r:id="{name}"/>' for at, name in enumerate(names, 1))
        put("xl/workbook.xml", f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{shown}</sheets></workbook>')
        main = f'<Relationship Id="r" Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/>'
        put("_rels/.rels", f'<Relationships xmlns="{PACKAGE}">{main}</Relationships>')
        kinds_of_part = "".join(
            f'<Override PartName="/{part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.{kind}+xml"/>'
            for part, kind in [
                ("xl/workbook.xml", "sheet.main"), ("xl/sharedStrings.xml", "sharedStrings"), ("xl/styles.xml", "styles"),
                *((f"xl/worksheets/{name}.xml", "worksheet") for name in names),
            ]
        )  # fmt: skip
        types = "http://schemas.openxmlformats.org/package/2006/content-types"
        put("[Content_Types].xml", f'<Types xmlns="{types}">{kinds_of_part}</Types>')
    return into.getvalue()


def gaps() -> bytes:
    """Ten sheets of two rows: the last cell of each stands in the last row and column."""
    start = SHEET.replace("<sheetData>", '<dimension ref="A1:XFD1048576"/><sheetData>')
    return package([f'{start}{HEAD}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>{END}'] * 10)


@cache
def bomb() -> bytes:
    return package([chain([SHEET, HEAD], repeat(" " * MB, UNPACKED_MB), [END])])


def bomb_that_lies() -> bytes:
    """A bomb whose parts say that they unpack to 500 bytes, in both places."""
    content = bytearray(bomb())
    for sign, at in ((b"PK\x01\x02", 24), (b"PK\x03\x04", 22)):
        start = content.find(sign)
        while start >= 0:
            (size,) = struct.unpack_from("<I", content, start + at)
            if size > 5000:
                struct.pack_into("<I", content, start + at, 500)
            start = content.find(sign, start + 4)
    return bytes(content)


def other_packing() -> bytes:
    return package([chain([SHEET, HEAD], repeat(" " * MB, UNPACKED_MB), [END])], packing=zipfile.ZIP_BZIP2)


def shared_texts() -> bytes:
    return package([SHEET + HEAD + END], texts=("<si><t/></si>" * 10_000 for _ in range(300)))


def long_shared_texts() -> bytes:
    """Shared texts that need four bytes a letter, each referred to from many cells."""
    texts = (f"<si><t> {'a' * 3900}\U0001f3cb{at} </t></si>" for at in range(4000))
    cells = ('<row><c t="s"><v>1</v></c><c t="s"><v>2</v></c><c t="s"><v>3</v></c></row>' * 1000 for _ in range(100))
    return package([[SHEET, HEAD, *cells, END]], texts=texts)


def formats() -> bytes:
    return package([SHEET + HEAD + END], styles=('<xf numFmtId="14"/>' * 10_000 for _ in range(200)))


def entities() -> bytes:
    """Ten entities, each ten times the one before, and one that reads a file of this machine."""
    more = "".join(f'<!ENTITY e{at} "{f"&e{at - 1};" * 10}">' for at in range(1, 10))
    kind = f'<!DOCTYPE worksheet [<!ENTITY e0 "lol"><!ENTITY f SYSTEM "file:///etc/hostname">{more}]>'
    return package([f'{kind}{SHEET}{HEAD}<row><c t="str"><v>&e9;</v></c></row>{END}'])


def one_row() -> bytes:
    return package([[SHEET, "<row>", *('<c r=""/>' * 10_000 for _ in range(500)), "</row>", END]])


def many_cells() -> bytes:
    """As many filled cells as fit: two hundred columns, all different."""

    def rows() -> Iterable[str]:
        yield SHEET
        for at in range(6000):
            yield f"<row>{''.join(f'<c><v>{at * 200 + column}.5</v></c>' for column in range(200))}</row>"
        yield END

    return package([rows()])


def many_rows() -> bytes:
    """A whole table just within the limits, of dates, texts and numbers that are all different."""

    def rows() -> Iterable[str]:
        yield SHEET + HEAD
        for at in range(99_000):
            yield f'<row><c t="str"><v>{at} of May</v></c><c t="str"><v>lift {at}</v></c><c><v>{at}</v></c></row>'
        yield END

    return package([rows()])


def deep() -> bytes:
    return package([[SHEET, *("<a>" * 10_000 for _ in range(400))]])


def attributes() -> bytes:
    named = " ".join(f'a{at}=""' for at in range(2500))
    tag = f"<c {named}/>"
    return package([[SHEET, "<row>", *(tag for _ in range(3000)), "</row>", END]])


def many_parts() -> bytes:
    """A list of as many parts as fit into 16 MB, with no part behind it."""
    entry = b"PK\x01\x02" + bytes(42)
    number = 16 * MB // len(entry) - 10
    end = b"PK\x05\x06" + struct.pack("<HHHHIIH", 0, 0, number & 0xFFFF, number & 0xFFFF, number * len(entry), 0, 0)
    return b"PK\x03\x04" + entry * number + end


def many_sheets() -> bytes:
    return package([SHEET + HEAD + END] * 1500)


def short_rows() -> bytes:
    """A heading of 200 columns and rows of three cells: padded, a hundred times the file."""
    heading = ",".join(f"c{at}" for at in range(200))
    return (heading + "\n" + "a,b,c\n" * (16 * MB // 6 - 200)).encode()


def empty_cells() -> bytes:
    return b"date,lift,load\n" + b"," * (16 * MB - 20)


def blank_rows() -> bytes:
    return b"date,lift,load\n" + (b"," * 199 + b"\n") * (16 * MB // 200 - 1)


def different_cells() -> bytes:
    """A million cells, all different, in letters of two bytes."""
    rows = "\n".join(f"{at:x}é,{at:x}ü,{at:x}ł" for at in range(199_990))
    return ("date,lift,load\n" + rows).encode()


def one_wide_letter() -> bytes:
    """One letter outside the first plane makes Python keep the whole text at four bytes a letter."""
    return ("date,lift,load\n" + "\U0001f3cb,b,1\n" + "squat front,70 kilograms,day 12\n" * 400_000).encode()


def utf_16() -> bytes:
    return ("date\tlift\tload\n" + "a day\tfront squat\t70\n" * 350_000).encode("utf-16")


def long_digits() -> bytes:
    """Cells over which a pattern could go again and again."""
    cell = "1" * 3990 + "x"
    return ("date,lift,load\n" + f"{cell},{cell},{cell}\n" * 1300).encode()


def longest_digits() -> bytes:
    cell = "1" * 131_000 + "x"
    return (f"{cell},{cell},{cell}\n" * 40).encode()


def no_dates() -> bytes:
    return ("date,lift,load,reps\n" + "".join(f"{at}/{at}/x,squat,{at},5\n" for at in range(199_000))).encode()


ATTACKS: dict[str, Callable[[], bytes]] = {
    each.__name__: each
    for each in (
        gaps, bomb, bomb_that_lies, other_packing, shared_texts, long_shared_texts, formats, entities, one_row, many_cells,
        many_rows, deep, attributes, many_parts, many_sheets, short_rows, empty_cells, blank_rows, different_cells,
        one_wide_letter, utf_16, long_digits, longest_digits, no_dates,
    )
}  # fmt: skip
