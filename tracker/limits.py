"""What can be at most, the same wherever it comes from: pages, files, results, the columns of the log; design choices."""

from __future__ import annotations

from decimal import Decimal

MOST_NAME = 200  # letters of a name or another short text
MOST_NOTE = 2000  # letters
MOST_TYPED = 20  # letters of a load or another number in a field
MOST_DIGITS = 30  # signs of a number, as many as the log keeps
LEAST_BODY_KG, MOST_BODY_KG = Decimal(25), Decimal(350)  # body mass; beyond is a slip of the finger
MOST_REPS = 200  # in one set; more is a slip of the finger
MOST_KEPT_REPS = 1000  # that the table takes; all that writes into it is stricter
MOST_RM = 30  # no one speaks of a heavier-than-31RM
MOST_RATING = 10  # of a session: the CR-10 scale
MOST_MINUTES = 24 * 60  # of a session: it ends within a day
MOST_PLANNED_SETS, MOST_PLANNED_REPS = 50, 100  # in one row of a plan
MOST_TEMPO = 20  # letters of a tempo
MOST_INTERVALS = 500  # of a piece
MOST_TITLE = 60  # letters of a name that is made of what a coach typed
MOST_OF_KIND = 1000  # pieces of kit, or pairs of one disc
