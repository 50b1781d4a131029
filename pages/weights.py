"""Loads for any percentages: any lift, any reference max, this kit."""

import streamlit as st

from tracker.components.day import first_max
from tracker.components.frame import cautions, empty, next_line, where
from tracker.components.frame.frame import end, here
from tracker.components.maxes import bar_choice, reference_form, wave_form, weight_list
from tracker.desk.day import weights
from tracker.desk.day.next import whats_next

now = here()
st.title("Weights")
lifts = weights.lift_choices(now.log, now.member)
if not lifts:
    empty.no_lift_yet()
    end()
found = whats_next(now.log, now.member.id, now.today, member_step_id=where.chosen_step())
next_line.show(now, found)
lift, reps = reference_form.ask_lift(now, lifts, first=found.line.lift.id if found.line else "")
of = reference_form.ask_source(now, lift, reps)
if of.to_be_found:
    bar_choice.show(now, lift)
    first_max.show(now, lift)
    cautions.stop_signs()
    end()
wave = wave_form.ask()
loads = st.container()
bar_choice.show(now, lift)
how = st.container()
cautions.stop_signs()
with loads:
    reference = reference_form.read(now, of)
if reference is not None:
    with how:
        rounding = wave_form.rounding(weights.rounding_choice(now.log, now.member, reference, now.today))
    with loads:
        lines = weights.weights(now.log, now.member, lift, reference, wave, now.today, rounding=rounding)
        weight_list.show(lines, lift, reference)
