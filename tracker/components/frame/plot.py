"""Draws a figure in the look that is on, and anew as soon as another one comes on."""

from __future__ import annotations

import plotly.graph_objects as go
import streamlit as st

from tracker.charts.template import CONFIG

# A figure is made on the server, in the colours of one look. When the browser changes to the other one, a button that
# nobody sees asks for the page once more.
AGAIN = """
<script>
(() => {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const again = () => {
    const button = document.querySelector(".st-key-look button");
    if (!button) return;
    const ground = getComputedStyle(document.querySelector('[data-testid="stApp"]')).backgroundColor;
    if (ground !== window.tidemarkGround) { window.tidemarkGround = ground; button.click(); }
  };
  window.tidemarkGround = getComputedStyle(document.querySelector('[data-testid="stApp"]')).backgroundColor;
  if (window.tidemarkLook) return;
  window.tidemarkLook = true;
  dark.addEventListener("change", () => setTimeout(again, 400));
})();
</script>
"""


def is_dark() -> bool:
    return st.context.theme.type == "dark"


def show(drawn: go.Figure, *, key: str, alt: str) -> None:
    """Draw a figure; `alt` says the same to those who hear it."""
    st.plotly_chart(drawn, key=key, theme=None, config=CONFIG, alt=alt)


def follow_the_look() -> None:
    """Have the page's figures drawn anew when the look changes from light to dark or back; once on a page."""
    with st.container(key="look"):
        st.button("Draw again", key="look_again")
        st.html(AGAIN, unsafe_allow_javascript=True)
