"""Words of an error hold what somebody typed; they can be shown on any terminal and page, and end somewhere."""

import pytest

from tests.desk.coach.test_forged_results import forged, whole
from tracker.errors import MOST_LINE, BadInputError, TidemarkError
from tracker.exchange.result_file import read_file


@pytest.mark.parametrize("odd", ["\x1b[2J", "\ud800", "\x00", "\r", "\x7f", "\x9b1m", "\u202e", "\u2066"])
def test_what_steers_a_terminal_or_is_no_letter_is_shown_by_its_number(odd):
    error = TidemarkError(f"No {odd} here.", where=f"line 1, {odd}", mend=f"Leave {odd} away.")
    for part in (error.what, error.where, error.mend, str(error)):
        assert odd not in part
        assert ascii(odd[0])[1:-1] in part
        part.encode()


def test_letters_of_any_writing_and_breaks_stay_as_they_are():
    text = "Кузьма, 日本, ﷺ, é, nbsp\u00a0, 👩\u200d🚀\nsecond line"
    assert TidemarkError(text).what == text


def test_a_line_ends_somewhere_and_the_other_lines_stay():
    error = BadInputError(f"{'x' * 6_000}\nshort", where="y" * 6_000, mend="Mend it.")
    assert error.what == f"{'x' * (MOST_LINE - 1)}…\nshort"
    assert len(error.where) == MOST_LINE
    assert str(error).endswith("Mend it.")


@pytest.mark.parametrize("odd", ["\x1b[31m", "\ud800"])
def test_a_result_with_a_name_that_can_not_be_shown_is_refused_in_words_that_can(odd):
    for place in ("lift", "title"):
        record = whole()
        if place == "lift":
            record["sets"][0]["lift"] = f"squat{odd}"
        else:
            record["scores"][0]["piece"]["title"] = f"Swings{odd}"
        with pytest.raises(BadInputError) as refused:
            read_file(forged(record))
        assert odd not in str(refused.value)
        str(refused.value).encode()
