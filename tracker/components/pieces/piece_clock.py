"""The clock of a piece: large, counted in the browser from the start that the log holds; each touch is written at once."""

from __future__ import annotations

import json
from datetime import date
from html import escape
from itertools import pairwise
from pathlib import Path

import streamlit as st

from tracker import asset_folder
from tracker.components.frame import where
from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, here
from tracker.components.frame.next_line import PIECE
from tracker.components.pieces import piece_parts
from tracker.conditioning.clock import COUNT_IN_S, Clock
from tracker.conditioning.now import Now, intervals, now_in_round
from tracker.conditioning.pieces import IN_INTERVALS, Piece
from tracker.conditioning.times import time_words
from tracker.desk.day.piece_at_place import piece_here
from tracker.desk.pieces import clocks
from tracker.log.clocks import ClockRow, moment
from tracker.log.pieces import PieceRow
from tracker.log.records import PlaceRecord

AWAY, SOUND = "clock_put_away", "clock_sound"
COUNT_INS = {0: "none", 3: "3 s", COUNT_IN_S: f"{COUNT_IN_S} s"}


def runs(row: PieceRow, clock: ClockRow | None) -> bool:
    """Whether the clock of this piece is counting now: then it goes above everything else."""
    return clock is not None and clock.piece_id == row.id and clock.clock.reading(moment()).phase != "over"


def any_runs(clock: ClockRow | None) -> bool:
    """Whether a clock is counting now, of whichever piece."""
    return clock is not None and clock.clock.reading(moment()).phase != "over"


def is_over(row: PieceRow, clock: ClockRow | None) -> bool:
    """Whether the clock of this piece has ended and waits for a score."""
    return clock is not None and clock.piece_id == row.id and not runs(row, clock)


def show_over(row: PieceRow, clock: ClockRow | None) -> None:
    """Draw the clock that has ended, above its score."""
    if clock is not None and is_over(row, clock):
        with st.container(border=True, key="clock"):
            _over(row, clock)


def show(row: PieceRow, clock: ClockRow | None, day: date, place: PlaceRecord | None = None) -> None:
    """Draw the clock: to be started or running; it says the movements as they are done at a place."""
    if is_over(row, clock):
        with st.container(key="clock_next"):
            st.button(
                "Enter your score", key="clock_score", type="primary", width="stretch", on_click=piece_parts.go,
                args=(piece_parts.SCORE,),
            )  # fmt: skip
        return
    if row.piece.kind == "unscored" and row.piece.length_s is None:
        return
    with st.container(border=True, key="clock"):
        if clock is None:
            _ready(row, day)
        elif clock.piece_id != row.id:
            st.markdown("The clock of another piece is on.")
            st.button("Go to it", key="clock_go", on_click=_go, args=(clock,))
            _away(clock, to_the_day=False)
        else:
            _running(row, clock, place)


def _ready(row: PieceRow, day: date) -> None:
    with st.container(horizontal=True, vertical_alignment="bottom", key="clock_ready"):
        st.segmented_control(
            "Count-in", list(COUNT_INS), format_func=COUNT_INS.__getitem__, default=COUNT_IN_S, key="clock_count_in", required=True
        )  # fmt: skip
        _beep()
    st.button("Start the clock", key="clock_start", type="primary", width="stretch", on_click=_start, args=(row, day))


def _beep() -> None:
    """Say whether the clock beeps, before it runs and while it does; kept apart, for Streamlit forgets what is not drawn."""
    st.session_state["clock_beep"] = st.session_state.get(SOUND, "off")
    st.segmented_control("Beep", ("off", "on"), key="clock_beep", required=True, on_change=_keep_beep)


def _keep_beep() -> None:
    st.session_state[SOUND] = st.session_state["clock_beep"]


def _running(row: PieceRow, clock: ClockRow, place: PlaceRecord | None) -> None:
    taps, most = len(clock.clock.taps), row.piece.ends_to_tap
    _face(piece_here(row.piece, place), clock.clock)
    tapped = row.piece.kind not in IN_INTERVALS or row.piece.timed_intervals
    ends = tapped and most is not None and taps >= most
    if tapped and not ends:
        st.button(
            f"{'Interval' if row.piece.timed_intervals else 'Round'} {taps + 1} done", key="clock_tap", type="primary", width="stretch", on_click=_act,
            args=(clocks.tap_round, clock, ""),
        )  # fmt: skip
    if most != 0:
        _taps(clock.clock)
    # As large as a round, and nothing beside it: it is touched in a hurry.
    st.button(
        "Stop", key="clock_stop", type="primary" if ends else "secondary", width="stretch", on_click=_stop,
        args=(clock,),
    )  # fmt: skip
    if taps and most != 0:
        st.button("Take the last tap back", key="clock_untap", on_click=_act, args=(clocks.untap_round, clock, ""))
    with st.expander("Beep, a late start, or no clock", key="clock_late"):
        _beep()
        _started_late(clock)
        _away(clock)


def _started_late(clock: ClockRow) -> None:
    """Where the piece had begun before anybody touched the clock, by how much."""
    with st.form("clock_late_form", border=False):
        st.text_input("Late by how much", key="clock_late_by", placeholder="2:44 · 3 min")
        st.form_submit_button("Put it forward", width="stretch", on_click=_late, args=(clock,))


def _late(clock: ClockRow) -> None:
    st.query_params[PIECE] = clock.piece_id
    by = str(st.session_state.get("clock_late_by", ""))
    do(clocks.started_late, here().log, clock.id, by, said="The clock counts from the start of the piece")


