"""Codes that pair a phone, and the keys that paired devices show.

A code is good once, for minutes, and for ten wrong tries: of 100 million codes, ten guesses hit one in ten million. A
key is 256 bits of chance, signed, and kept here as a hash only, so that whoever reads this file can show none. Hashes
are compared in a time that does not hang on where they differ.
"""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets
import sqlite3
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Literal

from itsdangerous import BadSignature, Signer

from tracker.door.store import Store
from tracker.errors import BadInputError, TidemarkError

Kind = Literal["phone", "laptop"]
DIGITS = 8
GOOD_FOR = {"phone": timedelta(minutes=5), "laptop": timedelta(minutes=10)}
MOST_WRONG = 10
MOST_LETTERS = 40  # of a device's name
LAPSES = timedelta(days=180)  # a device that did not show itself for so long is paired anew
SEEN_EVERY = timedelta(minutes=1)  # a later sight is written only after so long
MOST_COOKIE = 400  # signs; ours has about 130


class WrongCodeError(TidemarkError):
    """The code is not the one on the laptop's screen."""

    def __init__(self, left: int) -> None:
        tries = "one try is" if left == 1 else f"{left} tries are"
        super().__init__("That is not the code.", mend=f"Look at the laptop's screen and enter it again; {tries} left.")


class NoCodeError(TidemarkError):
    """There is no code that could be typed now."""

    def __init__(self) -> None:
        super().__init__(
            "No code is good now: it was used, it is too old, or ten wrong ones ended it.",
            mend="Let the laptop show a new one: Preferences, Devices, Pair a phone.",
        )


@dataclass(frozen=True, slots=True)
class Code:
    """A code to show: digits for a phone, one long word for the link that the laptop's browser opens."""

    text: str
    until: datetime

    @property
    def shown(self) -> str:
        return f"{self.text[:4]} {self.text[4:]}"


@dataclass(frozen=True, slots=True)
class CodeState:
    """What became of the newest code: still good, used by a device, ended by wrong tries, or too old."""

    state: Literal["good", "used", "ended", "late"]
    until: datetime  # which code it is: a later one has another end
    device: str = ""  # the name of the device that used it


@dataclass(frozen=True, slots=True)
class Device:
    """A browser that holds a key."""

    id: str
    name: str
    kind: Kind
    paired_at: datetime
    seen_at: datetime


def now() -> datetime:
    return datetime.now(UTC)


