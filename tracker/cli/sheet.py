"""`tidemark sheet`: a coach's session sheet, what was understood of it, and the way into the log."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, FILE, database_option, json_option, member_named, with_log
from tracker.cli.output import say_json
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tracker.desk.sheet.sheet_changes import SessionChange
    from tracker.desk.sheet.sheets import SheetPreview
    from tracker.log.sheets import WaveText
    from tracker.log.unit_of_work import Log
    from tracker.prescription.sheet.asks import Ask
    from tracker.prescription.sheet.model import Sheet


@click.command()
@click.argument("file", type=FILE)
@click.option(
    "--member", "names", metavar="NAME", multiple=True, help="Take it into the log for this member; repeatable."
)
@click.option("--start", type=DAY, help="The day of its first session, where the sheet names none.")
@click.option("--change", is_flag=True, help="Write what it changes against the earlier sheet that goes by its title.")
@click.option(
    "--answer",
    "given",
    metavar="KEY=CODE",
    multiple=True,
    help="Read it the other way: a key and a code of `asks`, as they are told; repeatable.",
)
@database_option
@json_option
def sheet(
    file: Path, names: tuple[str, ...], start: date | None, change: bool, given: tuple[str, ...], as_json: bool
) -> None:
    """Read a coach's session sheet, typed in any hand, and say back what was understood.

    What can be read in two ways is told with the reading that was taken; what is not understood stays as the coach's words.
    Nothing is written but with --member, which puts it into that member's calendar, or --change: without that, a sheet
    that says otherwise than the earlier one of its title and days only shows what it changes. What is begun or done stays.
    """
    from tracker.exchange.csv_text import read_text
    from tracker.prescription.sheet import as_json as record_of
    from tracker.prescription.sheet import said_back
    from tracker.prescription.sheet.written.said_back import ask_words

    text, answers = read_text(file, save_as="text in UTF-8"), _answers(given)
    if names or change:
        understood, asks, done = _into_the_log(text, file.name, names, start, change, answers)
    else:
        understood, asks = _read(text, file.name, answers)
        done = {}
    if as_json:
        say_json({**record_of(understood, asks), **done})
        return
    asked = (f"{ask_words(ask)} {_ways(ask)}" for ask in asks)
    for line in (*said_back(understood), *asked, *_words(done)):
        click.echo(line)


def _read(text: str, name: str, answers: dict[str, str]) -> tuple[Sheet, tuple[Ask, ...]]:
    from tracker.desk.sheet.sheet_text import split
    from tracker.prescription.sheet import read

    noted = split(text)
    reading = read(noted.text, name=name, answers={**noted.answers, **answers}, today=noted.day or date.today())
    _all_count(answers, reading.answered, reading.asks)
    return reading.sheet, reading.asks


def _answers(given: tuple[str, ...]) -> dict[str, str]:
    found: dict[str, str] = {}
    for each in given:
        key, sign, code = each.rpartition("=")
        if not (sign and key.strip() and code.strip()):
            raise BadInputError(
                f"{each!r} is no answer.", where="--answer", mend='Write such as --answer "per cent of what=3RM".'
            )
        found[key.strip()] = code.strip()
    return found


def _all_count(answers: dict[str, str], counted: Mapping[str, str], asks: Sequence[Ask]) -> None:
    """Refuse an answer that this sheet does not ask for: it would be a slip that changes nothing."""
    known = {ask.key: ", ".join(each.code for each in (ask.taken, *ask.others)) for ask in asks}
    for key, code in answers.items():
        if key in counted:
            continue
        if key in known:
            raise BadInputError(
                f"{code!r} is no reading of {key!r}.", where="--answer", mend=f"Take one of: {known[key]}."
            )
        mend = f"It asks: {'; '.join(known)}." if known else "Leave the answer out: nothing is asked."
        raise BadInputError(f"{key!r} is not asked of this sheet.", where="--answer", mend=mend)


def _ways(ask: Ask) -> str:
    """Say how another reading is taken."""
    return "Another reading: " + " or ".join(f'--answer "{ask.key}={each.code}"' for each in ask.others) + "."


def _into_the_log(
    text: str, name: str, names: tuple[str, ...], start: date | None, change: bool, answers: dict[str, str]
) -> tuple[Sheet, tuple[Ask, ...], dict[str, Any]]:
    from tracker.desk.sheet import sheets

    log, today = with_log(), date.today()
    members = [member_named(log, each) for each in dict.fromkeys(names)]
    by = members[0].id if members else None
    preview = sheets.read_sheet(log, text, name=name, today=today, start=start, answers=answers, by=by)
    _all_count(answers, preview.answers, preview.asks)
    wave = preview.earlier or (preview.alike if change else None)
    done: dict[str, Any] = {}
    if preview.changes or change:
        done["changes"] = _changed(log, preview, wave, text, write=change, today=today)
    on = sheets.members_on(log, wave.id) if wave else ()
    new = [each.id for each in members if each.id not in on]
    if new:
        first = start or sheets.suggested_start(preview.sheet, today)
        taken = sheets.take_sheet(log, new, text, first, by=by, today=today, answers=preview.answers)
        done["taken"] = {"members": list(taken.names), "start": taken.started.isoformat()}
    elif members:
        done["taken"] = {"members": [], "start": None}
    return preview.sheet, preview.asks, done


def _changed(
    log: Log, preview: SheetPreview, wave: WaveText | None, text: str, *, write: bool, today: date
) -> list[dict[str, Any]]:
    from tracker.desk.sheet import sheets

    if wave is None:
        raise BadInputError(
            "The log has no earlier sheet of this title.", where="--change", mend="Take it with --member NAME."
        )
    if not write:
        shown = "; ".join(f"{each.kind}: {each.words}" for each in preview.changes)
        raise BadInputError(
            f"It changes an earlier sheet of this title ({shown}). Nothing was written.", where="sheet",
            mend="Say --change to write that, or give it another title.",
        )  # fmt: skip
    return [_record(each) for each in sheets.take_changes(log, wave.id, text, today=today, answers=preview.answers)]


def _record(change: SessionChange) -> dict[str, Any]:
    return {
        "kind": change.kind, "session": change.words, "before": list(change.before), "after": list(change.after),
        "kept": change.kept,
    }  # fmt: skip


def _words(done: dict[str, Any]) -> list[str]:
    said = [f"{each['kind'].capitalize()}: {each['session']}" for each in done.get("changes", ())]
    if taken := done.get("taken"):
        names = ", ".join(taken["members"])
        said.append(f"Taken into the log for {names} from {taken['start']}." if names else "In the log already.")
    return said
