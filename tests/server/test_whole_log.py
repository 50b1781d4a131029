"""A whole log of a file, taken into a server as JSON and out again."""

from __future__ import annotations

import json
import shutil
from contextlib import closing

from tests.desk.files.test_files_json import all_of, small
from tracker.desk.base.opening import open_log
from tracker.desk.files.export import export
from tracker.desk.files.files_json import take_log
from tracker.desk.people import people


def test_a_server_takes_a_log_of_a_file_and_goes_on_counting(fresh, tmp_path, empty_log):
    with closing(open_log(str(shutil.copyfile(empty_log, tmp_path / "file.db")))) as file:
        small(file, tmp_path / "out")
        with closing(open_log(fresh())) as server:
            take_log(server, tmp_path / "out" / "log.json")
            assert all_of(server) == all_of(file)
            people.add_member(server, "Bo")  # its entry in the history has the next number
            again = export(server, tmp_path / "again").folder
    document = json.loads((again / "log.json").read_text(encoding="utf-8"))
    assert {row["name"] for row in document["records"]["members"]} == {"Ana", "Bo"}
