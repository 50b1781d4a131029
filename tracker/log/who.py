"""Who acts: the person behind a read or an act, and what of other people's records the act in hand may touch.

Without sign-in whoever is there is the household, and all of the log is theirs. With sign-in it is asked at every read and
act who it is; where nobody can say, it is nobody, and nobody sees anything.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Literal

from tracker.errors import TidemarkError

Role = Literal["here", "member", "coach", "owner", "nobody"]


@dataclass(frozen=True, slots=True)
class Who:
    """The person who acts.

    Args:
        role: `here` is the household on its own machine, or the shell of the server.
        member_id: Whose log is their own; None for a coach or an owner who keeps none.
        name: How the page calls them.
        account_id: By which account they signed in.
        identity: Issuer and subject as the provider signed them; what a person has whom the log does not know yet.
        of_groups: A coach who sees what members of their own groups share, and of no others.
    """

    role: Role
    member_id: str | None = None
    name: str = ""
    account_id: str = ""
    identity: tuple[str, str] | None = None
    of_groups: bool = False

    @property
    def leads(self) -> bool:
        """Whether they see what members share, and keep what belongs to the gym."""
        return self.role in ("coach", "owner")


HERE = Who("here")
NOBODY = Who("nobody")


@dataclass(frozen=True, slots=True)
class Grant:
    """What an act may touch beyond one's own: all, or tables of whoever it concerns, or of members who share."""

    all: bool = False
    of_any: frozenset[str] = frozenset()
    of_shared: frozenset[str] = frozenset()

    def __or__(self, other: Grant) -> Grant:
        return Grant(self.all or other.all, self.of_any | other.of_any, self.of_shared | other.of_shared)


NO_MORE = Grant()
ALL = Grant(all=True)
PLAN = Grant(
    of_any=frozenset({"member_waves", "member_steps", "changes"})
)  # a sheet reaches the calendars of all who do it
RESULTS = Grant(
    of_shared=frozenset(
        {
            "members",
            "lifts",
            "pieces",
            "sessions",
            "sets",
            "scores",
            "rep_maxes",
            "body_masses",
            "member_steps",
            "changes",
        }
    )
)  # a result fulfils the session that was planned for its day


class RefusedError(TidemarkError):
    """What the person who asks may neither see nor do."""


_scene: ContextVar[tuple[Who, Grant] | None] = ContextVar("tidemark_scene", default=None)
_asked: list[Callable[[], Who]] = []


def ask_with(asked: Callable[[], Who] | None) -> None:
    """Let `asked` say who acts wherever it was not said; None: it is the household."""
    _asked[:] = [asked] if asked else []


def who() -> Who:
    """Return who acts."""
    scene = _scene.get()
    if scene:
        return scene[0]
    return _asked[0]() if _asked else HERE


def granted() -> Grant:
    """Return what the act in hand may touch beyond one's own."""
    scene = _scene.get()
    return scene[1] if scene else NO_MORE


@contextmanager
def acting(person: Who, grant: Grant = NO_MORE) -> Generator[None]:
    """Let a person act within the block; a grant ends with it."""
    before = _scene.set((person, grant))
    try:
        yield
    finally:
        _scene.reset(before)
