"""Who may do what: every function of the desk, tried as every role, on one's own and on others' records."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
from pathlib import Path

import pytest

import tracker.desk
from tests.desk.base.role_calls import CALLS
from tests.readings import newest
from tracker.desk.base.opening import open_log
from tracker.desk.base.roles import KINDS
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log
from tracker.log.who import RefusedError, Who, acting

# Who may, by kind of rule: the one who acts, and whose records it is about. Cyr shares nothing, Bea and Eve do.
ASKED = (
    ("member", "Ana"), ("member", "Bea"), ("member", "Cyr"), ("coach", "Bea"), ("coach", "Cyr"), ("owner", "Eve"),
    ("owner", "Cyr"), ("nobody", "Ana"),
)  # fmt: skip
SHARED = {("coach", "Bea"), ("owner", "Eve")}
LEADING = SHARED | {("coach", "Cyr"), ("owner", "Cyr")}
OWNER = {("owner", "Eve"), ("owner", "Cyr")}
OWN = {("member", "Ana")}
SIGNED_IN = {each for each in ASKED if each[0] != "nobody"}
MAY = {
    "see": OWN | SHARED,
    "change": OWN,
    "plan": OWN | SHARED,
    "lead": SHARED,
    "common": SIGNED_IN,
    "bring": OWN | OWNER,
    "hand over": OWN | OWNER,
    "run": OWNER,
}
# Where the rule of the desk leaves it to the row: what the gym has is changed by coach and owner.
OF_GYM = {
    "conditioning.add_option", "conditioning.remove_piece", "kit.put_item", "kit.put_fixed", "kit.say_full", "kit.remove_item",
    "kit.take_ready_kit", "kit.take_ready_place", "kit.change_facts", "people.say_implement", "places.change_place", "places.remove_place", "sheets.take_changes",
}  # fmt: skip
# Not about one member's records: the coach's list of sessions names nobody.
OF_CLASS = {
    "class_sheet.dated_sessions", "class_sheet.sessions", "class_sheet.likely_class", "classes.classes", "classes.members_seen", "classes.remove_class",
    "groups.groups", "hand_out.hand_out", "hand_out.handed", "who_did.class_days", "who_did.who_did_it",
}  # fmt: skip
FILE_ONLY = {  # a server has tools of its own for its copies, and no pairing
    "backups.make", "backups.kept", "check.check_log", "custody.backup", "custody.restore", "devices.new_code",
    "devices.end_code", "devices.code_state", "devices.remove", "take_away.sealed_copy",
}  # fmt: skip
READS = {
    "classes.classes", "classes.members_seen", "groups.groups", "groups.groups_whole", "groups.given", "hand_out.handed", "invitations.uninvited",
    "roster.look_at", "who_did.class_days", "who_did.who_did_it", "accounts.accounts", "accounts.keep_an_owner", "after.tested_reps", "class_sheet.sessions", "class_sheet.likely_class",
    "class_sheet.class_sheet", "class_sheet.dated_sessions", "class_table.class_table", "deletion.what_goes", "deletion.copies_holding", "due.due_tests",
    "due.away", "plan.of_class", "wave_end.wave_end", "from_message.sessions_of", "from_message.told_of", "from_message.newest_told", "export.export", "export.export_seen", "foreign.look_at", "people.members", "people.members_named", "people.free_name", "people.lifts", "places.places",
    "places.free_name", "report.make_report", "report.report_of", "send_result.days_to_send", "send_result.result_of",
    "send_result.maxes_of", "send_result.message", "send_result.not_done_of", "max_of_set.maxes_made", "send_result.result_line", "send_result.result_file", "sheets.read_sheet", "sheets.changes",
    "sheets.members_on", "take_away.everything", "take_away.of_member", "take_away.sealed_copy", "backups.kept",
    "backups.rotate", "backups.let_go", "check.check_log", "custody.backup", "devices.paired", "devices.named",
    "devices.code_state", "files_json.take_log",
}  # fmt: skip
NOT_TRIED = {
    "demo.fill": "fills an empty log of its own",
    "demo_scores.fill_scores": "belongs to the demo",
    "devices.remove": "wants a paired phone: tests of pairing",
    "dumps.make_dump": "wants a server and its tools: tests/server/test_dumps.py",
    "dumps.rehearse": "as above",
    "dumps.last_night": "reads a folder and no log: tests/pages/test_night.py",
}
# Neither reads nor writes the log: it works on what it is given.
PURE = {
    "ahead": {"read_ahead"},
    "plan": {"weeks_of", "words_of"},
    "sets_ahead": {"read", "worked_out"},
    "sheet_rows": {"steps_of"},
    "attempts": {"asks_safety", "safety_of", "miss_words", "as_attempt", "misses", "end_is_due", "result_words", "within_s"},
    "usual": {"first_load", "in_unit_here"},
    "build_up": {"is_build_up", "on_the_way"},
    "beginning": {"gym", "home", "masses_of", "check_first"},
    "accounts": {"new_code", "digest"},
    "classes": {"class_of", "read_times", "times_words", "class_now"},
    "invitations": {"page_of"},
    "bars": {"bars_of", "other_partners"},
    "class_print": {"print_sheet", "page_of", "piece_words", "lift_lines", "asked", "discs", "cells_of", "lift_notes", "speaks_first"},
    "custody": {"file_of"},
    "deletion": set(),
    "devices": {"devices_file"},
    "dumps": {"rehearsals", "state", "standing", "dumps_folder", "told_to_watch"},
    "opening": {"read_by_others"},
    "effects": {"changed_words"},
    "estimates": {"strength_records", "read_lift", "worked_out", "known_then"},
    "attempts_made": {"tests_of", "usual_of"},
    "gain": {"gain_since", "month_words", "signed"},
    "glance": {"today_first"},
    "csv_metadata": {"write"},
    "files_json": {"write_json", "build"},
    "first_max": {"as_set"},
    "first_session": {"first_session", "opening", "planned", "as_lift", "as_place", "at_hand"},
    "kit_reach": {"reach"},
    "ready_places": {"ready_place", "inside"},
    "foreign": {"as_understood"},
    "kit": {"read_item", "read_number"},
    "lift_side": {"pair_of", "for_side"},
    "old_maxes": {"old_maxes"},
    "weighing": {"weigh", "held_down", "is_of_now", "days_off", "rounding_for"},
    "lines": {"gone_on", "lines_as_planned", "asks_diameter", "made_of", "grounds_of_line", "lines_on", "ramp_of", "read_grounds", "chance_words"},
    "maxes": {"histories_of_file", "title", "answer"},
    "in_turn": {"by_turns", "goes_on_at_once"},
    "line_words": {"which", "reps_asked", "asked", "other_unit", "made_of", "part_of", "in_short"},
    "words": {
        "load_words", "reps_words", "set_words", "done_words", "rir_words", "holds_words", "reference_words", "day_words",
        "weekday_words", "full_day", "first_up", "held_words", "in_unit_words",
    },
    "next": {"from_words", "over_words"},
    "next_record": {"next_record"},
    "pieces_here": {"piece_here"},
    "warm_up": {"warm_up_of", "warm_up_lines", "other_words"},
    "on_today": {"on_today", "open_pieces"},
    "unfinished": {"unfinished"},
    "fulfil": {"fulfil", "could", "lay"},
    "falls": {"fallen"},
    "last_time": {"read_last", "is_easy", "beat", "said", "free_beat", "of_lines"},
    "minutes": {"minutes_of", "session_minutes"},
    "more_words": {"sets_words", "on_day_words", "listed"},
    "own_session": {"words", "newest_load"},
    "piece_by_touches": {"movements", "usual_measure", "piece_of"},
    "resting": {"ways_of", "rest_after"},
    "silent": {"rests", "to_ask"},
    "standing": {"is_standing", "standing_at", "stacks_at"},
    "standing_miss": {"standing_miss"},
    "singly": {"others_at", "one_at_a_time", "nothing_for", "others", "chosen"},
    "beaten": {"beaten"},
    "not_done": {"not_done", "ended_early"},
    "complex_max": {"is_open", "candidates", "chosen", "ask_words", "label"},
    "max_of_set": {"words", "mended", "removed", "moved", "undone"},
    "card": {"attempt", "care", "card", "loaded", "load_record", "times_sign", "discs"},
    "carried": {"changes"},
    "on_clock": {"every_s", "clock_of", "rest_left"},
    "unit_today": {"chosen", "seen", "in_unit"},
    "body_percent": {"none_yet", "basis_of", "chosen", "share_of", "open_words", "body_words", "label"},
    "little": {"rests_on_little"},
    "told": {"is_told_ill", "limits_told", "read_told"}, "readiness": {"feels_of", "told_of_day"},
    "sore": {
        "words_of", "state_of", "read_state", "lift_named", "replaced", "left_out", "read_lifts", "offers", "at_hand_in", "in_piece",
    },
    "other_ways": {"blocks", "sets_here", "is_complete", "can_make", "others_here"},
    "piece_at_place": {"only_one", "options_here", "piece_here", "swaps_here", "kinds_at", "kit_words"},
    "partners": {"suggest_partners"},
    "people": {"clean_name", "of_household", "body_mass_asked", "facts_of", "body_mass_on", "check_body_mass", "check_day", "check_free", "latest_day"},
    "ticks": {"has_ticks"},
    "piece_entry": {"option_in_words",
        "swap_choices", "swap_note", "swap_text", "asked_ladder", "touched", "splits_text", "splits_that_fit", "intervals_text", "as_said", "piece_in_words",
    },
    "piece_history": {"pace_words", "amount_words"},
    "places": {
        "check_items", "items_of", "bar_in_use", "bar_kit", "kit_with", "make_load", "fixed_masses", "exactly",
        "discs_in_words", "lone_masses", "next_loads", "least_load", "read_place", "stack_step", "takes_of_body",
    },
    "references": {"ago", "shown_load", "references"},
    "resolve_names": {"resolve"},
    "roles": {"may"},
    "send_result": {"file_word", "result_set", "said_plainly", "said_by_part"},
    "sheet_changes": {"earlier_sheet", "changes_between"},
    "sheet_same": {"same_before", "likely_before"},
    "sheets": {"changed_since_begun", "for_whom_words", "free_title", "kept_text", "write_wave"},
    "sheet_start": {"usable", "title_of", "first_day_of", "suggested_start", "check_start"},
    "sheet_steps": {"lifts_named", "scored_pieces", "new_step", "title_of", "text_of", "keep_pieces"},
    "sheet_text": {"noted", "without", "split"},
    "sheet_words": {"range_words", "pair_words", "pair_in", "parts_of"},
    "take_away": {"file_name"},
    "step_state": {"ask_again", "finish_if_done", "reopen", "reopened", "is_done_but_for_its_state"},
    "forecast": {"shown_weeks"},
    "goal_choices": {"offered_loads", "load_of", "day_of"},
    "goal_piece": {"best_of", "offered_scores", "typed_score"},
    "goal_reached": {"read_reached"},
    "goal_view": {"course_words"},
    "goal_words": {"what_words", "by_words", "aim_words"},
    "needed": {"asked_load"},
    "from_memory": {"as_planned", "as_said", "is_sayable"},
    "log_set": {"check_set", "check_note", "with_body_mass", "as_new"},
    "session_said": {"check_ending"},
    "trend": {"as_mass"},
    "scene": {"read_scene", "with_sore"},
    "after_miss": {"hard_before", "heavier_words", "stopped"},
    "ceilings": {"ceilings", "ended", "ended_on"},
    "loading": {"helps", "no_help", "weigh", "nothing_here", "at_most", "fewest_changes"},
    "cached": {"cached_until_write", "page_snapshot"},
    "weeks": {"moved_kg"},
    "weights": {"typed_reference"},
    "which_lift": {"in_reserve", "row_identity"},
    "withheld": {"withheld", "beside", "without_load"},
    "write_result": {"name_key", "id_named", "write_result"},
}  # fmt: skip
# Before anybody is known: opening the log, who it is, an invitation of somebody new, the copy of each day.
BEFORE = {
    "opening.open_log", "accounts.who_is", "accounts.accept", "backups.each_day", "backups.behind", "backups.holding",
    "backups.named_by_us", "backups.still_going", "backups.finish",  # what a deletion that was ended left undone
    "devices.pairing",
}  # fmt: skip


def desk() -> dict[str, object]:
    """Every public function of the desk by room and name."""
    found = {}
    for info in pkgutil.walk_packages(tracker.desk.__path__, "tracker.desk."):
        module = importlib.import_module(info.name)
        room = info.name.rpartition(".")[2]
        for name, each in vars(module).items():
            if inspect.isfunction(each) and not name.startswith("_") and each.__module__ == module.__name__:
                found[f"{room}.{name}"] = each
    return found


RULES = {name: each.rule for name, each in desk().items() if hasattr(each, "rule")}


def test_every_function_of_the_desk_has_a_rule_or_touches_no_log():
    bare = set(desk()) - set(RULES)
    pure = {f"{room}.{name}" for room, names in PURE.items() for name in names}
    assert bare == pure | BEFORE
    for name in pure:
        taken = set(inspect.signature(desk()[name]).parameters)
        assert not taken & {"log", "database"} or name in ("custody.file_of",), name
    assert set(RULES.values()) <= set(KINDS) == set(MAY)


def called_by_pages() -> dict[str, object]:
    """Every function that pages, components and commands take from a module of the desk, wherever it is defined."""
    root = Path(tracker.__file__).parent
    folders = (root / "components", root / "cli", tracker.asset_folder("pages"))
    found: dict[str, object] = {}
    for path in (root / "app.py", *(file for folder in folders for file in sorted(folder.rglob("*.py")))):
        tree = ast.parse(path.read_text("utf-8"))
        taken: dict[str, object] = {}  # what a name of this file means, where it is of the desk
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("tracker.desk"):
                for name in node.names:
                    taken[name.asname or name.name] = _of_desk(node.module or "", name.name)
        found |= {f"{path.name}: {name}": each for name, each in taken.items()}
        for node in ast.walk(tree):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                room = taken.get(node.value.id)
                if inspect.ismodule(room):
                    found[f"{path.name}: {node.value.id}.{node.attr}"] = getattr(room, node.attr, None)
    return {name: each for name, each in found.items() if inspect.isfunction(each)}


def _of_desk(module: str, name: str) -> object:
    room = importlib.import_module(module)
    return getattr(room, name) if hasattr(room, name) else importlib.import_module(f"{module}.{name}")


def test_what_pages_call_through_the_desk_has_a_rule_wherever_it_is_defined():
    before = {desk()[name] for name in BEFORE}
    bare = {
        name
        for name, each in called_by_pages().items()
        if set(inspect.signature(each).parameters) & {"log", "database"}
        and not hasattr(each, "rule")
        and each not in before
    }
    assert not bare


def test_every_rule_is_tried():
    assert set(CALLS) | set(NOT_TRIED) == set(RULES)


@pytest.fixture(scope="module")
def gym(store, gym_world, tmp_path_factory):
    """The gym on one log for all of these tests, and what it takes to fill another log with it."""
    address = store.copy("empty", None, tmp_path_factory.mktemp("gym"))
    log = open_log(address)
    gym_world.into(log)
    yield log, gym_world
    log.close()
    store.drop(address)


def allowed(name):
    return LEADING if name in OF_CLASS | OF_GYM else MAY[RULES[name]]


def reads(name):
    return RULES[name] == "see" or name in READS


def tried(name, log):
    if name in FILE_ONLY and log.url.get_backend_name() != "sqlite":
        pytest.skip("a server keeps its own copies, and phones are not paired with it")
    return CALLS[name]


@pytest.mark.parametrize("name", sorted(CALLS))
def test_who_may_not(gym, tmp_path, name):
    log, world = gym
    call, before = tried(name, log), newest(log)
    for role, whose in ASKED:
        if (role, whose) in allowed(name):
            continue
        with acting(world.who(role)):
            if name.startswith("take_results") and role in ("coach", "owner"):
                takings = call(log, world.of[whose], tmp_path)  # who does not share is not known to the coach
                assert (takings.taken, takings.unknown) == ((), (whose,))
                continue
            with pytest.raises(RefusedError):
                call(log, world.of[whose], tmp_path)
    assert newest(log) == before, "something was written by somebody who may not"


@pytest.mark.parametrize("name", sorted(filter(reads, CALLS)))
def test_who_may_read(gym, tmp_path, name):
    log, world = gym
    call, before = tried(name, log), newest(log)
    for role, whose in (each for each in ASKED if each in allowed(name)):
        with acting(world.who(role)):
            call(log, world.of[whose], tmp_path)
    assert newest(log) == before


@pytest.mark.parametrize("name", sorted(name for name in CALLS if not reads(name)))
def test_who_may_act(gym, log, tmp_path, name):
    call, world = tried(name, log), gym[1]
    world.into(log)
    done = set()
    for role, whose in (each for each in ASKED if each in allowed(name)):
        if whose not in done:  # a second time it might be done already
            done.add(whose)
            with acting(world.who(role)):
                call(log, world.of[whose], tmp_path)
    assert done


def test_of_whoever_keeps_no_log_no_answers_to_a_sheet_are_known(log: Log) -> None:
    with acting(Who("coach")):
        assert sheets.answers_of(log, None) == {}
