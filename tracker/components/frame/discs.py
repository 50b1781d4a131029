"""One end of a loaded bar on the pages, drawn by the day page's own module: which discs go on, heaviest first, with their masses."""

from __future__ import annotations

import json
from html import escape

import streamlit as st

from tracker.desk.day.card import discs
from tracker.desk.people.places import MadeLoad

# What is not drawn yet is drawn: the module is the one of the card, whose address the page brings (`door.front`). Where it
# can't be loaded nothing is lost, for the discs stand beside it in words.
SCRIPT = """<script>
(() => {
  const link = document.querySelector('link[rel="modulepreload"][href$="/card.js"]');
  if (link) import(link.href).then(card => {
    for (const box of document.querySelectorAll(".discs:empty")) box.innerHTML = card.discs(JSON.parse(box.dataset.discs));
  }, () => {});
})();
</script>"""


def show(made: MadeLoad) -> None:
    """Draw the discs of a loaded bar; nothing where the load is no bar with discs."""
    if made.per_side:
        st.html(f"{drawing(made)}{SCRIPT}", unsafe_allow_javascript=True)


def drawing(made: MadeLoad) -> str:
    """Return the place for the drawing, as HTML, with what is to be drawn in it."""
    return f'<div class="discs" data-discs="{escape(json.dumps(discs(made.per_side)), quote=True)}"></div>'
