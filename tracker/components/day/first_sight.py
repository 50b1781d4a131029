"""The next set as it stands there until the page itself has come; an early touch on its button waits for that."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from tracker.components.day import next_set, rest, warm_up
from tracker.components.frame import cautions, frame, where
from tracker.components.frame.look import style, theme
from tracker.components.frame.opened import opened
from tracker.components.frame.words import day_words, first_up
from tracker.desk.base.cached import page_snapshot
from tracker.desk.day.next import whats_next
from tracker.desk.people import people, places
from tracker.errors import TidemarkError

SOON = "Opening the log."


def draw(database: str, address: Mapping[str, str]) -> str:
    """Return the next set of whom the address names, on its day, as HTML.

    Args:
        database: The log, as the pages open it.
        address: Its member, day and chosen session, and the browser's time zone as `zone`; each may be missing or wrong.

    Returns:
        An empty text where no set is due, or where something is wrong: the page will say what.
    """
    try:
        with page_snapshot():
            return _drawn(database, address)
    except TidemarkError:
        return ""


def _drawn(database: str, address: Mapping[str, str]) -> str:
    log = opened(database)
    known = people.members(log)
    if not known:
        return ""
    member = next((each for each in known if each.id == address.get(frame.MEMBER)), known[0])
    now = frame.Here(log, member, frame.today_in(address.get("zone")))
    day = where.day_in(address.get(where.DAY, ""), now.today)
    found = whats_next(log, member.id, day, prefer={}, member_step_id=address.get(where.SESSION))
    plan, line = found.plan, found.line
    if plan.step is None or line is None:
        return ""
    bar = places.bar_in_use(plan.member, plan.place)
    place = f"{where.place_words(plan.place, bar)}, {day_words(day, now.today)}"
    act = frame.fresh_act(now)
    careful = cautions.said(cautions.not_put_away(now, line.cautions))
    last = f'<div class="last">{frame.last_words(act)}</div>' if act else ""
    alone = "whose alone" if len(known) == 1 else "whose"
    label = next_set.done_label(plan, line)
    button = f'<button type="button" class="done">{escape(label)}</button>' if label else ""
    return (
        f"<style>html {{ font-size: {theme()['baseFontSize']}px; }} {style('.first-sight', 'frame/card.css', 'day/first_sight.css')}</style>"
        f'<section class="first-sight" aria-label="The next set"><header><p class="{alone}">{escape(member.name)}</p>{last}</header>'
        f'<h1>{escape(first_up(plan.step.title))}</h1><p class="place">{escape(place)}</p>'
        f"{warm_up.early(found)}{rest.counting(plan, 'early_rest')}"
        f'<section>{next_set.said(found, line, where.bar_words(bar))}{button}<p class="soon" role="status">{SOON}</p></section>{careful}</section>'
    )
