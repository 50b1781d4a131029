"""The clock of strength in intervals: started by a touch, it says when the next set begins, as long as its sets last."""

from __future__ import annotations

from datetime import UTC, datetime

import streamlit as st

from tracker.components.day.signal import signal
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.desk.day import on_clock
from tracker.desk.day.today import DayPlan

SCRIPT = """
<p class="rest" id="sets_{start}" role="timer" aria-live="off">Next set in {words}</p>
<script>
(() => {{
  const line = document.getElementById("sets_{start}");
  const told = "sets-{start}";
  const tell = (round) => {{
    try {{
      if (sessionStorage.getItem(told) === String(round)) return;
      sessionStorage.setItem(told, String(round));
    }} catch (none) {{}}
    {signal}
  }};
  const tick = () => {{
    if (!line || !line.isConnected) return clearInterval(timer);
    const past = (Date.now() - {start}) / 1000, round = Math.floor(past / {every});
    const left = Math.max(0, Math.ceil({every} - (past - round * {every})));
    const last = round >= {sets} - 1;
    line.textContent = past >= {every} * {sets} ? "The clock is over"
      : last ? `Last interval, ${{Math.floor(left / 60)}}:${{String(left % 60).padStart(2, "0")}} left`
      : `Interval ${{round + 1}} of {sets}, next in ${{Math.floor(left / 60)}}:${{String(left % 60).padStart(2, "0")}}`;
    line.classList.toggle("over", past - round * {every} < 5);
    if (round > 0 && round < {sets} && past - round * {every} < 5) tell(round);
    if (past >= {every} * {sets}) clearInterval(timer);
  }};
  const timer = setInterval(tick, 500);
  tick();
  if (navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {{}}); // keeps the screen on where it may
}})();
</script>
"""


def counting(plan: DayPlan) -> str:
    """Return the running clock as HTML with its script; an empty text where none runs."""
    clock, now = plan.clock, datetime.now(UTC)
    if clock is None or clock.started is None or clock.ends is None or now >= clock.ends or plan.day != here().today:
        return ""
    following = clock.next_start(now)
    left = round((following - now).total_seconds()) if following else 0
    return SCRIPT.format(
        start=round(clock.started.timestamp() * 1000), every=clock.every_s, sets=clock.sets, words=f"{left // 60}:{left % 60:02d}",
        signal=signal(plan.rest_ways),
    )  # fmt: skip


def start(plan: DayPlan) -> None:
    """Offer the coach's interval as a clock, where it does not run; nothing for sets on none."""
    clock, now = plan.clock, here()
    if clock is None or counting(plan) or plan.day != now.today:
        return
    again = "anew" if clock.started else "with this set"
    st.button(
        f"Start the clock {again}: {clock.words}", key="start_set_clock", on_click=touch,
        args=(on_clock.start, now.log, now.member.id, clock.step_id, clock.lift_id, plan.day), kwargs={"said": "The clock runs"},
    )  # fmt: skip
