"""Where a sheet is pasted or its file taken, and how one is written."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import tell
from tracker.errors import BadInputError

MOST_LETTERS = 100_000  # of a file: a sheet is a message, not a book
TEXT, DRAWN = "sheet_text", "sheet_drawn"
EXAMPLE = """\
Title: Millrace
Date: 2026-11-30
-- a remark for yourself; members do not see it

Week 1, day 1: Front squat
Warm-up: 500 m easy row, then
2 rounds of 10 air squats and 10 scapular pulls

Front squat, barbell, % of 3RM, rest 3:00
1 x 4 @ 72 %
3 x 4 @ 82 % (stay tall)
1 x 4+ @ 82 %
or dumbbells, twice the repetitions
Note: the last set goes on past four

Press, barbell
3 x 8 to 10 @ RPE 8
superset with Pull-up, body
3 x 5 @ 2 in reserve

Piece: Lantern ladder
as many reps as possible in 12:00, 3 up by 3
kettlebell swing, 16 kg kettlebell
box step-over, 50 cm high
hand-release push-up
or push-up from the knees

Week 2, day 1
Front squat, barbell, % of 3RM
1 x 3 @ 80 %
find a 3RM in 20:00
"""


def ask() -> str:
    """Ask for the sheet; a file's text comes into the field, where it can be mended."""
    drawn = st.session_state.setdefault(DRAWN, 0)  # another number is another, empty box
    st.text_area(
        "The coach's sheet", key=TEXT, height=220, persist_state="session",
        placeholder="Paste here what your coach wrote, as it is: a message, a photo's text, a week's plan.",
    )  # fmt: skip
    asked = st.button("Read it", key="sheet_read", type="primary", width="stretch")
    text = str(st.session_state.get(TEXT) or "")
    if asked and not text.strip():
        st.info(
            "There is nothing to read yet. Paste what your coach wrote, or bring its file.", icon=":material/edit_note:"
        )
    with st.expander("Or bring its file", key="sheet_file"):
        key = f"sheet_file_{drawn}"
        st.file_uploader("A text file", type=["txt", "md"], key=key, max_upload_size=1, on_change=_bring, args=(key,))
    return text


def how_to_write() -> None:
    """Say that no form is asked for, and show a sheet that has a bit of everything."""
    st.write(
        "No form is asked for. What can be read in two ways is asked, and what is not understood stays as the coach's words. "
        "Nothing is written before you take it."
    )
    with st.expander("A sheet with a bit of everything", key="sheet_example"):
        st.code(EXAMPLE, language=None, wrap_lines=True)
        st.button("Put it into the field", key="sheet_take_example", on_click=_example)


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
