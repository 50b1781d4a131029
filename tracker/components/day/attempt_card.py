"""The card of a test: each attempt made or missed in one touch, the safety asked about first, the coach's clock beside it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from html import escape

import streamlit as st

from tracker.components.day import set_acts
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.components.frame.words import load_words
from tracker.desk.day import attempts
from tracker.desk.day.attempts import NextAttempt
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.log.sets import NewSet

CLOCK = """
<p class="plain clock" id="test_{start}" role="timer" aria-live="off">{words}</p>
<script>
(() => {{
  const line = document.getElementById("test_{start}");
  const tick = () => {{
    if (!line || !line.isConnected) return clearInterval(timer);
    const left = Math.round({end} / 1000 - Date.now() / 1000);
    line.textContent = left > 0
      ? `${{Math.floor(left / 60)}}:${{String(left % 60).padStart(2, "0")}} left for the test`
      : "The time for the test is over. What was tried stands.";
    if (left < 0) clearInterval(timer);
  }};
  const timer = setInterval(tick, 500);
  tick();
}})();
</script>
"""


def ask_safety(plan: DayPlan, line: PlannedLine) -> None:
    """Ask about safety arms or a spotter; each answer one touch."""
    now = here()
    st.html(f'<p class="plain note">{escape(attempts.ASK_SAFETY)}</p>')
    for answer, words in attempts.SAFETY.items():
        st.button(
            words, key=f"safety_{answer}", width="stretch", on_click=touch,
            args=(attempts.say_safety, now.log, now.member.id, line.step_id, line.planned.id, answer, plan.day), kwargs={"said": words},
        )  # fmt: skip


def clock(plan: DayPlan, line: PlannedLine, at: NextAttempt) -> None:
    """Draw the coach's time for the test, or the touch that starts it; nothing where none was given."""
    if at.clock_s is None:
        return
    now = here()
    if at.started is None:
        minutes = f"{at.clock_s // 60}:{at.clock_s % 60:02d}"
        st.button(
            f"Start the {minutes} for the test", key="start_test_clock", width="stretch", on_click=touch,
            args=(attempts.start_clock, now.log, now.member.id, line.step_id, line.planned.id, plan.day), kwargs={"said": "The clock runs"},
        )  # fmt: skip
        return
    start = round(at.started.timestamp() * 1000)
    left = max(0, at.clock_s - round((datetime.now(UTC) - at.started).total_seconds()))
    words = f"{left // 60}:{left % 60:02d} left for the test" if left else "The time for the test is over. What was tried stands."  # fmt: skip
    st.html(CLOCK.format(start=start, end=start + at.clock_s * 1000, words=words), unsafe_allow_javascript=True)


def made_or_missed(plan: DayPlan, line: PlannedLine, at: NextAttempt, drawn: str) -> None:
    """One touch for an attempt that was made, one for a missed one, by how many repetitions were made of it."""
    load = load_words(at.new.load, line.lift)
    st.button(
        f"Made: {at.new.reps} × {load}", type="secondary" if at.end_is_due else "primary", width="stretch", key="attempt_made",
        on_click=_log, args=(at.new, plan, drawn),
    )  # fmt: skip
    if at.new.reps == 1:
        _missed(f"Missed: {load}", 0, at, plan, drawn)
        return
    st.html('<p class="plain">Missed, with so many made:</p>')
    with st.container(horizontal=True, gap="small", key="attempt_missed_reps"):
        for reps in range(at.new.reps):
            _missed(str(reps), reps, at, plan, drawn)


def _missed(label: str, reps: int, at: NextAttempt, plan: DayPlan, drawn: str) -> None:
    st.button(
        label, key=f"attempt_missed_{reps}", width="stretch" if at.new.reps == 1 else "content", on_click=_log_missed,
        args=(at.new, reps, plan, drawn), help=f"{reps} made, the next one missed",
    )  # fmt: skip


def _log(new: NewSet, plan: DayPlan, drawn: str) -> None:
    set_acts.log_set(new, plan.day, drawn)


def _log_missed(new: NewSet, reps: int, plan: DayPlan, drawn: str) -> None:
    set_acts.log_set(replace(new, reps=reps, outcome="missed"), plan.day, drawn)
