"""The conditioning piece: what it asks, its clock, your score, and how it stands beside like ones."""

import streamlit as st

from tracker.components.frame import cautions, next_line, where
from tracker.components.frame.frame import end, here
from tracker.components.pieces import (
    piece_choice,
    piece_clock,
    piece_link,
    piece_results,
    piece_side,
    score_entry,
    score_touches,
)
from tracker.desk.day.next import whats_next
from tracker.desk.people import places
from tracker.desk.pieces import clocks, conditioning, piece_care, piece_history

now = here()
if now.someone is None:  # a coach or owner who keeps no log: the pieces of the gym
    piece_choice.of_the_gym(now)
    cautions.stop_signs()
    end()
day = where.chosen_day(now)
piece_clock.back_to_the_day(now, day)
plan = conditioning.piece_day(now.log, now.member.id, day, member_step_id=where.chosen_step())
found = whats_next(now.log, now.member.id, day, member_step_id=where.chosen_step())
clock = clocks.open_clock(now.log, now.member.id)

st.title("Pieces")
where.show(places.place_of(now.log, plan.member), None, day)
row = piece_choice.show(plan, clock)
if row is None:
    next_line.show(now, found)
    piece_choice.new_piece(now, open_now=True)
    cautions.stop_signs()
    end()
running = piece_clock.runs(row, clock)
if running:
    piece_clock.show(row, clock, day)
piece_choice.board(row)
piece_link.show_last(now, row, day)
piece_side.show(row)
cautions.show(dict.fromkeys((*plan.watch, *piece_care.cautions(now.log, plan.member, row.piece, day))))
history = piece_history.piece_history(now.log, now.member.id, row.piece.title)
if not running:
    piece_clock.show(row, clock, day)
    next_line.show(now, found, here=row.id)
score_entry.show(score_touches.scene(plan, row, clock, history))
if running:
    next_line.show(now, found, here=row.id)
piece_results.show(history, now.today)
piece_choice.new_option(row)
piece_choice.new_piece(now, open_now=False)
piece_choice.put_away(row)
cautions.stop_signs()
