"""How much of what people upload may lie in the server's memory: of a session, of a person, and of all.

Streamlit keeps an uploaded file in memory as long as its session lives, and its limit is for one file alone. What is held
is asked of Streamlit itself, so that a file that was given back counts no more; what is on its way counts as if it were there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass

from tracker.errors import TidemarkError

MEGABYTE = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Limits:
    """Bytes that uploads of one page, of one person or device, and of all may hold at once."""

    of_session: int = 130 * MEGABYTE  # two of the largest
    of_person: int = 195 * MEGABYTE
    of_all: int = 1_024 * MEGABYTE


class TooMuchError(TidemarkError):
    """There is no room for an upload."""

    def __init__(self, whose: str) -> None:
        super().__init__(
            f"The files that {whose} already hold all the room there is.", mend="Remove some and try again."
        )


class Uploads:
    """What is held and on its way.

    Args:
        held: Asks how many bytes the uploads of each session hold.
        limits: How many they may.
    """

    def __init__(self, held: Callable[[], Mapping[str, int]], limits: Limits | None = None) -> None:
        self.held, self.limits = held, limits or Limits()
        self.coming: Counter[str] = Counter()  # bytes by session
        self.person: dict[str, str] = {}  # by session

    @contextmanager
    def take(self, session: str, person: str, size: int) -> Iterator[None]:
        """Keep room for an upload while it comes.

        Raises:
            TooMuchError: if there is none.
        """
        there = Counter(self.held())
        there.update(self.coming)
        self.person = {each: of for each, of in self.person.items() if there[each]} | {session: person}
        of_person = sum(there[each] for each, of in self.person.items() if of == person)
        for whose, taken, most in (
            ("this page has taken in", there[session], self.limits.of_session),
            ("your pages have taken in", of_person, self.limits.of_person),
            ("all pages have taken in", there.total(), self.limits.of_all),
        ):
            if taken + size > most:
                raise TooMuchError(whose)
        self.coming[session] += size
        try:
            yield
        finally:
            self.coming[session] -= size


def held_by_streamlit() -> Mapping[str, int]:
    """Return the bytes that each session's uploads hold."""
    from streamlit import runtime

    manager = runtime.get_instance().uploaded_file_mgr
    with manager._lock:  # type: ignore[attr-defined]  # its own, under which it changes what is read here
        return {
            session: sum(len(each.data) for each in files.values())
            for session, files in manager.file_storage.items()  # type: ignore[attr-defined]  # the one in memory
        }
