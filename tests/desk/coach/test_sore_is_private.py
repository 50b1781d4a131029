"""What a member says of a sore place goes out by no path: each is taken before and after, and by whoever else may look."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pytest

from tests.day import this_day
from tests.desk.doing import lift_named, squats_and_presses
from tests.loads import kg
from tracker.desk.ahead import plan
from tracker.desk.coach import class_print, class_sheet, class_table, due, from_message, report, send_result
from tracker.desk.day import after_miss, effects, log_set, session_said, sore, sore_choice, today
from tracker.desk.files import deletion, export, take_away
from tracker.desk.history import journal, training_load, weeks
from tracker.desk.people import accounts, people
from tracker.exchange.class_page import class_page
from tracker.log import by_hand
from tracker.log.models import Change
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import SORE, Log
from tracker.log.who import Who, acting
from tracker.prescription.body_parts import Other
from tracker.prescription.sheet import parse_sheet


@pytest.fixture
def tova(log: Log) -> MemberRecord:
    """A member who shares her log with the coach, trains today by the coach's wave and has done half of it."""
    member = squats_and_presses(log, "Tova")
    squat = lift_named(log, "back squat")
    row = log_set.log_set(log, member.id, this_day(), NewSet(squat.id, kg(70), 5, Decimal(2)), sure=True)
    session_said.rate_session(log, row.session_id, member.id, rating=6, minutes=40, note="fine")
    people.weigh(log, member.id, this_day(), kg(70))
    accounts.share(log, member.id, shared=True)
    return next(each for each in people.members(log) if each.id == member.id)


def says(log: Log, member: MemberRecord) -> None:
    """Let her say all that can be said."""
    sore.begin(log, member.id, "wrist", this_day())
    sore.begin(log, member.id, sore.LIMITED, this_day())
    sore.mark_painful(log, member.id, lift_named(log, "strict press").id)
    sore.mark_painful(log, member.id, lift_named(log, "back squat").id)
    sore_choice.choose(log, member.id, lift_named(log, "strict press").id, "leave")
    sore_choice.choose(
        log, member.id, lift_named(log, "strict press").id, "leave", step_id=today.steps(log, member.id)[0].id
    )
    sore.begin(log, member.id, sore.ACHES, this_day())
    sore.ease(log, member.id, this_day())
    sore.begin(log, member.id, sore.ILL, this_day() - timedelta(days=9))
    sore.end(log, member.id, sore.ILL, this_day())
    sore.begin(log, member.id, sore.ILL, this_day())


def step_id(log: Log, member: MemberRecord) -> str:
    return today.steps(log, member.id)[0].step_id


PATHS: dict[str, Callable[[Log, MemberRecord], object]] = {
    "result as a line": lambda log, m: send_result.result_of(
        log, m.id, this_day(), with_body_mass=True, with_maxes=True
    ),
    "report": lambda log, m: report.report_of(
        log, m.id, report.Period(this_day() - timedelta(days=30), this_day()), today=this_day(), with_notes=True
    ),
    "class sheet": lambda log, m: class_sheet.class_sheet(log, step_id(log, m), [m.id], this_day()),
    "class page": lambda log, m: class_page(
        class_print.page_of(class_sheet.class_sheet(log, step_id(log, m), [m.id], this_day()))
    ),
    "results of a class": lambda log, m: class_table.class_table(log, [m.id], this_day()),
    "likely class": lambda log, m: class_sheet.likely_class(log, this_day()),
    "tests that are due": lambda log, m: due.due_tests(log, [m.id], this_day()),
    "what a coach may write down": lambda log, m: [
        (line.key, line.made and line.made.load, line.painful)
        for line in from_message.told_of(log, m.id, this_day(), today.steps(log, m.id)[0].id).lines
    ],
    "who is away": lambda log, m: due.away(log, [m.id], this_day()),
    "coming loads": lambda log, m: effects.coming_loads(log, m.id, this_day()),
    "a sheet before it is taken": lambda log, m: plan.of_class(
        log, (m.id,), parse_sheet("Back squat, barbell, % of 5RM\n3 x 5 @ 80 %\n"), this_day()
    ),
    "journal": lambda log, m: journal.sessions(log, m.id),
    "training load": lambda log, m: training_load.load_report(log, m.id, this_day()),
    "weeks": lambda log, m: weeks.trained_weeks(log, m.id, until=this_day()),
    "what goes with the member": lambda log, m: tuple(
        each for each in deletion.what_goes(log, m.id) if "act" not in str(each)
    ),
}


@pytest.mark.parametrize("path", PATHS)
def test_by_each_path_goes_out_exactly_what_went_out_before(log, tova, path):
    before = PATHS[path](log, tova)
    says(log, tova)
    after = PATHS[path](log, tova)
    if hasattr(before, "as_of"):  # of a result: the moment at which it was made
        after = replace(after, as_of=before.as_of)
    assert after == before


def test_the_files_of_a_result_and_the_report_hold_no_word_of_it(log, tova):
    says(log, tova)
    line = send_result.result_line(log, tova.id, this_day())
    page = report.make_report(log, tova.id, report.Period(this_day(), this_day()), today=this_day(), with_notes=True)[1]
    for text in (line, page):
        assert not [word for word in ("wrist", "painful", " ill ", "aching") if word in text.casefold()]


