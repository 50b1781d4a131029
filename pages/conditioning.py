"""The conditioning piece in three parts: do it on its clock, score it, and look back at results of the same version."""

import streamlit as st

from tracker.components.frame import cautions, next_line, where
from tracker.components.frame.frame import end, here
from tracker.components.pieces import (
    piece_choice,
    piece_clock,
    piece_goal,
    piece_link,
    piece_parts,
    piece_results,
    piece_side,
    piece_ticks,
    score_entry,
    score_swaps,
    score_touches,
)
from tracker.desk.day.next import whats_next
from tracker.desk.people import places
from tracker.desk.pieces import clocks, conditioning, piece_care, piece_history

now = here()
if now.someone is None:  # a coach or owner who keeps no log: the pieces of the gym
    piece_choice.of_the_gym(now)
    end()
day = where.chosen_day(now)
piece_clock.back_to_the_day(now, day)
plan = conditioning.piece_day(now.log, now.member.id, day, member_step_id=where.chosen_step())
found = whats_next(now.log, now.member.id, day, member_step_id=where.chosen_step())
clock = clocks.open_clock(now.log, now.member.id)

st.title("Pieces")
place = places.place_of(now.log, plan.member, day)
# While a clock runs nothing stands above it: what is chosen follows below.
first, second = st.container(key="piece_first"), st.container(key="piece_second")
top, body = (second, first) if piece_clock.any_runs(clock) else (first, second)
with top:
    where.show(place, None, day)
    row = piece_choice.show(plan, clock)
if row is None:
    next_line.show(now, found)
    piece_choice.new_piece(now, open_now=True)
    cautions.stop_signs()
    end()
history = piece_history.piece_history(now.log, now.member.id, row.piece.title)
form = score_touches.scene(plan, row, clock, history)
with body:
    do, score, back = piece_parts.show(ended=piece_clock.is_over(row, clock))
with do, st.container(key="piece_do"):
    running = piece_clock.runs(row, clock)
    if running:
        piece_clock.show(row, clock, day, place)
    piece_choice.board(row, place)
    piece_link.show_last(now, row, day)
    piece_side.show(row)
    if row in plan.open_pieces or row not in plan.planned:
        piece_ticks.show(now, row, day, plan.step.id if plan.step and row in plan.planned else None)
    cautions.show(dict.fromkeys((*plan.watch, *piece_care.cautions(now.log, plan.member, row.piece, day))))
    if not running:
        piece_clock.show(row, clock, day, place)
with score, st.container(key="piece_score"):
    piece_clock.show_over(row, clock)
    score_swaps.begin(row, form.key, place)
    score_entry.show(form)
with back, st.container(key="piece_back"):
    piece_results.show(history, now.today)
    piece_goal.show(now, row.id, history)
next_line.show(now, found, here=row.id)
if not piece_clock.any_runs(clock):
    with do:
        piece_choice.more(now, row)
cautions.stop_signs()
