"""Small pictures for what is chosen by touch: drawn in one colour, that of the letters, and always with words beside them."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from urllib.parse import quote

import streamlit as st

_BELL = '<path d="M{x} {y}h6v22h-6zM{x2} {y}h6v22h-6z"/><path d="M{x} {m}h34v5h-34z"/>'
_TEXT = '<text x="42" y="35" font-size="19" font-family="sans-serif" font-weight="700" text-anchor="middle">{}</text>'
_RING = '<circle cx="42" cy="28" r="23" fill="none" stroke="#000" stroke-width="7"/>'
_BAR = '<path d="M4 26h76v4h-76z"/>'
PICTURES = {  # 84 by 56, filled where the colour is to be
    "kg": _RING + _TEXT.format("kg"),
    "lb": _RING + _TEXT.format("lb"),
    "dumbbells": _BELL.format(x=6, x2=34, y=6, m=14.5) + _BELL.format(x=44, x2=72, y=28, m=36.5),
    "rack": '<path d="M20 2h5v52h-5zM59 2h5v52h-5zM12 51h21v4h-21zM51 51h21v4h-21z"/><path d="M2 20h80v4h-80z"/>'
    '<path d="M8 8h6v28h-6zM70 8h6v28h-6z"/>',
    "gym": _BAR.replace("26", "14") + '<path d="M12 2h6v28h-6zM20 6h5v20h-5zM66 2h6v28h-6zM59 6h5v20h-5z"/>'
    '<circle cx="28" cy="46" r="8"/><path d="M22 40a6 7 0 0 1 12 0" fill="none" stroke="#000" stroke-width="3"/>'
    '<path d="M46 40h4v14h-4zM68 40h4v14h-4zM46 45h26v4h-26z"/>',
    "floor": '<circle cx="66" cy="18" r="7"/><path d="M10 44L58 26" fill="none" stroke="#000" stroke-width="7" stroke-linecap="round"/>'
    '<path d="M54 28v19M10 44v5" fill="none" stroke="#000" stroke-width="5" stroke-linecap="round"/><path d="M2 51h80v3h-80z"/>',
    "find": '<path d="M6 44h14v10h-14zM26 34h14v20h-14zM46 22h14v32h-14z"/><circle cx="70" cy="16" r="11" fill="none" stroke="#000" '
    'stroke-width="4"/><path d="M68 10h4v8h-4zM68 20h4v3h-4z"/>',
    "tested": '<path d="M20 4h5v50h-5z"/><path d="M25 6h36l-9 11 9 11H25z"/>',
    "day": '<path d="M16 10h52v42H16z" fill="none" stroke="#000" stroke-width="5"/><path d="M16 10h52v10H16zM26 3h5v10h-5zM53 3h5v10h-5z"/>'
    '<path d="M27 28h7v7h-7zM39 28h7v7h-7zM51 28h7v7h-7zM27 39h7v7h-7z"/>',
    "guess": '<path d="M14 22c8-10 18-10 28 0s20 10 28 0M14 38c8-10 18-10 28 0s20 10 28 0" fill="none" stroke="#000" stroke-width="6"/>',
}  # fmt: skip


def _figure(left: int, body: str, head: str, bar: int) -> str:
    """A person of strokes with a bar."""
    x, y = head.split(",")
    return (
        f'<g transform="translate({left} 0)"><path d="{body}"/><circle cx="{x}" cy="{y}" r="6" fill="#000"/>'
        f'<path d="M6 {bar}h68M10 {bar - 11}v22M16 {bar - 8}v16M64 {bar - 8}v16M70 {bar - 11}v22"/></g>'
    )


_SQUAT = _figure(0, "M40 24v24M40 28l-14-4M40 28l14-4M40 48l-16 6v26M40 48l16 6v26", "40,10", 24)
_PRESS = _figure(92, "M40 32v24M40 36l-16-8V16M40 36l16-8V16M40 56l-10 26M40 56l10 26", "40,24", 14)
_PULL = _figure(184, "M40 24v28M40 28l-14 20v16M40 28l14 20v16M40 52l-10 30M40 52l10 30", "40,14", 66)
_LOADED = (
    '<path d="M8 32h248M20 8v48M32 8v48M44 18v28M220 18v28M232 8v48M244 8v48" stroke-width="7"/>'
    '<path d="M54 26v12M210 26v12" stroke-width="5"/>'
)
_EMPTY = '<path d="M8 32h248" stroke-width="5"/><path d="M8 32h50M206 32h50" stroke-width="12"/><path d="M60 20v24M204 20v24" stroke-width="6"/>'
SCENES = {
    "empty": ("264 64", _EMPTY),
    "lifts": ("264 86", _SQUAT + _PRESS + _PULL),
    "best": ("264 64", _LOADED),
}  # above a question


def show(scene: str) -> None:
    """Draw a scene above a question; it tells nothing that the words do not."""
    st.html(f'<div class="scene scene-{scene}"></div>')


@cache
def _style() -> str:
    rules = [Path(__file__).with_name("people.css").read_text(encoding="utf-8")]
    for name, shapes in PICTURES.items():
        svg = quote(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 84 56">{shapes}</svg>')
        rules.append(f'[class*="st-key-picture_{name}_"]{{--picture:url("data:image/svg+xml,{svg}")}}')
    for name, (box, strokes) in SCENES.items():
        svg = quote(
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {box}" fill="none" stroke="#000" stroke-width="4" '
            f'stroke-linecap="round" stroke-linejoin="round">{strokes}</svg>'
        )
        rules.append(f'.scene-{name}{{--picture:url("data:image/svg+xml,{svg}");aspect-ratio:{box.replace(" ", "/")}}}')
    return "<style>" + " ".join(rules) + "</style>"


def style() -> None:
    """Bring the pictures and the look of this room's pages."""
    st.html(_style())


def choice(picture: str, title: str, words: str = "", *, key: str, **button: object) -> bool:
    """Draw one choice: a picture, what it is, and a line on it; the whole is one button."""
    label = f"**{title}**" + (f"  \n{words}" if words else "")
    with st.container(key=f"picture_{picture}_{key}"):
        return st.button(label, key=key, width="stretch", **button)  # type: ignore[arg-type]
