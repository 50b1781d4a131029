"""Forty members from one table, their invitations, and what a coach who was given groups sees."""

from __future__ import annotations

import pytest

from tests.undoing import undo_newest
from tracker.desk.coach import classes
from tracker.desk.files.check import check_log
from tracker.desk.people import accounts, groups, invitations, people, places, roster
from tracker.errors import BadInputError
from tracker.exchange.problems import BadFileError
from tracker.exchange.roster import read_roster
from tracker.log.changes_since import stamp
from tracker.log.who import RefusedError, Who, acting

GROUPS = ("Early", "Late", "Barbell")
TABLE = "name,unit,place,group\n" + "".join(
    f"Member {at + 100},{'lb' if at % 5 == 0 else 'kg'},{'Harbour Hall' if at % 2 else ''},{GROUPS[at % 3]}\n"
    for at in range(40)
)


def newest(log):
    with log.reading() as session:
        return stamp(session)


def test_forty_members_and_three_groups_come_from_one_table_in_one_act(log):
    read = read_roster(TABLE)
    preview = roster.look_at(log, read)
    assert preview.words == "40 members, 40 of them new; 3 groups, 3 of them new; 1 new place"
    assert people.members(log) == ()
    taken = roster.take(log, read)
    assert len(taken.member_ids) == 40
    assert {each.name: each.total for each in groups.groups(log)} == {"Early": 14, "Late": 13, "Barbell": 13}
    (hall,) = places.places(log)
    assert hall.of_kind("bar")  # with the usual kit of a gym
    at_hall = [each for each in people.members(log) if each.place_id == hall.id]
    assert len(at_hall) == 20
    assert all(each.bar_id and not each.shared for each in at_hall)
    assert check_log(log.url.render_as_string(hide_password=False)).problems == ()


def test_a_second_time_only_what_is_new_is_taken(log):
    roster.take(log, read_roster(TABLE))
    before = newest(log)
    with pytest.raises(BadInputError, match="all of this already"):
        roster.take(log, read_roster(TABLE))
    assert newest(log) == before
    again = roster.take(log, read_roster(TABLE + "Zoe Pike,kg,,Early\n"))
    assert [each.name for each in again.preview.new] == ["Zoe Pike"]
    moved = roster.take(log, read_roster("name,group\nMEMBER 100,Late"))
    assert [(each.name, each.joins) for each in moved.preview.people] == [("MEMBER 100", ("Late",))]
    assert {each.name: each.total for each in groups.groups(log)} == {"Early": 15, "Late": 14, "Barbell": 13}


def test_a_name_that_looks_like_another_s_is_told_by_its_line_and_nothing_is_written(log):
    people.add_member(log, "Kim")
    before = newest(log)
    with pytest.raises(BadFileError, match=r"line 3, name: K\u0456m looks like Kim"):
        roster.take(log, read_roster("name\nAna\nK\u0456m"))
    with pytest.raises(BadInputError, match="no place Attic"):
        roster.look_at(log, read_roster("Ana"), place="Attic")
    assert newest(log) == before


def test_invitations_of_many_are_good_once_and_ask_whether_the_coach_may_see(log):
    taken = roster.take(log, read_roster("Ana\nBo\nCy"))
    made = invitations.invite_all(log, invitations.uninvited(log))
    assert [each.name for each in made] == ["Ana", "Bo", "Cy"]
    assert invitations.uninvited(log) == ()
    again = invitations.invite_all(log, taken.member_ids[:1])
    stranger = Who("nobody", identity=("https://id.example", "7"))
    with acting(stranger), pytest.raises(BadInputError, match="not good"):
        accounts.accept(log, made[0].code)  # another was made since
    with acting(stranger):
        accounts.accept(log, again[0].code)
    with acting(Who("nobody", identity=("https://id.example", "8"))):
        accounts.accept(log, made[1].code, shared=True)
    assert {each.name: each.shared for each in people.members(log)} == {"Ana": False, "Bo": True, "Cy": False}
    with pytest.raises(BadInputError, match="Ana signs in already"):
        invitations.invite_all(log, taken.member_ids)
    page = invitations.page_of(made, "https://log.example")
    assert page.count('class="strip"') == 3
    assert all(each.code in page for each in made)
    assert made[0].link("https://log.example/") == f"https://log.example/?invitation={made[0].code}"
    assert page.count('src="data:image') == 3
    assert 'src="http' not in page


