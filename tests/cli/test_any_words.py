"""Whatever is typed after an option, the program ends with an answer or a refusal, never with a fault of its own."""

from __future__ import annotations

import io
import json
from contextlib import redirect_stderr, redirect_stdout

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tracker.cli import run

NUMBER = st.sampled_from(
    ["0", "1", "3", "5", "12", "100", "-1", "1e9", "nan", "inf", "9" * 30, "0.1", "2.5", "1,5", "٣", "½", ""]
)
SIGNS = st.sampled_from(
    ["RM", "rm", "=", "kg", "lb", "@", "x", "×", "%", ",", ":", ";", " ", "\n", "\x00", "é", "-", "+", "rounds", "cap"]
)
WORDS = st.lists(NUMBER | SIGNS, max_size=10).map("".join) | st.text(max_size=12)


def ends(*arguments: str) -> None:
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = run(arguments)
    assert status in (0, 2), err.getvalue()
    if status == 0:
        json.loads(out.getvalue(), parse_constant=lambda word: 1 / 0)
    else:
        assert out.getvalue() == ""
        assert err.getvalue().strip()


@settings(max_examples=150)
@given(
    reference=st.just("3RM=92.5kg") | WORDS,
    wave=st.just("3x4@82") | WORDS,
    bar=st.just("20kg") | WORDS,
    pairs=st.just("20:1 10") | WORDS,
)
@example("3RM=92.5kg", "1x1@0.0001", "20kg", "0.0001 25")
@example("3RM=1000kg", "100x1@100", "20kg", "25:1000 20:1000 15:1000 10:1000 5:1000 2.5:1000 1.25:1000")
@example("3RM=0.0001lb", "1x1@1", "0.0001lb", "")
def test_weights(reference, wave, bar, pairs):
    ends("weights", "--reference", reference, "--wave", wave, "--bar", bar, "--pairs", pairs, "--json")


@settings(max_examples=150)
@given(
    first=st.just("3") | WORDS,
    step=st.just("3") | WORDS,
    movements=st.just("3") | NUMBER,
    total=st.just("160") | NUMBER,
)
def test_a_ladder(first, step, movements, total):
    ends("score", "ladder", "--from", first, "--step", step, "--movements", movements, "--total", total, "--json")


@settings(max_examples=150)
@given(
    listed=st.just("21,15,9") | WORDS,
    cap=st.just("8:00") | WORDS,
    said=st.sampled_from(["7:41", "CAP + 13", "through the 15s"]) | WORDS,
)
def test_a_piece_for_time(listed, cap, said):
    ends("score", "time", "--list", listed, "--cap", cap, "--said", said, "--json")


@settings(max_examples=100)
@given(
    every=st.just("1:00") | WORDS,
    times=st.just("10") | NUMBER,
    said=st.sampled_from(["9/10", "577, 570, 564 m"]) | WORDS,
)
def test_intervals(every, times, said):
    ends("score", "intervals", "--every", every, "--times", times, "--said", said, "--json")
