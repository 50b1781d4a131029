"""A button that copies a text without showing it, and says whether it did."""

from __future__ import annotations

from pathlib import Path

from streamlit.components.v2 import component

_drawn = component(
    "copy_button",
    html='<button type="button" class="copy-button"><span aria-hidden="true" translate="no">content_copy</span><b></b></button>'
    '<p class="copy-said" role="status"></p>',
    js=Path(__file__).with_suffix(".js").read_text(encoding="utf-8"),
    isolate_styles=False,
)


def show(text: str, *, label: str, done: str, failed: str, key: str) -> None:
    """Draw the button; `done` and `failed` are said once it was touched."""
    _drawn(key=key, data={"text": text, "label": label, "done": done, "failed": failed})
