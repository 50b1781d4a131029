"""Best marks: a board by lift and by piece, dated, with what was beaten last."""

import streamlit as st

from tracker.components.frame import empty, kept, plot, where
from tracker.components.frame.frame import end, here
from tracker.components.maxes import board, trend_choice
from tracker.desk.day.lifts_today import lifts_today
from tracker.desk.maxes import glance, marks, trend
from tracker.desk.pieces.best_pieces import best_pieces

now = here()
st.title("Best marks")
done = [lift for lift, _, _ in trend.lifts_done(now.log, now.member.id)]
pieces = best_pieces(now.log, now.member.id, now.today)
if not done and not pieces:
    empty.nothing_logged()
    end()
newest = [marks.last_beaten(now.log, now.member.id, lift, now.today) for lift in done]
board.beaten([each for each in newest if each is not None], pieces, now.today)
what = kept.segments(
    "board", "Board", {"lifts": "By lift", "pieces": "By piece"}, default="lifts" if done else "pieces"
)
if what == "lifts" and done:
    lift = trend_choice.ask_lift(glance.today_first(done, lifts_today(now.log, now.member.id, now.today)))
    board.lift(now, lift)
elif what == "lifts":
    st.write("No lift is logged yet.")
else:
    board.pieces(pieces, now.today)
with st.container(horizontal=True, gap="small"):
    empty.way_to("trend", "Trend", icon=":material/trending_up:", carried=where.carried(now, now.today))
    empty.way_to("today", "Back to the day", icon=":material/today:", carried=where.carried(now, now.today))
plot.follow_the_look()
