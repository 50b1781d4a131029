"""Loads for any percentages: any lift, any reference max, this kit; as one ladder, the lift of today first."""

import streamlit as st

from tracker.components.day import body_percent, first_max
from tracker.components.frame import cautions, empty, next_line, where
from tracker.components.frame.frame import end, here
from tracker.components.maxes import bar_choice, needed_now, reference_form, wave_form, weight_list
from tracker.desk.day import weights
from tracker.desk.day.lifts_today import lifts_today, waves_today
from tracker.desk.day.next import whats_next

now = here()
st.title("Weights")
lifts = weights.lift_choices(now.log, now.member)
if not lifts:
    empty.no_lift_yet()
    end()
next_line.show(now, whats_next(now.log, now.member.id, now.today, member_step_id=where.chosen_step()))
today = lifts_today(now.log, now.member.id, now.today, member_step_id=where.chosen_step())
of_today = waves_today(now.log, now.member.id, now.today, member_step_id=where.chosen_step())
asked = {lift_id: reps for lift_id, (reps, _) in of_today.items()}
lift, reps = reference_form.ask_lift(now, lifts, first=today[0].id if today else "", asked=asked)
of_which = st.container()
loads, how = st.container(), st.container()
with of_which:
    of = reference_form.ask_source(now, lift, reps)
if of.to_be_found:
    bar_choice.show(now, lift)
    first_max.show(now, lift)
    cautions.stop_signs(open_now=True)  # a first max is logged here
    end()
with of_which:
    wave = wave_form.ask(of_today[lift.id][1] if asked.get(lift.id) == reps else "")
with loads:
    reference = reference_form.read(now, of)
if reference is not None:
    with how:
        rounding = wave_form.rounding(weights.rounding_choice(now.log, now.member, reference, now.today))
    with loads:
        lines = weights.weights(now.log, now.member, lift, reference, wave, now.today, rounding=rounding)
        weight_list.show(lines, lift, reference)
        if lines and lines[0].of:
            body_percent.choice(now, lift, lines[0].of)
needed_now.show(now, lift, reps)
bar_choice.show(now, lift)
