r"""Text that others typed, shown as it is: no link, no picture and no emphasis comes of it.

Only signs that would mean something where they stand are escaped: what a screen reader says of an input is its label as
it was handed over, and "hand\-release" is no word.
"""

from __future__ import annotations

import re

_MARKS = re.compile(
    r"""
      [\\`*_\[\]<>|~$]                          # emphasis, code, links, HTML, tables, mathematics: anywhere
    | (?<=[-<])- | -(?=[->])                    # dashes and arrows that Streamlit draws
    | (?<=[<>~=])= | =(?==)
    | ^[\#+\-=]                                # headings, lists and rules: at the start of a line
    | (?<=[0-9])[.)](?=\s)
    | (?<=[A-Za-z0-9])\.(?=[A-Za-z])            # addresses that would become links
    | :(?=[A-Za-z_+\-/])                        # and pictures and colours by name
    | &(?=\#?\w+;)
    """,
    re.VERBOSE | re.MULTILINE,
)
_SPACE_BEFORE = re.compile(r"^[ \t]+(?=[#+\-=0-9])", re.MULTILINE)


def as_typed(text: str) -> str:
    """Write a text so that Streamlit's markdown shows it sign by sign."""
    return _MARKS.sub(r"\\\g<0>", _SPACE_BEFORE.sub("", text))
