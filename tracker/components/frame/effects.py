"""Does an act that may change coming loads, and says which."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here
from tracker.desk.day import effects


def do_and_tell(now: Here, act: Callable[..., Any], *args: Any, said: str | Callable[[Any], str], **named: Any) -> bool:
    """Do an act, say that it is saved, and which coming loads are other ones because of it."""
    before = effects.coming_loads(now.log, now.member.id, now.today)

    def told(result: Any) -> str:
        changed = effects.changed_words(before, effects.coming_loads(now.log, now.member.id, now.today))
        words = said(result) if callable(said) else said
        return f"{words} {changed}".strip()

    return do(act, *args, said=told, **named)
