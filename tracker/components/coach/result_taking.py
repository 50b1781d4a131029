"""Results back: files and pasted lines taken in, names confirmed, and every broken one named."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.desk.coach import fulfil_asked
from tracker.desk.coach.give_back import take_back
from tracker.desk.coach.take_results import NEW, Takings, take_files, take_results
from tracker.desk.coach.write_result import TakenResult
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log.unit_of_work import Log
from tracker.wording import counted

TAKINGS, WAITING, DRAWN = "coach_takings", "coach_waiting", "coach_drawn"
UNDECIDED = "-"
ALONE = "coach_alone"  # results of which the coach said that they were no planned session
MOST_PASTED = 200_000  # letters: some five hundred results; design choice
Sources = tuple[tuple[tuple[str, bytes], ...], str]  # files, and what was pasted


def show() -> None:
    """Draw the box for files and lines."""
    with st.expander("Enter results that came in", key="coach_results", icon=":material/inbox:"):
        drawn = st.session_state.setdefault(DRAWN, 0)  # another number is another, empty box
        files, paste = f"coach_files_{drawn}", f"coach_paste_{drawn}"
        st.text_area(
            "Paste members' result lines", key=paste, height=120,
            placeholder="Tidemark result 1 | ... | check ...", help="Greetings and other lines around them do no harm.",
        )  # fmt: skip
        st.file_uploader(
            "Or their result files", type=["json", "txt"], accept_multiple_files=True, key=files, max_upload_size=1
        )
        st.button("Enter", type="primary", width="stretch", key="coach_take", on_click=_take_in, args=(files, paste))


def told(now: Here) -> None:
    """Draw what came of the last ones, and the names that wait."""
    takings: Takings | None = st.session_state.get(TAKINGS)
    if takings is not None:
        _told(takings)
        if takings.unknown:
            _names(now, takings.unknown)


def _take_in(files: str, paste: str) -> None:
    chosen = tuple((each.name, each.getvalue()) for each in st.session_state.get(files) or ())
    _take((chosen, st.session_state.get(paste) or ""), {})


def _take(sources: Sources, whom: Mapping[str, str]) -> None:
    """Take everything in; what was taken before is known already, so that it can be done again with names."""
    if do(_all_of, here().log, sources, whom, said=_said):
        takings: Takings = st.session_state[TAKINGS]
        st.session_state[WAITING] = sources if takings.unknown else None
        st.session_state[DRAWN] += 0 if takings.broken else 1


def _all_of(log: Log, sources: Sources, whom: Mapping[str, str]) -> Takings:
    files, pasted = sources
    if len(pasted) > MOST_PASTED:
        what = f"What is pasted has {len(pasted):,} letters, more than {MOST_PASTED:,}; nothing was taken."
        raise BadInputError(what, where="their lines", mend="Paste it in parts, or upload it as a file.")
    takings = take_files(log, files, whom=whom)
    if pasted.strip():
        takings += take_results(log, pasted, whom=whom)
    st.session_state[TAKINGS] = takings
    return takings


def _back(takings: Takings) -> None:
    """Take back what came in, that of other members too: the undo above reaches the acts of one member alone."""
    if do(take_back, here().log, takings, said=lambda number: f"Taken back: {counted(number, 'result')}"):
        st.session_state.pop(TAKINGS)


def _said(takings: Takings) -> str:
    return takings.words if takings.taken else ""


def _told(takings: Takings) -> None:
    for each in takings.broken:
        st.error(f"**Not taken.** {as_typed(str(each))}", icon=":material/error:")
    if takings.taken:
        lines = (
            _taken(each.member, each.day.isoformat(), each.new, each.known, each.withdrawn, each.fulfils)
            for each in takings.taken
        )
        st.html("".join(f'<p class="plain">{escape(line)}</p>' for line in lines))
        for taken in {(each.member_id, each.day): each for each in takings.taken if each.member_id}.values():
            _ask(taken)
        if takings.acts:
            st.button("Take all of this back", key="coach_back", on_click=_back, args=(takings,))
    elif not takings.broken and not takings.unknown:
        st.warning("There is no result in it. Choose files, or paste whole lines.", icon=":material/search_off:")
    if takings.passed_over:
        st.caption(f"{counted(len(takings.passed_over), 'line')} of the paste passed over: no result begins there.")


def _ask(taken: TakenResult) -> None:
    """Ask which planned session a result was, where that does not show by itself; no answer leaves it as it is."""
    now = here()
    found = fulfil_asked.asked(now.log, taken.member_id, taken.day)
    gone = st.session_state.setdefault(ALONE, set())
    if not found or (taken.member_id, taken.day) in gone:
        return
    with st.container(border=True, key=f"coach_ask_{taken.member_id}_{taken.day}"):
        st.html(f'<p class="plain"><b>{escape(taken.member)}, {taken.day.isoformat()}: was it one of these?</b></p>')
        for each in found:
            st.button(
                as_typed(each.words), key=f"coach_was_{taken.day}_{each.member_step_id}", width="stretch", on_click=touch,
                args=(fulfil_asked.say_it_was, now.log, taken.member_id, taken.day, each.member_step_id),
                kwargs={"said": lambda words: f"{taken.member}: {words}"},
            )  # fmt: skip
        st.button(
            "None of these", key=f"coach_alone_{taken.member_id}_{taken.day}", width="stretch", type="tertiary",
            on_click=gone.add, args=((taken.member_id, taken.day),),
        )  # fmt: skip


def _taken(member: str, day: str, new: int, known: int, withdrawn: int, fulfils: str) -> str:
    parts = [f"{new} new"] if new else []
    parts += [f"{known} known already"] if known else []
    parts += [f"{withdrawn} withdrawn, since the member edited the result"] if withdrawn else []
    parts += [fulfils] if fulfils else []
    return f"{member}, {day}: {', '.join(parts)}"


def _names(now: Here, unknown: tuple[str, ...]) -> None:
    """Ask once for each name whose it is; nothing of theirs is written until then."""
    known = {each.id: each.name for each in people.members(now.log)}
    options = {UNDECIDED: "Not decided", NEW: "A new member", **known}
    with st.form("coach_names"):
        st.markdown(f"**{counted(len(unknown), 'name')} not in this log.** Nothing of theirs is taken yet.")
        for name in unknown:
            st.selectbox(as_typed(name), list(options), format_func=options.__getitem__, key=f"coach_name_{name}")
        st.form_submit_button("Take these in", type="primary", on_click=_confirmed, args=(unknown,))


def _confirmed(unknown: tuple[str, ...]) -> None:
    given = {name: st.session_state.get(f"coach_name_{name}", UNDECIDED) for name in unknown}
    sources: Sources | None = st.session_state.get(WAITING)
    if sources is not None:
        _take(sources, {name: found for name, found in given.items() if found != UNDECIDED})
