"""A coach's session sheet: prose as the trade writes it, read line by line, said back, and written again. Pure."""

from tracker.prescription.sheet.parse import parse_sheet
from tracker.prescription.sheet.printing import print_sheet
from tracker.prescription.sheet.problems import Problem, SheetErrors
from tracker.prescription.sheet.record import as_json
from tracker.prescription.sheet.words import said_back

__all__ = ["Problem", "SheetErrors", "as_json", "parse_sheet", "print_sheet", "said_back"]
