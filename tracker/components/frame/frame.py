"""What every page stands in: the member's name in sight and switched in one touch, notices, undo, and the open log.

A page begins with `now = here()` and writes through `do(...)` in a callback. The address keeps the member, so that a
reload, a locked phone and a second device keep the place.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from html import escape
from typing import NoReturn

import streamlit as st

from tracker.components.frame import signed_in
from tracker.components.frame.acts import ASKED, NOTICE, Asked, Notice, answer, do, newest_act, tell, touch, undo
from tracker.components.frame.acts import token as _token
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.look import pages
from tracker.components.frame.zone import zone_named
from tracker.desk.base import backups
from tracker.desk.people import people
from tracker.door.visitor import visitor_in
from tracker.log.records import ChangeRow, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE as HOUSEHOLD
from tracker.log.who import Who, who
from tracker.units import Unit

HERE, MEMBER = "frame_here", "member"
ONE_TOUCH = people.MOST_OF_HOUSEHOLD  # they fit on one line as buttons; more are chosen from a list
UNDO_HOURS = 12  # an older act is taken back in the journal, where one sees what it was

__all__ = ["Here", "NoMemberError", "PageEnded", "do", "end", "here", "notice_of", "tell", "token", "touch"]


@dataclass(frozen=True, slots=True)
class Here:
    """The open log, whose page it is, and the day where the reader is.

    `someone` is None for a coach or owner who keeps no log and to whom nobody shows theirs.
    """

    log: Log
    someone: MemberRecord | None
    today: date

    @property
    def member(self) -> MemberRecord:
        """Whose page it is; a page that asks for it ends with a sentence where there is nobody."""
        if self.someone is None:
            raise NoMemberError
        return self.someone

    @property
    def member_id(self) -> str | None:
        """In whose history an act stands; None where there is nobody."""
        return self.someone.id if self.someone else None

    @property
    def unit(self) -> Unit:
        """The unit to begin with: the member's."""
        return self.someone.unit if self.someone else "kg"


class PageEnded(Exception):  # noqa: N818 - no error: the page has shown all that it has to show
    """Raised by `end` and taken by the app."""


class NoMemberError(Exception):
    """A page is about one member's log, and there is none to show; taken by the app."""


def end() -> NoReturn:
    """Leave out the rest of a page. `st.stop` would leave out what the app draws after it as well."""
    raise PageEnded


def here() -> Here:
    """Return log, member and day; in a callback those that were on screen when it was touched."""
    return st.session_state[HERE]


def token(key: str, *, shared: bool = False) -> str:
    """Name what is drawn now: hand it to the act, and a second tap is the same act. See `acts.token`."""
    now = here()
    return _token(now.log, now.member.id, key, shared=shared)


def today() -> date:
    """Return the reader's date, by the clock of the browser where it is known."""
    return today_in(st.context.timezone)


def moment_here() -> datetime:
    """Return the reader's time of day, by the clock of the browser where it is known."""
    return datetime.now(zone_named(st.context.timezone)).astimezone(zone_named(st.context.timezone))


def today_in(zone: str | None) -> date:
    """Return the date in a time zone, by its name in the tz database; where it is not known, the server's own."""
    known = zone_named(zone)
    return datetime.now(known).date() if known else date.today()


def draw(log: Log) -> Here:
    """Draw the frame above a page."""
    if visitor_in(st.context.headers) is None:  # else the look came with the page's own HTML, before all this
        st.html(f"<style>{pages()}</style>")
    backups.each_day(log)
    person = who()
    if person.role != HOUSEHOLD.role:
        signed_in.sign_out_line(person)
    known = people.members(log)
    if not known:
        now = st.session_state[HERE] = Here(log, None, today())
        notice_of(None)
        return now
    with st.container(key="frame_head", gap="xsmall"):
        member = _whose(known, person)
        now = st.session_state[HERE] = Here(log, member, today())
        notice_of(now)
    _question()
    return now


