"""The parts of an xlsx workbook, unpacked and read as XML within one budget for the whole file.

Nothing that a file says of its own size is believed: what comes out is counted, and so are elements and their depth. No part
is ever held as a whole or as a tree, and a document type (entities that multiply, files of this machine) is refused.
The form is ECMA-376, part 2 (packages) and part 1, sections 12 and 18 (parts of a workbook).
"""

from __future__ import annotations

import io
import posixpath
import zipfile
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING
from xml.parsers import expat

from tracker.errors import BadInputError

if TYPE_CHECKING:
    from xml.parsers.expat import XMLParserType

MOST_UNPACKED = 64 * 1024**2  # bytes of all parts that are read; three hundred thousand cells have about 12 MB
MOST_ELEMENTS = 1_500_000  # a cell is two or three, a text that cells share is two
MOST_DEPTH = 50  # a cell of a sheet stands eight deep
MOST_PARTS = 2_000
AT_ONCE = 64 * 1024
PACKINGS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)  # others unpack without end at one call
PART = b"PK\x01\x02"  # begins each entry of a package's list

Start = Callable[[str, dict[str, str]], None]


class Package:
    """An open workbook and what is left of its budget."""

    def __init__(self, content: bytes, name: str) -> None:
        self.name = name
        self.unpacked = self.elements = self.depth = 0
        if content.count(PART) > MOST_PARTS:  # before the list is read, which would hold them all
            raise self.refused(f"The workbook has over {MOST_PARTS:,} parts.")
        self._zip = zipfile.ZipFile(io.BytesIO(content))
        self._parts = {each.filename: each for each in self._zip.infolist()}

    def __contains__(self, part: str) -> bool:
        return part in self._parts

    def refused(self, what: str) -> BadInputError:
        return BadInputError(what, where=self.name, mend="Save only the sheet of sets, as xlsx or as CSV.")

    def size(self, part: str) -> int:
        """Return the size that the file says of a part: good for a guess and for nothing else."""
        return self._parts[part].file_size if part in self._parts else 0

    def read(self, part: str, start: Start, end: Callable[[str], None], text: Callable[[str], None]) -> Iterator[None]:
        """Read a part, calling back with names without their namespace; stop for a moment after each piece.

        Raises:
            BadInputError: if the budget of the file is used up, or the part declares a document type.
        """
        parser = self._parser(start, end, text)
        for piece in self._pieces(part):
            parser.Parse(piece, False)
            yield
        parser.Parse(b"", True)
        yield

    def _parser(self, start: Start, end: Callable[[str], None], text: Callable[[str], None]) -> XMLParserType:
        parser = expat.ParserCreate()
        parser.buffer_text = True
        self.depth = 0

        def started(name: str, attributes: dict[str, str]) -> None:
            self.elements += 1
            self.depth += 1
            if self.elements > MOST_ELEMENTS or self.depth > MOST_DEPTH:
                raise self.refused("The workbook holds more cells and formats than a log of sets has.")
            start(name.rpartition(":")[2] if ":" in name else name, attributes)

        def ended(name: str) -> None:
            self.depth -= 1
            end(name.rpartition(":")[2] if ":" in name else name)

        def document_type(*_: object) -> None:
            raise self.refused("The workbook declares a document type, which no workbook does.")

        parser.StartElementHandler, parser.EndElementHandler = started, ended
        parser.CharacterDataHandler, parser.StartDoctypeDeclHandler = text, document_type
        return parser

    def _pieces(self, part: str) -> Iterator[bytes]:
        if self._parts[part].compress_type not in PACKINGS:
            raise self.refused("The workbook is packed in a way that workbooks are not.")
        with self._zip.open(self._parts[part]) as packed:
            while piece := packed.read(AT_ONCE):
                self.unpacked += len(piece)
                if self.unpacked > MOST_UNPACKED:
                    raise self.refused(f"The workbook unpacks to more than {MOST_UNPACKED // 1024**2} MB.")
                yield piece


def nothing(*_: object) -> None:
    """Pass over what a reader does not ask for."""


def related(package: Package, part: str) -> dict[str, tuple[str, str]]:
    """Return the parts that a part refers to (the package itself: ""), by id: what each is, and where it lies."""
    folder, own = posixpath.split(part)
    found: dict[str, tuple[str, str]] = {}
    listed = posixpath.join(folder, "_rels", f"{own}.rels")

    def start(name: str, attributes: dict[str, str]) -> None:
        if name == "Relationship" and attributes.get("TargetMode") != "External" and len(found) < MOST_PARTS:
            target = posixpath.normpath(posixpath.join("/", folder, attributes.get("Target", ""))).lstrip("/")
            found[attributes.get("Id", "")] = attributes.get("Type", "").rpartition("/")[2], target

    if listed in package:
        for _ in package.read(listed, start, nothing, nothing):
            pass
    return found
