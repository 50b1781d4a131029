"""Text that others typed, shown as it is: no link, no picture and no emphasis comes of it."""

from __future__ import annotations

import re

_MARKS = re.compile(r"([\\`*_{}\[\]<>#+\-.!|~$:&=])")  # a bracket alone needs none: a link begins with [


def as_typed(text: str) -> str:
    """Write a text so that Streamlit's markdown shows it sign by sign."""
    return _MARKS.sub(r"\\\1", text)
