"""Loads for any percentages: any lift, any reference max, this kit."""

import streamlit as st

from tracker.components import bar_choice, cautions, empty, first_max, reference_form, wave_form, weight_list
from tracker.components.frame import here
from tracker.desk import weights

now = here()
st.title("Weights")
lifts = {lift.id: lift for lift in weights.lift_choices(now.log, now.member)}
if not lifts:
    empty.no_lift_yet()
    st.stop()
chosen = st.selectbox("Lift", list(lifts), format_func=lambda each: lifts[each].title, key="weights_lift")
lift = lifts[chosen]
of = reference_form.choose(now, lift)
if of.to_be_found:
    bar_choice.show(now, lift)
    first_max.show(now, lift)
    cautions.stop_signs()
    st.stop()
wave = wave_form.ask()
bar_choice.show(now, lift)
if of.reference is None:
    st.info("Type your rep-max, and the loads stand here.", icon=":material/arrow_upward:")
    st.stop()
choice = weights.rounding_choice(now.log, now.member, of.reference, now.today)
rounding = wave_form.rounding(choice)
lines = weights.weights(now.log, now.member, lift, of.reference, wave, now.today, rounding=rounding)
st.subheader(of.reference.words(now.today))
weight_list.show(lines, lift)
cautions.stop_signs()
