"""What makes two rows the same set: everything but the order, so that a file imported twice adds nothing."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from hashlib import blake2b

from tracker.strength.records import Kind, Outcome
from tracker.units import Mass, plain


def identity(
    *,
    member_id: str,
    lift_id: str,
    day: date,
    load: Mass,
    body_mass: Decimal | None,
    reps: int,
    rir: Decimal | None,
    outcome: Outcome | str,
    kind: Kind | str,
) -> str:
    """Return 40 hexadecimal digits that are equal for equal sets; 92.5 and 92.50 are equal, 100 kg and 220.46 lb are not."""
    facts = (
        member_id,
        lift_id,
        day.isoformat(),
        plain(load.amount),
        load.unit,
        "" if body_mass is None else plain(body_mass),
        str(reps),
        "" if rir is None else plain(rir),
        outcome,
        kind,
    )
    return identity_of(facts)


def identity_of(facts: Iterable[str]) -> str:
    """Return the same from the ten facts as text, in the order above, for whoever has them as text already."""
    return blake2b("\x1f".join(facts).encode(), digest_size=20).hexdigest()
