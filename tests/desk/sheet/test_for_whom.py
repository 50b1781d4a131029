"""A changed sheet says for whom it is changed before it is saved."""

from __future__ import annotations

import pytest

from tracker.desk.sheet.sheets import for_whom_words


@pytest.mark.parametrize(
    ("names", "you", "words"),
    [
        ([], "Ana", "Nobody does this sheet now: it changes for whoever takes it later."),
        (["Ana"], "Ana", "This changes the sheet for you alone: nobody else does it."),
        (["Bo"], "Ana", "This changes the sheet for the one who does it: Bo."),
        (["Cy", "Bo", "Ana"], "Ana", "This changes the sheet for all 3 who do it: you, Bo and Cy."),
        (["Ana", "", ""], "Ana", "This changes the sheet for all 3 who do it: you and 2 others."),
        (["", ""], "", "This changes the sheet for all 2 who do it: 2 members."),
        (
            ["A", "B", "C", "D", "E", "F", "G", "H"], "A",
            "This changes the sheet for all 8 who do it: you, B, C, D, E, F and 2 others.",
        ),
    ],
)  # fmt: skip
def test_it_says_for_whom(names: list[str], you: str, words: str):
    assert for_whom_words(names, you=you) == words
