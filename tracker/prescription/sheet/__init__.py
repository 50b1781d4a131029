"""A coach's session sheet: typed in any hand, read, said back, and written again. Pure."""

from tracker.prescription.sheet.printing import print_sheet
from tracker.prescription.sheet.problems import Problem, SheetErrors
from tracker.prescription.sheet.reading import LineRead, Reading, parse_sheet, read
from tracker.prescription.sheet.record import as_json
from tracker.prescription.sheet.words import said_back

__all__ = [
    "LineRead",
    "Problem",
    "Reading",
    "SheetErrors",
    "as_json",
    "parse_sheet",
    "print_sheet",
    "read",
    "said_back",
]
