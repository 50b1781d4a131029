"""The QR picture of a link: for a page, and for a terminal."""

from __future__ import annotations

from io import StringIO

import segno


def of_page(link: str) -> str:
    """Return the picture as the address of an image, dark on white in both looks, as cameras want it."""
    return segno.make(link, error="m").svg_data_uri(scale=6, border=4, dark="#000", light="#fff")


def of_terminal(link: str) -> str:
    """Return the picture as lines of half blocks, white on black whatever colours the terminal has."""
    into = StringIO()
    segno.make(link, error="m").terminal(into, border=4, compact=True)
    return "\n".join(f"\x1b[97;40m{line}\x1b[0m" for line in into.getvalue().splitlines())
