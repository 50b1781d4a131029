"""What a percentage of a lift of the body is of, in a coach's words: the added load alone, or body and load together.

Both are common practice, and at 80 % of a pull-up with 20 kg they are 15 kg apart: where the words don't say which, nothing
is taken for granted.
"""

from __future__ import annotations

import re
from typing import Literal

BodyShare = Literal["added", "whole", ""]

_LOAD = r"(?:load|weight|kilos?|kg|pounds?|lbs?|plates?)"
_BODY = r"(?:body[ -]?(?:weight|mass)?|bw)"
_WHOLE = re.compile(
    rf"\b{_BODY}\s*(?:\+|&|and|plus|with)\s*(?:the\s+|your\s+)?(?:added\s+|extra\s+|belt\s+)?{_LOAD}\b"
    rf"|\b{_LOAD}\s*(?:\+|&|and|plus|with)\s*(?:the\s+|your\s+)?{_BODY}\b"
    rf"|\b(?:total|whole|system|combined)\s+(?:system\s+)?{_LOAD}\b|\bincl(?:\.|uding)?\s+(?:the\s+|your\s+)?{_BODY}\b",
    re.IGNORECASE,
)
_ADDED = re.compile(
    rf"\b(?:added|extra|external|additional|belt|hung|hanging)\s+{_LOAD}\b|\b(?:without|not|no|excl(?:\.|uding)?)\s+(?:the\s+|your\s+|counting\s+)*{_BODY}\b"
    r"|\bof\s+(?:the\s+)?(?:added|load\s+alone|belt)\b|\bof\s+what\s+(?:hangs|is\s+added|you\s+add)\b",
    re.IGNORECASE,
)  # fmt: skip


def share_said(*words: str) -> BodyShare:
    """Return what a coach's words say of it; nothing where they say neither, or both.

    >>> share_said("of added load"), share_said("% of body + load"), share_said("slow down")
    ('added', 'whole', '')
    """
    text = "\n".join(words)
    whole = _WHOLE.search(text) is not None
    added = _ADDED.search(_WHOLE.sub(" ", text)) is not None
    return "" if whole == added else "whole" if whole else "added"