@pytest.fixture
def gym(log):
    """Ana and Bo share and are Early, Cy shares and is Late, Dee is Early and keeps hers; a coach who has Early."""
    roster.take(log, read_roster("name,group\nAna,Early\nBo,Early\nCy,Late\nDee,Early"))
    known = {each.name: each.id for each in people.members(log)}
    for name in ("Ana", "Bo", "Cy"):
        accounts.share(log, known[name], shared=True)
    of = {each.name: each.id for each in groups.groups(log)}
    accounts.enter(log, "https://id.example", "coach", "coach")
    (account,) = accounts.accounts(log)
    groups.give_groups(log, account.id, [of["Early"]])
    return log, known, of, account


def coach(log):
    return accounts.who_is(log, "https://id.example", "coach")


def test_a_coach_with_groups_sees_who_shares_in_them_and_nobody_else(gym):
    log, known, of, account = gym
    with acting(coach(log)):
        assert [each.name for each in people.members(log)] == ["Ana", "Bo"]
        assert {each.name: (each.total, len(each.member_ids)) for each in groups.groups(log)} == {
            "Early": (3, 2),
            "Late": (1, 0),
        }
        with pytest.raises(RefusedError):
            people.member(log, known["Cy"])
        with pytest.raises(RefusedError):
            groups.put_in_group(log, of["Early"], list(known.values()))
    groups.give_groups(log, account.id, [])
    with acting(coach(log)):
        assert people.members(log) == ()  # the last group is gone: nobody, and not everybody
    groups.give_groups(log, account.id, None)
    with acting(coach(log)):
        assert [each.name for each in people.members(log)] == ["Ana", "Bo", "Cy"]


def test_a_removed_group_takes_its_members_out_of_the_coach_s_sight_and_comes_back(gym):
    log, _known, of, _ = gym
    groups.remove_group(log, of["Early"])
    with acting(coach(log)):
        assert people.members(log) == ()
    assert len(people.members(log)) == 4
    undo_newest(log, None)
    with acting(coach(log)):
        assert [each.name for each in people.members(log)] == ["Ana", "Bo"]
    assert check_log(log.url.render_as_string(hide_password=False)).problems == ()


def test_classes_of_others_are_not_theirs(gym):
    log, known, of, _ = gym
    early = classes.add_class(log, "Early class", "Mon 6:30", group_id=of["Early"])
    late = classes.add_class(log, "Late class", "Mon 18:00", group_id=of["Late"])
    mixed = classes.add_class(log, "Saturday", "Sat 9", member_ids=[known["Ana"], known["Cy"]])
    with acting(coach(log)):
        assert [each.name for each in classes.classes(log)] == ["Early class"]
        for other in (late, mixed):
            with pytest.raises(RefusedError):
                classes.remove_class(log, other)
        with pytest.raises(RefusedError):
            classes.add_class(log, "Mine", group_id=of["Late"])
        classes.change_class(
            log, early, "Dawn", "Mon, Thu 6:30", group_id=of["Early"], member_ids=(), place_id=None, coach="Jo"
        )
    assert {each.name for each in classes.classes(log)} == {"Dawn", "Late class", "Saturday"}


def test_deleting_a_member_leaves_no_trace_in_groups(gym):
    from tracker.desk.files import deletion

    log, known, _of, _ = gym
    classes.add_class(log, "Saturday", "Sat 9", member_ids=[known["Ana"]])
    deletion.delete_member(log, known["Ana"], "Ana")
    assert {each.name: each.total for each in groups.groups(log)} == {"Early": 2, "Late": 1}
    assert classes.classes(log)[0].total == 0
    assert check_log(log.url.render_as_string(hide_password=False)).problems == ()
