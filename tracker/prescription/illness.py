"""Ill: what keeps somebody from training, what is for a clinician, and how much lower loads start after it.

All of it is from memory and common practice; the references of this project have no source on illness but that it is among what
goes before a breakdown of muscle after a hard return (conditioning, 7.6, from memory). It diagnoses nothing and clears nobody.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

STOP = (
    "No training with fever, aching all over, a cough from the chest, vomiting or diarrhoea, nor in the day after they have gone.",
    "Stop at once for pain or pressure in the chest, breathlessness that does not fit the effort, fainting, or a racing or uneven heart.",
)
CLINICIAN = (
    (
        "See a clinician where fever lasts for more than three days, comes back, or you get worse instead of better; before hard "
        "training where you had chest pain, were short of breath at rest, or the illness took two weeks or more."
    ),
    "Call emergency help for pain or pressure in the chest, trouble with breathing, fainting, confusion or a stiff neck with fever.",
)
STATUS = "This log does not know what it is, and clears nobody to train. Status: from memory and common practice."
OFFERED = "You said that you are ill: no load is offered. Rest; your clinician's and your coach's word goes before anything here."
FROM_DAYS = 3  # an illness of fewer days lowers nothing; common practice
LONG_DAYS = 7  # from here on the first step is the lower one; common practice
SESSIONS = 2  # of each step
STEP = 10


@dataclass(frozen=True, slots=True)
class AfterIllness:
    """Loads start lower after an illness: by `percent`, with `sessions` made since, by `steps` of per cent."""

    percent: Decimal
    days_off: int  # the days of the illness
    sessions: int
    steps: tuple[int, ...]
    at: int

    @property
    def words(self) -> str:
        """Say the rule, with what it rests on."""
        steps = ", ".join(str(step) for step in self.steps)
        return (
            f"After {self.days_off} days ill loads start {steps} % lower, each for {SESSIONS} sessions, then as asked; now "
            f"{self.percent} % (common practice, from no study). Go lower still, or stop, if it feels wrong; a clinician's and "
            "your coach's word goes first."
        )

    @property
    def short(self) -> str:
        return f"{self.percent} % lower than asked, after {self.days_off} days ill."

    @property
    def long(self) -> bool:
        """Whether loads as asked are never one touch away: they are, for nobody asks here."""
        return True


def after_illness(days_ill: int, sessions: int) -> AfterIllness | None:
    """Tell how much lower loads start after an illness of so many days, with so many sessions made since; None where not."""
    if days_ill < FROM_DAYS:
        return None
    steps = (2 * STEP, STEP) if days_ill >= LONG_DAYS else (STEP,)
    at = sessions // SESSIONS
    return AfterIllness(Decimal(steps[at]), days_ill, sessions, steps, at) if at < len(steps) else None