class Pairing:
    """Gives codes and keys, and knows whose key still holds.

    Args:
        store: Where both are kept.
        clock: What time it is, with its zone.
        encrypted: Whether the server speaks TLS. A key that once went in the open is not taken there.
    """

    def __init__(self, store: Store, *, clock: Callable[[], datetime] = now, encrypted: bool = False) -> None:
        self.store, self.clock, self.encrypted = store, clock, encrypted

    @property
    def cookie(self) -> str:
        """Name the cookie; another log on this machine has another one, as cookies tell no ports apart."""
        with self.store.reading() as connection:
            name = f"tidemark_{_fact(connection, 'name')}"
        return f"__Host-{name}" if self.encrypted else name  # browsers hold that such a one comes from TLS alone

    def new_code(self, kind: Kind) -> Code:
        """Make a code in place of the former one, which is good no more."""
        text = f"{secrets.randbelow(10**DIGITS):0{DIGITS}d}" if kind == "phone" else secrets.token_urlsafe(32)
        made = self.clock()
        until = made + GOOD_FOR[kind]
        with self.store.writing() as connection:
            connection.execute(
                "INSERT OR REPLACE INTO codes (kind, hash, made_at, until) VALUES (?, ?, ?, ?)",
                (kind, _of_code(connection, text), made.timestamp(), until.timestamp()),
            )
        return Code(text, until)

    def code_state(self, kind: Kind = "phone") -> CodeState | None:
        """Tell what became of the newest code; None where there was none."""
        with self.store.reading() as connection:
            row = connection.execute(
                "SELECT made_at, until, wrong, device FROM codes WHERE kind = ?", (kind,)
            ).fetchone()
        if row is None:
            return None
        made_at, until, wrong, device = row
        ends = datetime.fromtimestamp(until, UTC)
        if device:
            return CodeState("used", ends, device)
        if wrong >= MOST_WRONG:
            return CodeState("ended", ends)
        return CodeState("good" if made_at <= self.clock().timestamp() < until else "late", ends)

    def end_code(self, kind: Kind) -> None:
        """Take a code back that nobody used."""
        with self.store.writing() as connection:
            connection.execute("DELETE FROM codes WHERE kind = ?", (kind,))

    def pair(self, kind: Kind, text: str, name: str) -> str:
        """Spend a code and return the key, as the cookie holds it.

        Looking and counting are one step among all processes, so that guesses side by side are counted each.

        Raises:
            BadInputError: if the name can't be taken, or what was typed can be no code. No try is lost.
            WrongCodeError: if it is not the code.
            NoCodeError: if no code is good now.
        """
        name, text = device_name(name), code_typed(text) if kind == "phone" else text
        moment = self.clock().timestamp()
        with self.store.writing() as connection:
            row = connection.execute(
                "SELECT hash, made_at, until, wrong, device FROM codes WHERE kind = ?", (kind,)
            ).fetchone()
            if row is None or row[4] or row[3] >= MOST_WRONG or not row[1] <= moment < row[2]:
                raise NoCodeError
            if hmac.compare_digest(row[0], _of_code(connection, text)):
                return self._new_key(connection, kind, name, moment)
            if kind == "laptop":  # its link can't be guessed, and nobody may spoil it by trying
                raise NoCodeError
            connection.execute("UPDATE codes SET wrong = wrong + 1 WHERE kind = ?", (kind,))
        left = MOST_WRONG - row[3] - 1
        raise WrongCodeError(left) if left else NoCodeError

    def _new_key(self, connection: sqlite3.Connection, kind: Kind, name: str, moment: float) -> str:
        device_id, key = uuid.uuid4().hex, secrets.token_urlsafe(32)
        connection.execute(
            "INSERT INTO devices (id, name, kind, hash, encrypted, paired_at, seen_at) VALUES (?, ?, ?, ?, ?, ?, ?)",
            (device_id, name, kind, _of_key(key), self.encrypted, moment, moment),
        )
        connection.execute("UPDATE codes SET device = ?, hash = ? WHERE kind = ?", (name, b"", kind))
        return _signer(connection).sign(f"{device_id}.{key}").decode()

    def device(self, cookie: str) -> Device | None:
        """Return the device whose key this is; None for a forged, removed or lapsed one."""
        if not cookie.isascii() or len(cookie) > MOST_COOKIE:
            return None
        with self.store.reading() as connection:
            try:
                device_id, _, key = _signer(connection).unsign(cookie).decode().partition(".")
            except BadSignature:
                return None
            row = connection.execute(f"SELECT hash, {_COLUMNS} FROM devices WHERE id = ?", (device_id,)).fetchone()
        if row is None or not hmac.compare_digest(row[0], _of_key(key)):
            return None
        return self._device(row[1:])

    def still(self, device_id: str) -> Device | None:
        """Return a device that came in by its key, as long as it may stay."""
        with self.store.reading() as connection:
            row = connection.execute(f"SELECT {_COLUMNS} FROM devices WHERE id = ?", (device_id,)).fetchone()
        return self._device(row) if row else None

    def _device(self, row: tuple[str, str, Kind, int, float, float]) -> Device | None:
        device_id, name, kind, encrypted, paired_at, seen_at = row
        device = Device(
            device_id, name, kind, datetime.fromtimestamp(paired_at, UTC), datetime.fromtimestamp(seen_at, UTC)
        )
        return device if bool(encrypted) == self.encrypted and self.clock() - device.seen_at < LAPSES else None

    def see(self, device: Device) -> None:
        """Note that a device is here now."""
        moment = self.clock()
        if moment - device.seen_at >= SEEN_EVERY:
            with self.store.writing() as connection:
                connection.execute("UPDATE devices SET seen_at = ? WHERE id = ?", (moment.timestamp(), device.id))

    def devices(self) -> tuple[Device, ...]:
        """List all devices, the newest first."""
        with self.store.reading() as connection:
            rows = connection.execute(f"SELECT {_COLUMNS} FROM devices ORDER BY paired_at DESC, id").fetchall()
        return tuple(
            Device(row[0], row[1], row[2], datetime.fromtimestamp(row[4], UTC), datetime.fromtimestamp(row[5], UTC))
            for row in rows
        )

    def remove(self, device_id: str) -> str:
        """Take a device's key away, at once and for good, and return its name.

        Raises:
            BadInputError: if it was removed before.
        """
        with self.store.writing() as connection:
            row = connection.execute("DELETE FROM devices WHERE id = ? RETURNING name", (device_id,)).fetchone()
            if row is not None:  # the name may be somebody's: it goes from the used code as well
                connection.execute("UPDATE codes SET device = 'removed' WHERE device = ?", row)
        if row is None:
            raise BadInputError("This device was removed before.", where="device", mend="Reload the page.")
        return row[0]


_COLUMNS = "id, name, kind, encrypted, paired_at, seen_at"


def code_typed(text: str) -> str:
    """Return the digits of a code as somebody typed it.

    Raises:
        BadInputError: if they are not eight.
    """
    digits = re.sub(r"[\s.\-]", "", text)
    if not re.fullmatch(rf"[0-9]{{{DIGITS}}}", digits):
        raise BadInputError(f"A code has {DIGITS} digits.", where="code", mend="Enter it as the laptop shows it.")
    return digits


def device_name(text: str) -> str:
    """Return a device's name without surplus space.

    Raises:
        BadInputError: if it is empty, too long or can't be shown.
    """
    name = " ".join(text.split())
    if not name or len(name) > MOST_LETTERS or not name.isprintable():
        what = f"A name has 1 to {MOST_LETTERS} letters that can be shown."
        raise BadInputError(what, where="name", mend="Name the phone so that you know it in a list.")
    return name


def _fact(connection: sqlite3.Connection, name: str) -> str:
    row = connection.execute("SELECT value FROM facts WHERE name = ?", (name,)).fetchone()
    if row is None:
        raise sqlite3.DatabaseError(f"its {name} is missing")
    return row[0]


def _of_code(connection: sqlite3.Connection, text: str) -> bytes:
    return hmac.digest(bytes.fromhex(_fact(connection, "secret")), text.encode(), "sha256")


def _of_key(key: str) -> bytes:
    return hashlib.sha256(key.encode()).digest()  # no slow hash: the key is 256 bits of chance


def _signer(connection: sqlite3.Connection) -> Signer:
    secret = bytes.fromhex(_fact(connection, "secret"))
    return Signer(secret, salt="tidemark paired device", key_derivation="hmac", digest_method=hashlib.sha256)
