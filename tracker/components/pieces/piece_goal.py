"""The goal in a piece, beside its results: how likely the next go is as good, and setting, changing and ending it."""

from __future__ import annotations

from datetime import date, timedelta
from html import escape

import streamlit as st

from tracker.components.frame.frame import Here, do, here, tell, touch
from tracker.conditioning.scores import Score
from tracker.conditioning.told import told_words
from tracker.desk.ahead import goal_choices, goal_piece, goal_view, goals
from tracker.desk.ahead.goal_view import GoalView
from tracker.desk.maxes.words import full_day
from tracker.desk.pieces.piece_history import PieceHistory
from tracker.errors import TidemarkError
from tracker.log.goals import PieceAim
from tracker.log.who import HERE as HOUSEHOLD
from tracker.log.who import who
from tracker.strength.forecast import MOST_WEEKS
from tracker.wording import counted

SOME_DAY, ANOTHER = "Some day", "Another day"
DAYS = {**{f"{weeks} weeks": weeks for weeks in goal_choices.WEEKS}, ANOTHER: 0, SOME_DAY: None}


def show(now: Here, piece_id: str, history: PieceHistory) -> None:
    """Draw the goals of a piece, or the way to one; without a result there is no version to set one in."""
    if history.against is None:
        return
    known = goal_view.piece_goals(now.log, now.member.id, history.title, day=now.today)
    mine = who().role == HOUSEHOLD.role or who().member_id == now.member.id
    for each in known:
        _card(each, history, mine=mine)
    best = goal_piece.best_of([line.row.score for line in history.like])
    if mine and best is not None and all(each.reached for each in known):
        words = "Set the next goal" if known else "Set a goal"
        box = st.expander(words, key=f"piece_goal_set_{piece_id}", icon=":material/flag:", on_change="rerun")
        if box.open:
            with box:
                key = f"piece_goal_{now.member.id}_{piece_id}"
                _fields(now, best, key)
                st.button(
                    "Set this goal", key=f"{key}_do", type="primary", width="stretch", on_click=_set,
                    args=(history.against.piece_id, best, key),
                )  # fmt: skip


def _card(each: GoalView, history: PieceHistory, *, mine: bool) -> None:
    with st.container(border=True, key=f"goal_{each.row.id}", gap="xsmall"):
        over = "Goal reached" if each.reached else "Goal"
        said = [f"{each.reached.words} on {full_day(each.reached.day)}."] if each.reached else list(each.lines)
        st.html(
            f'<p class="over">{over}</p><p class="headline">{escape(each.title)}</p>'
            + "".join(f'<p class="plain">{escape(line)}</p>' for line in said)
        )
        if not mine:
            return
        if each.reached:
            st.button("Put it away", key=f"goal_away_{each.row.id}", on_click=_put_away, args=(each.row.id,))
            return
        box = st.expander("Change or give up", key=f"goal_change_{each.row.id}", on_change="rerun")
        if box.open:
            with box:
                aim, key = each.row.aim, f"piece_goal_{each.row.id}"
                assert isinstance(aim, PieceAim)
                best = goal_piece.best_of([line.row.score for line in history.like]) or aim.score
                _fields(here(), best, key, now_wanted=aim.score, by=each.row.by)
                with st.container(horizontal=True, gap="small"):
                    args = (each.row.id, best, key)
                    st.button("Change it", key=f"{key}_do", type="primary", on_click=_change, args=args)
                    st.button("Give it up", key=f"{key}_give_up", on_click=_give_up, args=(each.row.id,))


def _fields(now: Here, best: Score, key: str, *, now_wanted: Score | None = None, by: date | None = None) -> None:
    offered = {told_words(each): each for each in goal_piece.offered_scores(best)}
    if now_wanted is not None:
        offered = {told_words(now_wanted): now_wanted, **offered}
    if offered:
        if st.session_state.get(f"{key}_score", "") not in (None, *offered):  # none: what is typed counts
            st.session_state[f"{key}_score"] = next(iter(offered))
        st.pills("Score", list(offered), key=f"{key}_score")
    st.text_input("Another score" if offered else "The score that you want", key=f"{key}_typed", placeholder=f"such as {told_words(best)}")  # fmt: skip
    first = (ANOTHER if by else SOME_DAY) if now_wanted is not None else counted(goal_choices.USUAL_WEEKS, "week")
    st.session_state.setdefault(f"{key}_by", first)
    st.pills("By", list(DAYS), required=True, key=f"{key}_by")
    if st.session_state[f"{key}_by"] == ANOTHER:
        usual = now.today + timedelta(weeks=goal_choices.USUAL_WEEKS)
        st.date_input(
            "Day", value=by if by and by > now.today else usual, min_value=now.today + timedelta(days=1),
            max_value=now.today + timedelta(weeks=MOST_WEEKS), key=f"{key}_day",
        )  # fmt: skip


def _wanted(now: Here, best: Score, key: str) -> tuple[Score, date | None]:
    state = st.session_state
    typed, chosen = (state.get(f"{key}_typed") or "").strip(), state.get(f"{key}_score")
    offered = {told_words(each): each for each in goal_piece.offered_scores(best)}
    if typed or chosen not in offered:
        score = goal_piece.typed_score(best, typed, now.unit, now.today)
    else:
        score = offered[chosen]
    return score, goal_choices.day_of(DAYS[state.get(f"{key}_by") or SOME_DAY], state.get(f"{key}_day"), now.today)


def _set(piece_id: str, best: Score, key: str) -> None:
    now = here()
    try:
        score, by = _wanted(now, best, key)
    except TidemarkError as error:
        tell(error)
        return
    done = do(
        goals.set_piece_goal, now.log, now.member.id, piece_id, score=score, by=by, day=now.today,
        said=f"Goal set: {told_words(score)}.",
    )  # fmt: skip
    if done:  # the next one begins with nothing typed
        st.session_state[f"{key}_typed"] = ""


def _change(goal_id: str, best: Score, key: str) -> None:
    now, typed = here(), (st.session_state.get(f"{key}_typed") or "").strip()
    try:
        by = goal_choices.day_of(
            DAYS[st.session_state.get(f"{key}_by") or SOME_DAY], st.session_state.get(f"{key}_day"), now.today
        )
        offered = {told_words(each): each for each in goal_piece.offered_scores(best)}
        score = goal_piece.typed_score(best, typed, now.unit, now.today) if typed else offered.get(
            st.session_state.get(f"{key}_score") or ""
        )  # fmt: skip
    except TidemarkError as error:
        tell(error)
        return
    if do(goals.change_goal, now.log, now.member.id, goal_id, by=by, day=now.today, score=score, said="Goal changed."):
        st.session_state[f"goal_change_{goal_id}"] = False


def _give_up(goal_id: str) -> None:
    now = here()
    touch(goals.give_up, now.log, now.member.id, goal_id, now.today, said="Goal given up.")


def _put_away(goal_id: str) -> None:
    now = here()
    touch(goals.put_away, now.log, now.member.id, goal_id, now.today, said="Put away as reached.")
