"""What was got in a piece: today's scores to be mended, like results together, unlike ones beside, and what it means."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.charts.piece import ResultMark, Usual, piece_figure, piece_words
from tracker.components.frame import as_file, kept, plot
from tracker.components.frame.acts import do
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words, first_up, full_day
from tracker.desk.pieces import conditioning, piece_history
from tracker.desk.pieces.piece_entry import Said, as_said
from tracker.desk.pieces.piece_history import HistoryLine, PieceHistory
from tracker.log.scores import ScoreRow

MENDING = "piece_mending"
FEW = 5  # lines shown at once; older ones stand behind one more touch


def show(history: PieceHistory, today: date) -> None:
    """Draw the history of a piece."""
    if not history.lines or history.against is None:
        st.write("No result yet. The first one stands here as soon as it is logged.")
        return
    if len(history.variants) > 1:
        history = _way_of(history)
    _newest(history)
    _figure(history)
    _lines(f"Same version ({len(history.like)})", history.like, today, "like")
    if history.unlike:
        _lines("Other versions: not compared", history.unlike, today, "unlike")
    _why(history)
    _as_file(history)


def _way_of(history: PieceHistory) -> PieceHistory:
    """Choose from which way of doing the piece the others are looked at; at first the newest one."""
    names = dict(history.variants)
    chosen = kept.select("way", "Compare the results done", names, default=history.variants[0][0])
    if history.against and chosen == history.variants[0][0]:
        return history
    now = here()
    return piece_history.piece_history(now.log, now.member.id, history.title, score_id=chosen)


def _newest(history: PieceHistory) -> None:
    """Say the best result and what the change to the newest one means; the reason stands behind a touch, below."""
    best = next((line for line in history.like if line.best == "best"), None)
    head = f'<p class="headline">Best: {escape(_short(best))}</p>' if best else ""
    change = history.change
    if change is not None and change.head:
        st.html(f'{head}<p class="plain">{escape(first_up(change.head))}.</p>')
    elif len(history.like) == 1 and history.unlike:
        st.html(f'{head}<p class="plain">The first of its version: nothing to compare with yet.</p>')
    elif head:
        st.html(head)


def _why(history: PieceHistory) -> None:
    """How sure the change to the newest result is, and from what that is known."""
    if history.change is None:
        return
    with st.expander("How sure is that?", key="piece_sure"):
        st.html(f'<p class="plain">{escape(first_up(history.change.sentence))}</p>')
        if history.mean_before:
            st.caption(history.mean_before)


def _figure(history: PieceHistory) -> None:
    marks = [
        ResultMark(
            line.row.score.day, *line.amount, line.like, _hover(line), line.beyond,
            line.best if line.best != "perhaps best" else "perhaps",
        )
        for line in reversed(history.lines)
        if line.amount is not None
    ]  # fmt: skip
    if len(marks) < 2:
        return
    drawn = piece_figure(
        marks, quantity=history.quantity, unit=history.unit, less_is_better=history.less_is_better, usual=_usual(history),
        dark=plot.is_dark(),
    )  # fmt: skip
    plot.show(drawn, key="piece_figure", alt=piece_words(marks, title=history.title))
    plot.follow_the_look()


def _as_file(history: PieceHistory) -> None:
    as_file.save(
        [
            {"day": line.row.score.day, "score": line.said, "like the newest": line.like, "beside it": _small(line)}
            for line in history.lines
        ],
        f"{history.title} results", key="piece_csv",
    )  # fmt: skip


def _hover(line: HistoryLine) -> str:
    return "<br>".join(escape(part) for part in (line.said, line.where, *line.differs) if part)


def _usual(history: PieceHistory) -> Usual | None:
    """The variation to be expected around the like result before; none while it is not known."""
    change = history.change
    if change is None or change.limits is None or change.verdict == "learning":
        return None
    before = next((line for line in history.like if line.row.score is change.before), None)
    if before is None or before.amount is None:
        return None
    low, high = before.amount
    wide = change.limits[1]
    return Usual(change.before.day, change.now.day, low * (1 + wide.down), high * (1 + wide.up))


def _lines(title: str, lines: tuple[HistoryLine, ...], today: date, key: str) -> None:
    st.markdown(f"**{title}**")
    for line in lines[:FEW]:
        _line(line, today)
    if len(lines) > FEW:
        with st.expander(f"{len(lines) - FEW} older", key=f"older_{key}"):
            _older(lines[FEW:], today, key)


def _older(lines: tuple[HistoryLine, ...], today: date, key: str) -> None:
    """The older results as a table, and a way to mend one of them."""
    rows = [
        {"day": full_day(line.row.score.day), "score": line.said, "what differs": _small(line), "": line.best}
        for line in lines
    ]
    st.dataframe(rows, hide_index=True, key=f"older_{key}_rows", alt="Older results by day")
    names = {line.row.id: f"{day_words(line.row.score.day, today)}: {line.said}" for line in lines}
    chosen = st.selectbox("Edit", list(names), index=None, format_func=names.__getitem__, key=f"older_{key}_one")
    row = next((line.row for line in lines if line.row.id == chosen), None)
    if row is not None:
        mending(row)


def _small(line: HistoryLine) -> str:
    """What else there is to say of a result."""
    score, short = line.row.score, _short(line)
    parts = (
        line.said.removeprefix(short).strip(" ()") if line.said != short else "",
        "" if short.startswith(line.all_done) else line.all_done,
        line.where,
        *(line.swaps if line.like else line.differs),
        line.learning,
        line.pace,
        score.note,
    )
    return "; ".join(part for part in parts if part)


def _short(line: HistoryLine) -> str:
    """A score without what stands in brackets behind it."""
    return line.said.split(" (")[0] if line.said.endswith(")") else line.said


def _line(line: HistoryLine, today: date) -> None:
    best = f" <b>{escape(line.best)}</b>" if line.best else ""
    with st.container(key=f"row_{line.row.id}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        st.html(
            f'<p class="plain"><b>{escape(_short(line))}</b>{best} <span>{escape(day_words(line.row.score.day, today))}</span>'
            f"<br><small>{escape(_small(line))}</small></p>"
        )
        st.button(
            "Edit",
            icon=":material/edit:",
            type="tertiary",
            key=f"mend_score_{line.row.id}",
            on_click=_mend,
            args=(line.row.id,),
        )
    if st.session_state.get(MENDING) == line.row.id:
        mending(line.row)


def mending(row: ScoreRow) -> None:
    """Draw all of a score to be mended: result, time, what was done otherwise, day and note; or removed."""
    key, said = f"mending_{row.id}", as_said(row.score)
    with st.container(border=True):
        with st.form(f"{key}_form", border=False):
            st.text_input("Score", said.text, key=f"{key}_text")
            st.text_input(
                "Done otherwise", said.swaps, key=f"{key}_swaps", placeholder="toes-to-bar -> sit-up; row -> row, 12 kg"
            )
            if row.score.piece.rounds_to_tap != 0 or said.splits:
                st.text_input("Rounds ended at", said.splits, key=f"{key}_splits")
            if row.score.piece.tie_break:
                st.text_input(f"Time at {row.score.piece.tie_break}", said.tie_break, key=f"{key}_tie_break")
            if row.score.piece.partners > 1 or said.partner:
                st.text_input("Partner's name", said.partner, key=f"{key}_partner")
            st.date_input("Day", row.score.day, key=f"{key}_day", format="YYYY-MM-DD", max_value=here().today)
            st.text_area("Note", said.note, key=f"{key}_note")  # one that is too long is refused, and still stands here
            st.form_submit_button("Save the change", type="primary", width="stretch", on_click=_save, args=(row, key))
        with st.container(horizontal=True):
            st.button("Remove this score", key=f"{key}_remove", on_click=_remove, args=(row,))
            st.button("Close", key=f"{key}_close", type="tertiary", on_click=_mend, args=(None,))


def _mend(score_id: str | None) -> None:
    st.session_state[MENDING] = score_id


def _save(row: ScoreRow, key: str) -> None:
    state = st.session_state
    said = Said(
        *(str(state.get(f"{key}_{part}", "")) for part in ("text", "swaps", "splits", "tie_break", "note", "partner"))
    )
    if do(conditioning.mend_score, here().log, row.id, said, state[f"{key}_day"], said="Saved: the score is changed"):
        _mend(None)


def _remove(row: ScoreRow) -> None:
    if do(conditioning.remove_score, here().log, row.id, said="The score is removed"):
        _mend(None)
