"""Rest after the newest set, counted down in the browser, so that nothing has to be asked of the log."""

from __future__ import annotations

from datetime import UTC, datetime

import streamlit as st

from tracker.components.day import set_clock
from tracker.components.day.signal import signal
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.desk.day import resting
from tracker.desk.day.resting import Rest
from tracker.desk.day.today import DayPlan
from tracker.prescription.rest import LEAST, MOST, STATUS, STEP

LATE_S = 120  # so long after its end a rest is still spoken of
SCRIPT = """
<p class="rest" id="{name}_{end}" role="timer" aria-live="off">Rest {minutes}:{seconds:02d}</p>
<script>
(() => {{
  const line = document.getElementById("{name}_{end}");
  const told = "rest-{end}";
  const tell = () => {{
    try {{
      if (sessionStorage.getItem(told)) return;
      sessionStorage.setItem(told, "1");
    }} catch (none) {{}}
    {signal}
  }};
  const tick = () => {{
    if (!line || !line.isConnected) return clearInterval(timer);
    const left = Math.round({end} / 1000 - Date.now() / 1000);
    line.textContent = left > 0
      ? `Rest ${{Math.floor(left / 60)}}:${{String(left % 60).padStart(2, "0")}}`
      : "Rest is over";
    line.classList.toggle("over", left <= 0);
    if (left <= 0 && left > -5) tell();
    if (left < -{late}) {{ line.textContent = ""; clearInterval(timer); }}
  }};
  const timer = setInterval(tick, 500);
  tick();
}})();
</script>
"""


def show(plan: DayPlan) -> None:
    """Draw the countdown where the newest set is that fresh."""
    body = set_clock.counting(plan) or counting(plan, "rest")
    if body:
        st.html(body, unsafe_allow_javascript=True)


def ways(plan: DayPlan) -> None:
    """Draw the ways to change a rest that counts, below what is next: the next load stays in sight."""
    if plan.rest and counting(plan, "rest"):
        _ways(plan, plan.rest)


def counting(plan: DayPlan, name: str) -> str:
    """Return the countdown as HTML with its script, or an empty text; `name` tells it from another one on the screen."""
    rest = plan.rest
    if rest is None or plan.day != here().today:  # what was done on another day is written down, not rested after
        return ""
    left = (rest.ends - datetime.now(UTC)).total_seconds()
    if not -LATE_S < left <= rest.seconds:
        return ""
    shown = max(0, round(left))
    return SCRIPT.format(
        name=name, end=round(rest.ends.timestamp() * 1000), minutes=shown // 60, seconds=shown % 60, late=LATE_S,
        signal=signal(plan.rest_ways),
    )  # fmt: skip


def _ways(plan: DayPlan, rest: Rest) -> None:
    """Let the rest of this lift be longer or shorter, and its end be heard and felt or not."""
    box = st.expander(f"Rest {_clock(rest.seconds)}, {rest.words}", key="rest_ways", on_change="rerun")
    if not box.open:
        return
    now = here()
    with box:
        if rest.source == "usual":
            st.caption(STATUS)
        if rest.source != "clock":
            _longer(rest)
        ways = plan.rest_ways
        for name, on in (("Sound", ways.sound), ("Vibration", ways.vibration)):
            wanted = {"sound": ways.sound, "vibration": ways.vibration, name.lower(): not on}
            label = f"{name} {'off' if on else 'on'}"
            st.button(
                label, key=f"rest_{name.lower()}", on_click=touch, args=(resting.tell_by, now.log, now.member.id),
                kwargs={**wanted, "said": f"{name} at the end of a rest is {'off' if on else 'on'}"},
            )  # fmt: skip


def _longer(rest: Rest) -> None:
    """Let it be longer or shorter from now on."""
    now = here()
    with st.container(horizontal=True, gap="small"):
        for by in (-2 * STEP, 2 * STEP):
            to = min(max(rest.seconds + by, LEAST), MOST)
            st.button(
                f"{'−' if by < 0 else '+'} {abs(by)} s", key=f"rest_{'less' if by < 0 else 'more'}", on_click=touch,
                args=(resting.rest_for, now.log, now.member.id, rest.lift_id, to),
                kwargs={"prescribed": rest.prescribed, "said": f"Rest after {rest.lift}: {_clock(to)} from now on"},
            )  # fmt: skip
        if rest.source == "own":
            back = "As the coach asks" if rest.prescribed else "The usual rest"
            st.button(
                back, key="rest_back", on_click=touch, args=(resting.rest_for, now.log, now.member.id, rest.lift_id, None),
                kwargs={"prescribed": rest.prescribed, "said": f"{back} again"},
            )  # fmt: skip


def _clock(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"