def _over(row: PieceRow, clock: ClockRow) -> None:
    reading, length = clock.clock.reading(moment()), clock.clock.length_s
    ended = "Time is up" if length is not None and reading.elapsed_s >= length else "Stopped"
    st.html(
        f'<p class="clock">{time_words(round(reading.elapsed_s))}</p>'
        f'<p class="clock-phase">{ended}. Enter your score below.</p>'
    )
    if row.piece.ends_to_tap != 0:
        _taps(clock.clock)
    if ended == "Stopped" and clock.clock.go_on() != clock.clock:
        st.button(
            "It goes on: the stop was a slip", key="clock_goes_on", width="stretch", on_click=_go_on, args=(clock,)
        )
    with st.container(horizontal=True, key="clock_acts"):
        if clock.clock.taps and row.piece.ends_to_tap != 0:
            st.button("Take the last tap back", key="clock_untap", on_click=_act, args=(clocks.untap_round, clock, ""))
        _away(clock)


def _face(piece: Piece, clock: Clock) -> None:
    """The time as it is now with what is to be done now, and a script that carries both on."""
    now, plan = moment(), clock.plan
    reading = clock.reading(now)
    turns = intervals(piece)
    data = {
        "now": round(now * 1000), "zero": round((clock.zero or now) * 1000), "length": clock.length_s, "cap": plan.cap_s,
        "work": plan.work_s, "rest": plan.rest_s, "intervals": plan.intervals, "sound": st.session_state.get(SOUND) == "on",
        "turns": [_now_parts(each) for each in turns],
        "ends": [tap - (clock.zero or now) for tap in clock.taps] if clock.by_taps else None,
    }  # fmt: skip
    counts_down = reading.phase == "count-in" or (clock.by_taps and reading.phase == "rest")
    shown = f"{-(-reading.left_s // 1):.0f}" if counts_down and reading.left_s else time_words(reading.elapsed_s)
    on = turns[max(0, reading.interval - 1)] if turns else now_in_round(piece, len(clock.taps))
    script = (Path(__file__).parent / "piece_clock.js").read_text(encoding="utf-8")
    st.html(
        f'<div id="piece_clock" data-plan="{escape(json.dumps(data), quote=True)}"><p class="clock" role="timer" aria-live="off">'
        f'{shown}</p><p class="clock-phase">{reading.phase}</p><div class="clock-now" aria-live="polite">{_now_html(on)}</div></div>'
        f"<script>{script}</script>",
        unsafe_allow_javascript=True,
    )


def _now_html(on: Now) -> str:
    return "".join(f'<p class="{kind}">{escape(words)}</p>' for kind, words in _now_parts(on))


def _now_parts(on: Now) -> list[tuple[str, str]]:
    """What is to be done now, large, and smaller what it is made of, what may be done instead, and what follows."""
    parts = [("now-head", on.head), *(("now-line", line) for line in on.lines)]
    parts += [*(("now-option", option) for option in on.options), ("now-then", on.then)]
    return [(kind, words) for kind, words in parts if words]


def _taps(clock: Clock) -> None:
    """The rounds that were tapped: when, and how long each took."""
    if not clock.splits_s:
        return
    if clock.by_taps:
        st.caption("Intervals: " + " · ".join(map(time_words, clock.each_s)))
        return
    rounds = (f"{time_words(end)} ({time_words(end - start)})" for start, end in pairwise((0, *clock.splits_s)))
    st.caption("Rounds: " + " · ".join(rounds))


def _away(clock: ClockRow, *, to_the_day: bool = True) -> None:
    """Put a clock away: that of this piece was all there was to do here, and it leads back to the day."""
    args = (clock, to_the_day)
    st.button("Put the clock away", key="clock_away", type="tertiary", on_click=_put_away, args=args)


def _put_away(clock: ClockRow, to_the_day: bool) -> None:
    if do(clocks.put_clock_away, here().log, clock.id, said="The clock is put away") and to_the_day:
        st.session_state[AWAY] = True


def back_to_the_day(now: Here, day: date) -> None:
    """Go back to the day once the clock was put away there: a callback can't leave its page."""
    if st.session_state.pop(AWAY, False):
        step = where.chosen_step()
        carried = {**({where.SESSION: step} if step else {}), **where.carried(now, day)}
        st.switch_page(asset_folder("pages") / "today.py", query_params=carried)


def _start(row: PieceRow, day: date) -> None:
    now = here()
    st.query_params[PIECE] = row.id
    do(clocks.start_clock, now.log, now.member.id, row.id, day, count_in_s=st.session_state["clock_count_in"])


def _go(clock: ClockRow) -> None:
    st.query_params[PIECE] = clock.piece_id
    piece_parts.go(piece_parts.DO)


def _stop(clock: ClockRow) -> None:
    """Stop, and go on to the score."""
    _act(clocks.stop_clock, clock, "")
    piece_parts.go(piece_parts.SCORE)


def _go_on(clock: ClockRow) -> None:
    """Take a stop back, and go back to where the clock runs."""
    _act(clocks.go_on, clock, "The clock goes on")
    piece_parts.go(piece_parts.DO)


def _act(act, clock: ClockRow, said: str) -> None:
    st.query_params[PIECE] = clock.piece_id  # whatever becomes of the clock, the page stays with its piece
    do(act, here().log, clock.id, said=said)
