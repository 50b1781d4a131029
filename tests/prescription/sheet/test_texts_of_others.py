"""Texts of people who knew nothing of the reader, with what they say: how much of it is read must not fall.

`texts_of_others`, `texts_third`, `texts_fourth`, `texts_fifth`, `texts_sixth`, `texts_seventh`, `texts_eighth`,
`texts_ninth`, `texts_tenth` and `texts_twelfth` were kept back at first; when they were opened 66, 62, 67, 89, 81, 89, 87, 88, 88
and 96 % of their facts were read (of the last, 58 % of sessions wholly, 9 misread in silence), and the classes of writing in them were mended then.
`texts_thirteenth` and `texts_fourteenth` are five coaches each, written before the code was looked at: 89 and 88 % of their facts
were read at first sight, 52 and 50 % of their sessions wholly, 8 and 3 misread in silence; one fact of the first (sets behind a
test) was put right in what it says. `texts_fifteenth` is twelve coaches more: 93 % of facts and 53 % of sessions at first sight, 6
misread in silence; `texts_seventeenth` the other twelve, kept back until those were mended: 94 % and 61 %, 7 in silence, before and
after alike. `texts_sixteenth`, twenty coaches of other habits, read to 89 % and 38 % before, and to 93 % and 43 % after, unseen. `texts_raw_odd` and `texts_raw_even` are ordinary
messages of three more people, one in nine of them read wholly right at first sight: those of 300 that could be mended by
class, with what they say written after reading them. `texts_sealed` was scored and never looked at: its figures say what the next
stranger meets, which is less. The facts are written by each text's own author, from the text. The bounds are what was seen,
rounded down, and are raised with the reader; wanted are nine facts of ten, and no load or score misread in silence.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.prescription.sheet.score import figures, scores

HERE = Path(__file__).parent


@pytest.mark.parametrize(
    ("folder", "texts", "facts", "whole", "silent"),
    [
        ("texts_of_others", 70, 0.95, 0.62, 0),
        ("texts_third", 40, 0.93, 0.72, 1),
        ("texts_fourth", 60, 0.99, 0.92, 0),
        ("texts_fifth", 40, 0.99, 0.95, 0),
        ("texts_sixth", 30, 0.98, 0.79, 1),
        ("texts_seventh", 60, 0.96, 0.71, 2),
        ("texts_eighth", 60, 0.99, 0.95, 0),
        ("texts_ninth", 60, 0.97, 0.84, 0),
        ("texts_tenth", 60, 0.99, 0.94, 0),
        ("texts_twelfth", 60, 0.99, 0.94, 2),
        ("texts_raw_odd", 47, 0.99, 0.92, 0),
        ("texts_raw_even", 40, 0.98, 0.90, 0),
        ("texts_thirteenth", 20, 0.99, 0.88, 0),
        ("texts_fourteenth", 20, 0.97, 0.70, 1),
        ("texts_fifteenth", 48, 0.99, 0.96, 0),
        ("texts_sixteenth", 40, 0.98, 0.76, 4),
        ("texts_seventeenth", 48, 0.97, 0.66, 4),
        ("texts_sealed", 30, 0.90, 0.26, 12),
    ],
)
def test_what_was_read_of_others_texts_is_read(folder, texts, facts, whole, silent):
    found = scores(HERE / folder)  # a text that is refused raises here
    assert len(found) >= texts
    said = figures(found)
    assert said["facts right"] >= facts
    assert said["sessions wholly right"] >= whole
    assert said["silent misreadings"] <= silent
