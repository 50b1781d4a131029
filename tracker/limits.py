"""What can be at most, the same wherever it comes from: pages, files, results, the columns of the log; design choices."""

from __future__ import annotations

from decimal import Decimal

MOST_NAME = 200  # letters of a name or another short text
MOST_NOTE = 2000  # letters
LEAST_BODY_KG, MOST_BODY_KG = Decimal(25), Decimal(350)  # body mass; beyond is a slip of the finger
