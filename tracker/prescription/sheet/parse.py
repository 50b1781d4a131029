"""Reads a sheet: each line by what it is and what stands above it, all problems gathered."""

from __future__ import annotations

from typing import Any

from lark import ParseTree, Token
from lark.exceptions import UnexpectedInput, VisitError

from tracker.prescription.sheet.blocks import Builder
from tracker.prescription.sheet.lines import Line, lines_of
from tracker.prescription.sheet.model import Sheet
from tracker.prescription.sheet.problems import Problem, SheetErrors, TroubleError
from tracker.prescription.sheet.reading import LineReader, parser
from tracker.prescription.sheet.slips import EXAMPLES, explain

FREE_WORDS = ("TEXT", "REMARK", "WITH", "FREE")
_READER = LineReader()


def parse_sheet(text: str, *, name: str = "") -> Sheet:
    """Read a coach's sheet.

    Args:
        text: The sheet.
        name: What to call it in messages, such as its file's name.

    Raises:
        SheetErrors: with every problem in it, by line and column; nothing is guessed.
    """
    builder = Builder(read_line)
    for line in lines_of(text, name):
        builder.take(line)
    sheet, problems = builder.finish()
    if problems:
        raise SheetErrors(problems, name)
    return sheet


def read_line(line: Line, start: str) -> Any:
    """Read one line as `start` of the grammar.

    Raises:
        SheetErrors: with the one problem in it.
    """
    try:
        return _READER.transform(_as_typed(parser().parse(line.text, start=start), line))
    except UnexpectedInput as err:
        raise SheetErrors((explain(line, start, err),)) from err
    except VisitError as err:
        if not isinstance(err.orig_exc, TroubleError):
            raise
        raise SheetErrors((_trouble(line, start, err.orig_exc),)) from err


def _as_typed(tree: ParseTree, line: Line) -> ParseTree:
    """Give free words back as they were typed: only what is read as sets or names was cleaned."""
    for part in tree.iter_subtrees():
        part.children = [_word_as_typed(child, line) if isinstance(child, Token) else child for child in part.children]
    return tree


def _word_as_typed(token: Token, line: Line) -> Token:
    if token.type not in FREE_WORDS or token.column is None:
        return token
    begin = line.offset + token.column - 1
    typed = line.raw[begin : begin + len(token)]
    return token.update(value=typed.replace("\u200b", " ").replace("\ufeff", " "))  # spaces that nobody sees


def _trouble(line: Line, start: str, found: TroubleError) -> Problem:
    """Put a problem within a line where it stands in the sheet."""
    return Problem(
        line.number,
        found.column + line.offset,
        found.what,
        found.expected,
        found.example or EXAMPLES[start],
        line.words,
    )