def _texts(zipped: bytes) -> dict[str, str]:
    with zipfile.ZipFile(BytesIO(zipped)) as box:
        return {name: box.read(name).decode() for name in box.namelist()}


def test_no_table_of_an_export_holds_it_the_members_own_neither(log, tova, tmp_path: Path):
    says(log, tova)
    whole = _texts(take_away.everything(log))
    own = _texts(take_away.of_member(log, tova))
    for name, text in {**whole, **own}.items():
        if name not in (
            "log.json",
            "log.schema.json",
            "csv-metadata.json",
        ):  # the log itself, to come back without loss
            assert "wrist" not in text.casefold(), name
            assert "painful" not in text.casefold(), name
    assert "wrist" in whole["log.json"]
    exported = export.export(log, tmp_path / "export")
    assert exported.files["changes.csv"] > 0


def test_before_the_second_wall_only_the_member_reads_it(log, tova):
    says(log, tova)
    coach = people.add_member(log, "Dag")
    for who, seen in (
        (Who("coach", coach.id, "Dag"), 0),
        (Who("owner", coach.id, "Dag"), 0),
        (Who("member", tova.id, "Tova"), 11),
    ):
        with acting(who), log.reading() as session:
            assert len(by_hand.said(session, tova.id, [SORE])) == seen, who
    with acting(Who("coach", coach.id, "Dag")):
        acts = journal.acts(log, tova.id)
        assert acts
        assert sore.WORDS not in {each.words for each in acts}
        plan = today.day_plan(log, tova.id, this_day())
        assert (plan.sore, plan.sore_offers, len(plan.lines)) == (sore.NOTHING_SORE, (), 4)
        assert all(line.made for line in plan.lines)
        assert sore.state(log, tova.id) == sore.NOTHING_SORE


def test_the_coach_exports_nothing_of_it_either(log, tova, tmp_path: Path):
    says(log, tova)
    coach = people.add_member(log, "Dag")
    with acting(Who("coach", coach.id, "Dag")):
        export.export_seen(log, tmp_path / "seen")
    for path in (tmp_path / "seen").iterdir():
        assert "wrist" not in path.read_text("utf-8"), path.name


def test_on_a_shared_screen_too_the_history_names_no_part_and_no_movement(log, tova):
    says(log, tova)
    with log.reading() as session:
        words = {row.act for row in session.query(Change).filter(Change.record == SORE)}
    assert words == {sore.WORDS}


def test_what_was_done_instead_goes_out_as_what_was_done_and_nothing_more(log, tova):
    sore.begin(log, tova.id, "wrist", this_day())
    other = Other("air squat", "body", "squat")
    sore_choice.choose(log, tova.id, lift_named(log, "strict press").id, "instead", other=other)
    line = next(each for each in today.day_plan(log, tova.id, this_day()).lines if each.lift.name == "air squat")
    log_set.log_set(log, tova.id, this_day(), NewSet(
        line.lift.id, kg(0), 5, planned_set_id=line.planned.id, planned_round=1, member_step_id=line.step_id
    ))  # fmt: skip
    text = send_result.result_line(log, tova.id, this_day())
    assert "air squat" in text
    assert "strict press" not in text
    assert not [word for word in ("wrist", "painful", "instead") if word in text]


def test_it_goes_with_the_member(log, tova):
    says(log, tova)
    deletion.delete_member(log, tova.id, "Tova")
    with log.reading() as session:
        assert not session.query(Change).filter(Change.record == SORE).count()


def hurts(log: Log, member: MemberRecord) -> None:
    """Let her miss a squat because it hurts."""
    new = NewSet(lift_named(log, "back squat").id, kg(70), 3, outcome="missed")
    row = log_set.log_set(log, member.id, this_day(), new, sure=True)
    after_miss.take(log, member.id, row.id, "hurt")


def test_that_a_miss_hurt_is_read_by_the_member_alone(log, tova):
    hurts(log, tova)
    coach = people.add_member(log, "Dag")
    with acting(Who("member", tova.id, "Tova")):
        (own,) = after_miss.stopped(today.day_plan(log, tova.id, this_day()))
    assert own.hurt
    for role in ("coach", "owner"):
        with acting(Who(role, coach.id, "Dag")):
            plan = today.day_plan(log, tova.id, this_day())
            (seen,) = after_miss.stopped(plan)
            assert (seen.hurt, seen.words) == (False, "Back squat is ended for today. Left out: 2 sets of it.")
            assert not [each for each in plan.choices if "hurt" in each.said.values()]
            assert plan.rest is not None
            with log.reading() as session:
                rows = session.query(Change).filter(Change.member_id == tova.id).all()
                assert rows
                assert not [row.record for row in rows if "hurt" in f"{row.act} {row.before} {row.after}"]


def test_no_table_that_is_handed_on_says_that_a_miss_hurt(log, tova):
    hurts(log, tova)
    for name, text in {**_texts(take_away.everything(log)), **_texts(take_away.of_member(log, tova))}.items():
        if name not in ("log.json", "log.schema.json", "csv-metadata.json"):
            assert "hurt" not in text.casefold(), name
