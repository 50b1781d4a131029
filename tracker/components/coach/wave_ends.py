"""The end of a class's wave, behind a touch: who stands where then, whose max will be old, and one day to test on."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.frame import Here
from tracker.components.frame.words import full_day
from tracker.desk.ahead.forecast import NO_PROMISE
from tracker.desk.coach.wave_end import StandsThen, wave_end
from tracker.prescription.rounding import OLD_WEEKS
from tracker.strength.records import Band
from tracker.units import Unit


def show(now: Here, choice: ClassChoice) -> None:
    """Draw the fold; nothing is worked out while it is closed."""
    if not choice.member_ids:
        return
    box = st.expander("Where the wave ends", key="coach_wave_end", icon=":material/flag:", on_change="rerun")
    if not box.open:
        return
    with box:
        found = wave_end(now.log, tuple(choice.member_ids), choice.day)
        if found is None:
            st.html('<p class="plain">Nobody of this class has a session planned after this day.</p>')
            return
        words = "".join(f'<p class="plain">{escape(line)}</p>' for line in found.words)
        st.html(f'<p class="plain"><b>The last session is on {escape(full_day(found.ends))}.</b></p>{words}')
        rows = "".join(map(_row, found.stands))
        st.html(
            '<table class="class-table"><thead><tr><th scope="col">Who</th><th scope="col">Now, and then</th></tr></thead>'
            f"<tbody>{rows}</tbody></table>"
        )
        st.caption(
            f"Then: 80 % sure, if they train on as they have. {NO_PROMISE} A max is old after {OLD_WEEKS} weeks; one that the "
            "wave itself tests is not named."
        )


def _row(each: StandsThen) -> str:
    unit = each.member.unit
    said = (
        f"{each.reps}RM {_about(each.now, unit)}, then {_between(each.then, unit)}"
        if each.now and each.then
        else "too little is known"
    )
    stale = f"<small>▲ {escape(each.stale)}</small>" if each.stale else ""
    return f'<tr><th scope="row" class="who">{escape(each.member.name)}<small>{escape(each.lift.name)}</small></th><td>{escape(said)}{stale}</td></tr>'


def _about(band: Band, unit: Unit) -> str:
    return f"about {_whole(band.estimate)} {unit}"


def _between(band: Band, unit: Unit) -> str:
    return f"{_whole(band.low80)} to {_whole(band.high80)} {unit}"


def _whole(load: float) -> str:
    return f"{round(load):,}".replace("-", "−")