def _whose(known: tuple[MemberRecord, ...], person: Who) -> MemberRecord:
    """Show who it is, one touch from anybody else the reader may see; the address has the last word."""
    if person.role == HOUSEHOLD.role:
        known = people.of_household(known)
    by_id = {each.id: each for each in known}
    wanted = st.query_params.get(MEMBER) or st.session_state.get("frame_last_member")
    member = by_id.get(wanted or "", by_id.get(person.member_id or "", known[0]))
    if person.role != HOUSEHOLD.role:
        _say_whose(member, person, refused=bool(wanted) and wanted not in by_id)
    st.session_state["frame_member"] = member.id
    names = {each.id: each.name for each in known}
    if len(known) == 1 and member.id == person.member_id:
        pass  # it stands in the line above, with the way out
    elif len(known) == 1:
        st.html(f'<p class="frame-name">{escape(member.name)}</p>')
    elif len(known) <= ONE_TOUCH:
        st.segmented_control(
            "Member", list(names), format_func=lambda each: as_typed(names[each]), key="frame_member", required=True,
            on_change=_switched, label_visibility="collapsed",
        )  # fmt: skip
    else:
        st.selectbox(
            "Member", list(names), format_func=names.__getitem__, key="frame_member", on_change=_switched,
            label_visibility="collapsed",
        )  # fmt: skip
    st.session_state["frame_last_member"] = member.id
    if st.query_params.get(MEMBER) != member.id:
        st.query_params[MEMBER] = member.id
    return member


def _say_whose(member: MemberRecord, person: Who, *, refused: bool) -> None:
    """Tell whoever signed in that a log is not theirs to see, or not theirs to change."""
    if refused:
        said = f"The log in the address is not yours to see. This is {as_typed(member.name)}'s."
        st.error(said, icon=":material/lock:")
    elif member.id != person.member_id:
        st.caption(f"{as_typed(member.name)} shares this with you. Only they change it.")


def _switched() -> None:
    st.query_params[MEMBER] = st.session_state["frame_member"]
    st.session_state.pop(ASKED, None)


def notice_of(now: Here | None) -> None:
    """Draw what came of the last act, with undo beside it as long as it is fresh."""
    notice: Notice | None = st.session_state.pop(NOTICE, None)
    person = who()
    mine = now is not None and (person.role == HOUSEHOLD.role or person.member_id == now.member.id)
    act = fresh_act(now) if now and mine else None  # nobody takes back what another did
    if not notice and not act:
        return
    with st.container(key="frame_notice_line", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        if notice:
            role = "alert" if notice.kind == "error" else "status"
            mend = f" <span>{escape(notice.mend)}</span>" if notice.mend else ""
            mark = "Not saved. " if notice.kind == "error" else ""
            st.html(f'<p class="notice notice-{notice.kind}" role="{role}">{mark}{escape(notice.text)}{mend}</p>')
        elif act:
            st.html(last_words(act))
        if now and act and not (notice and notice.kind == "error"):
            st.button(
                "Undo", key="frame_undo", help=f"Take back: {as_typed(act.words)}", on_click=undo, args=(now.log, act)
            )


def fresh_act(now: Here) -> ChangeRow | None:
    """Return the member's newest act, as long as one touch takes it back."""
    act = newest_act(now.log, now.member.id)
    return act if act is not None and datetime.now(UTC) - act.at < timedelta(hours=UNDO_HOURS) else None


def last_words(act: ChangeRow) -> str:
    """Return as HTML what was done last."""
    return f'<p class="notice notice-last">Last: {escape(act.words)}</p>'


def _question() -> None:
    """Ask about a load that looks like the other unit; nothing is lost until it is answered."""
    asked: Asked | None = st.session_state.get(ASKED)
    if asked is None:
        return
    load = asked.slip.load
    other = "lb" if load.unit == "kg" else "kg"
    with st.container(border=True, key="frame_question"):
        st.markdown(f"**Not saved yet.** {as_typed(asked.slip.what)}")
        with st.container(horizontal=True):
            st.button(f"It was {load.amount} {other}", key="frame_other", on_click=answer, args=("other unit",))
            st.button(f"Log {load} as it is", key="frame_as_is", on_click=answer, args=("as it is",))
            st.button("Don't log it", key="frame_leave", type="tertiary", on_click=answer, args=("leave",))
