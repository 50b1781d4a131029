"""A post of acts as the page of a phone sends it: what of it can be read, and what is refused before anything is taken."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import Any

from tracker.errors import BadInputError
from tracker.log.touches import Touch
from tracker.narrow import is_keyed, is_list
from tracker.pocket.act_body import Body

FORMATS = (1,)  # that are understood
MOST_ACTS = 50  # in one post
MOST_WORDS = 4000  # characters of one act


class BadPostError(BadInputError):
    """A post that no page of ours sends."""


class OtherMemberError(BadPostError):
    """An act of another member than the one whose log it was sent to."""


def post_of(post: object, arrived: datetime) -> tuple[str, float, list[Any]]:
    """Return the device of a post, how far its clock is off in seconds, and its acts as they came."""
    if not is_keyed(post) or post.get("f") not in FORMATS:
        raise BadPostError("This page speaks another version.", where="acts", mend="Reload the page.")
    device, sent, acts = post.get("device"), post.get("sent_at"), post.get("acts")
    if not isinstance(device, str) or not 0 < len(device) <= 64 or not isinstance(sent, int | float):
        raise BadPostError("It says no device, or not when it was sent.", where="acts", mend="Reload the page.")
    if not is_list(acts) or len(acts) > MOST_ACTS:
        raise BadPostError(f"It holds no acts, or more than {MOST_ACTS}.", where="acts", mend="Send fewer at once.")
    return device, _seconds(sent, "sent_at").timestamp() - arrived.timestamp(), acts


def _seconds(value: object, where: str) -> datetime:
    if isinstance(value, int | float) and not isinstance(value, bool):
        with suppress(ValueError, OverflowError, OSError):
            return datetime.fromtimestamp(value / 1000, UTC)
    raise BadPostError("It says no moment.", where=where, mend="Reload the page.")


def touch_of(act: object, member_id: str, device: str, skew: float, kinds: Collection[str]) -> tuple[Touch, Body]:
    """Return one act as a touch of a known kind, and what it says."""
    if not is_keyed(act) or not is_keyed(body := act.get("body")):
        raise BadPostError("An act says nothing.", where="acts", mend="Reload the page.")
    text = json.dumps([act.get("kind"), body, act.get("at"), act.get("date")], sort_keys=True)
    touch_id, kind, seq = act.get("id"), act.get("kind"), act.get("seq")
    if not isinstance(touch_id, str) or not 8 <= len(touch_id) <= 64 or len(text) > MOST_WORDS:
        raise BadPostError("An act has no id, or is too long.", where="acts", mend="Reload the page.")
    if not isinstance(kind, str) or kind not in kinds or not isinstance(seq, int):
        raise BadPostError(f"{kind!r} is not known here.", where="acts", mend="Reload the page.")
    if act.get("user") not in (None, member_id):
        raise OtherMemberError(
            "An act is of another member.", where="acts", mend="It is sent once they are there again."
        )
    try:
        day = date.fromisoformat(str(act.get("date")))
    except ValueError:
        raise BadPostError("An act says no day.", where="acts", mend="Reload the page.") from None
    digest = hashlib.sha256(text.encode()).hexdigest()
    more = {"question": body["question"]} if kind == "answer" and isinstance(body.get("question"), str) else {}
    return Touch(touch_id, member_id, kind, digest, device, seq, day, _seconds(act.get("at"), "at"), skew, more), body
