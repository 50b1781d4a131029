"""Where a sheet is pasted or its file taken, and how one is written."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import tell
from tracker.errors import BadInputError

MOST_LETTERS = 100_000  # of a file: a sheet is a message, not a book
TEXT, DRAWN = "sheet_text", "sheet_drawn"
EXAMPLE = """\
Thursday
Warm-up: 500 m easy row, 10 air squats

Front squat, % of 3RM, rest 3:00
1 x 4 @ 72 %
3 x 4 @ 82 % (stay tall)
or dumbbells, twice the repetitions

Press
3 x 8 to 10 @ RPE 8

Piece: Ebb and flow
AMRAP 12
3 kettlebell swings, 16 kg
3 box step-overs, 50 cm
3 push-ups, or from the knees
"""
# A field says nothing of what is pasted into it until it is left: a session would stand there only after one more touch.
AT_ONCE = """
<script>
(() => {
  if (window.tidemarkPaste) return;
  window.tidemarkPaste = true;
  document.addEventListener("paste", event => {
    const field = event.target;
    if (!field.closest?.(".st-key-sheet_text")) return;
    setTimeout(() => {
      field.dispatchEvent(new KeyboardEvent("keydown", {key: "Enter", code: "Enter", ctrlKey: true, bubbles: true}));
      if (matchMedia("(pointer: coarse)").matches) field.blur();
    }, 60);
  });
})();
</script>
"""


def ask() -> str:
    """Ask for the sheet; a file's text comes into the field, where it can be edited."""
    st.session_state.setdefault(DRAWN, 0)  # another number is another, empty box
    filled = bool(str(st.session_state.get(TEXT) or "").strip())
    st.text_area(
        "The coach's sheet", key=TEXT, height=110 if filled else 200, persist_state="session",
        placeholder="Paste your coach's sheet here, just as it was sent.",
    )  # fmt: skip
    with st.container(horizontal=True, gap="small", key="sheet_do"):
        asked = st.button(
            "Show the session", key="sheet_read", type="secondary" if filled else "primary", width="stretch"
        )
        if filled:
            st.button("Clear", key="sheet_clear", type="tertiary", on_click=_clear)
    text = str(st.session_state.get(TEXT) or "")
    if asked and not text.strip():
        st.info(
            "There is nothing to read yet. Paste what your coach wrote, or upload its file.",
            icon=":material/edit_note:",
        )
    return text


def at_once() -> None:
    """Have what is pasted read at once, without a touch."""
    st.html(AT_ONCE, unsafe_allow_javascript=True)


def how_to_write() -> None:
    """Show a message that can be tried in a touch, and take a file."""
    key = f"sheet_file_{st.session_state[DRAWN]}"
    with st.container(horizontal=True, vertical_alignment="center", horizontal_alignment="distribute"):
        st.html('<p class="plain"><b>An example</b></p>', width="content")
        st.button("Try it", key="sheet_take_example", on_click=_example, icon=":material/play_arrow:")
    st.code(EXAMPLE, language=None, wrap_lines=True)
    with st.expander("Upload a text file", key="sheet_file", icon=":material/upload_file:"):
        st.file_uploader("A text file", type=["txt", "md"], key=key, max_upload_size=1, on_change=_bring, args=(key,))


def _clear() -> None:
    st.session_state[TEXT] = ""


def _example() -> None:
    st.session_state[TEXT] = EXAMPLE


def _bring(key: str) -> None:
    file = st.session_state.get(key)
    if file is None:
        return
    data: bytes = file.getvalue()
    try:
        if len(data) > 4 * MOST_LETTERS:
            raise BadInputError(
                f"The file has {len(data):,} bytes.", where=file.name, mend="A sheet is a message, not a book."
            )
        st.session_state[TEXT] = _decoded(data, file.name)
    except BadInputError as error:
        tell(error)
    st.session_state[DRAWN] += 1


def _decoded(data: bytes, name: str) -> str:
    marks = {b"\xef\xbb\xbf": "utf-8-sig", b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}
    coding = next((coding for mark, coding in marks.items() if data.startswith(mark)), "utf-8")
    try:
        return data.decode(coding)
    except UnicodeDecodeError as err:
        raise BadInputError(
            "The file is not plain text.", where=name, mend="Save it as text in UTF-8, or paste the sheet."
        ) from err
