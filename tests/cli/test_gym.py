"""`tidemark roster` and `tidemark class`: a gym's people from a table, a session for a class, who did it."""

from __future__ import annotations

import stat

from tests.day import this_day
from tests.stores import address_of
from tracker.desk.people import people, places


def test_members_from_a_table_a_class_and_its_session(log, tidemark, refused, tmp_path):
    database = ("--database", address_of(log))
    table, sheet, page = tmp_path / "members.csv", tmp_path / "tide.txt", tmp_path / "strips.html"
    table.write_text("name,group,shoe\nAna,Early,41\nBo,stone age,39\nCy,Early,40\n", "utf-8")
    shown = tidemark("roster", table, "--preview", "--json", *database).json
    assert (shown["taken"], shown["new_groups"], shown["ignored"]) == (False, ["Early", "stone age"], ["'shoe'"])
    assert people.members(log) == ()
    taken = tidemark(
        "roster", table, "--invite", "--page", page, "--address", "https://log.example", "--json", *database
    )
    assert [each["member"] for each in taken.json["invitations"]] == ["Ana", "Bo", "Cy"]
    code = taken.json["invitations"][0]["code"]
    assert taken.json["invitations"][0]["link"] == f"https://log.example/?invitation={code}"
    assert code in page.read_text("utf-8")
    assert stat.S_IMODE(page.stat().st_mode) == 0o600
    assert "Nobody is left to invite" in tidemark("roster", "--invite", *database).err
    assert "all of this already" in refused("roster", table, *database)
    assert places.places(log) == ()
    table.write_text("name,unit\nDee,stone\n", "utf-8")
    assert "members.csv, line 2, unit: 'stone' is no unit. Write kg or lb, or nothing." in refused(
        "roster", table, *database
    )
    assert "There is no group Dawn" in refused("class", "Dawn", "--add", "--group", "Dawn", *database)
    tidemark("class", "Evening", "--add", "--group", "early", "--times", "mon thu 6pm", "--coach", "Jo", *database)
    assert tidemark("class", "--json", *database).json == [
        {"name": "Evening", "group": "Early", "times": "Mon 18:00, Thu 18:00", "coach": "Jo", "members": 2}
    ]
    sheet.write_text("Title: Tide\nFront squat\n1 x 3 @ 60 kg\n", "utf-8")
    handed = tidemark("class", "evening", "--hand", sheet, "--start", this_day(), "--json", *database).json
    assert (handed["title"], handed["given"], handed["had"]) == ("Tide", 2, 0)
    assert "have Tide already" in refused("class", "Evening", "--hand", sheet, "--start", this_day(), *database)
    told = tidemark("class", "Evening", "--did", "--json", *database).json
    assert (told["words"], told["members"], told["private"]) == ("0 of 2 did it, 2 silent", 2, 0)
    assert [each["member"] for each in told["by_member"]] == ["Ana", "Cy"]
    assert "no session then" in refused("class", "Evening", "--did", "--day", "2020-01-01", *database)
    tidemark("class", "Evening", "--remove", *database)
    assert "There is no class yet" in tidemark("class", *database).err
