"""Rest after the newest set, counted down in the browser, so that nothing has to be asked of the log."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import streamlit as st

from tracker.desk.day.today import DayPlan

SCRIPT = """
<p class="rest" id="{name}_{end}" role="timer" aria-live="off">Rest {minutes}:{seconds:02d}</p>
<script>
(() => {{
  const line = document.getElementById("{name}_{end}");
  const tick = () => {{
    if (!line || !line.isConnected) return clearInterval(timer);
    const left = Math.round({end} / 1000 - Date.now() / 1000);
    line.textContent = left > 0
      ? `Rest ${{Math.floor(left / 60)}}:${{String(left % 60).padStart(2, "0")}}`
      : "Rest is over";
    line.classList.toggle("over", left <= 0);
    if (left < -120) {{ line.textContent = ""; clearInterval(timer); }}
  }};
  const timer = setInterval(tick, 500);
  tick();
}})();
</script>
"""


def show(plan: DayPlan) -> None:
    """Draw the countdown, where the coach gave a rest and the newest set is that fresh."""
    body = counting(plan, "rest")
    if body:
        st.html(body, unsafe_allow_javascript=True)


def counting(plan: DayPlan, name: str) -> str:
    """Return the countdown as HTML with its script, or an empty text; `name` tells it from another one on the screen."""
    last = plan.sets[-1] if plan.sets else None
    line = next((each for each in plan.lines if last and each.done and each.done.id == last.id), None)
    if last is None or line is None or not line.planned.rest_s:
        return ""
    end = last.logged_at + timedelta(seconds=line.planned.rest_s)
    left = (end - datetime.now(UTC)).total_seconds()
    if not -120 < left <= line.planned.rest_s:
        return ""
    shown = max(0, round(left))
    return SCRIPT.format(name=name, end=round(end.timestamp() * 1000), minutes=shown // 60, seconds=shown % 60)
