"""A checksum inside an SQLite file, so that a backup of one file can tell whether a single byte of it has changed.

SQLite's own integrity check is no checksum: it looks at the order of things and not at their content. The header keeps
eight bytes for applications: the user version at offset 60 and the application id at 68 (sqlite.org/fileformat2.html,
1.3). The seal is the first eight bytes of the SHA-256 of the file in which these eight are zero.
"""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import Literal

MAGIC = b"SQLite format 3\x00"
HEADER = 100  # bytes; in a file of SQLite they are always there
PLACES = (slice(60, 64), slice(68, 72))
CHUNK = 1 << 20

State = Literal["whole", "damaged", "unsealed", "other"]


def seal(path: Path) -> None:
    """Write the seal into a closed file, durably."""
    _write(path, _digest(path)[:8])


def unseal(path: Path) -> None:
    """Take the seal off again, for a file that is to be written to."""
    _write(path, bytes(8))


def state(path: Path) -> State:
    """Tell whether a file is as it was sealed; "unsealed" was never sealed, "other" is no SQLite file at all."""
    with path.open("rb") as file:
        header = file.read(HEADER)
    if len(header) < HEADER or not header.startswith(MAGIC):
        return "other"
    found = b"".join(header[place] for place in PLACES)
    if found == bytes(8):
        return "unsealed"
    return "whole" if found == _digest(path)[:8] else "damaged"


def sha256(path: Path) -> str:
    """Return the SHA-256 of a file as it is, as `sha256sum` says it."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _digest(path: Path) -> bytes:
    digest = hashlib.sha256()
    with path.open("rb") as file:
        header = bytearray(file.read(HEADER))
        for place in PLACES:
            header[place] = bytes(4)
        digest.update(header)
        while chunk := file.read(CHUNK):
            digest.update(chunk)
    return digest.digest()


def _write(path: Path, mark: bytes) -> None:
    with path.open("r+b") as file:
        for place, part in zip(PLACES, (mark[:4], mark[4:]), strict=True):
            file.seek(place.start)
            file.write(part)
        file.flush()
        os.fsync(file.fileno())
