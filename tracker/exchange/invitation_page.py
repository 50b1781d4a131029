"""Invitations as one HTML file to print: a strip for each member, to be cut apart. It needs no network and no script."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

_STYLE = (
    "@page { size: A4; margin: 10mm } body { font: 11pt/1.35 sans-serif; color: #000; background: #fff; margin: 0 }"
    ".strip { display: flex; gap: 6mm; align-items: center; padding: 4mm 0; border-bottom: 1px dashed #000; break-inside: avoid }"
    ".strip img { width: 30mm; height: 30mm; flex: none } h2 { font-size: 14pt; margin: 0 } p { margin: 0.6mm 0 }"
    "code { font: bold 13pt monospace; overflow-wrap: anywhere } small { font-size: 9pt }"
)


@dataclass(frozen=True, slots=True)
class Strip:
    """What stands on one strip; `picture` is the link as the address of an image."""

    name: str
    below: str  # the groups
    address: str
    code: str
    until: str
    picture: str


def invitation_page(strips: Sequence[Strip]) -> str:
    """Return the page as a complete HTML document."""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>Invitations</title><style>{_STYLE}</style></head><body>{''.join(map(_strip, strips))}</body></html>\n"
    )


def _strip(each: Strip) -> str:
    below = f" <small>{escape(each.below)}</small>" if each.below else ""
    return (
        f'<div class="strip"><img src="{escape(each.picture)}" alt="Picture of the link for {escape(each.name)}"><div>'
        f"<h2>{escape(each.name)}{below}</h2><p>Your training log: {escape(each.address)}</p><p><code>{escape(each.code)}</code></p>"
        f"<p><small>Scan the picture, or open the address, sign in and type the code. Good once, until {escape(each.until)}. "
        "You are asked whether your coach may see what you log: no, until you say yes, and you can change it at any time."
        "</small></p></div></div>"
    )
