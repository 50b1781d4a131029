"""In which order the processes of a run take the files of tests: whole files, long ones first, so that none ends alone.

Some processes begin with what drives a browser and the others with the rest. So there is always work for the processors
while browsers wait, and the browser, its servers' mother and the scripts that it compiles begin in as few processes as
can be. Who has nothing left of one kind takes what is left of the other.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from xdist.scheduler import LoadFileScheduling

if TYPE_CHECKING:
    from collections.abc import Mapping

    from xdist.workermanage import WorkerController

BROWSER = "tests/browser/"
PER_TEST = {BROWSER: 3.0, "tests/cli/": 0.5, "tests/door/": 0.3, "tests/faults/": 0.4, "tests/pages/": 0.2}
PER_OTHER_TEST = 0.03  # seconds of processor
LONG: dict[str, float] = {  # seconds of processor, where the number of tests would mislead
    "tests/browser/test_pairing.py": 40, "tests/browser/test_access.py": 40, "tests/browser/test_first_run_and_journal.py": 35,
    "tests/browser/test_main_job.py": 30, "tests/browser/test_day_two_servers.py": 14, "tests/browser/test_keyboard.py": 14,
    "tests/browser/test_harmless.py": 20, "tests/browser/test_day_trust.py": 4, "tests/browser/test_day_whole.py": 11, "tests/browser/test_day_walk.py": 14, "tests/browser/test_at_rest.py": 3,
    "tests/exchange/test_heavy_files.py": 32, "tests/exchange/test_class_page.py": 11, "tests/desk/base/test_roles.py": 20,
    "tests/desk/files/test_files_json.py": 15, "tests/desk/coach/test_forged_results.py": 15, "tests/desk/day/test_next.py": 12,
    "tests/desk/files/test_files_faults.py": 13, "tests/desk/sheet/test_sheet_answers.py": 11, "tests/cli/test_next.py": 17,
    "tests/pages/test_next_everywhere.py": 32, "tests/pages/test_every_page.py": 20, "tests/pages/test_forged.py": 19,
    "tests/pages/test_coach_page.py": 10, "tests/pages/test_piece_page.py": 9, "tests/conditioning/test_ladder.py": 19,
    "tests/prescription/sheet/test_mutations.py": 17, "tests/prescription/sheet/test_texts_of_others.py": 16,
    "tests/prescription/sheet/test_ordinary_pieces.py": 15, "tests/prescription/sheet/test_round_trip.py": 15,
    "tests/prescription/test_plates.py": 14, "tests/prescription/sheet/test_hands_of_lifts.py": 11, "tests/log/test_chain.py": 7,
    "tests/log/test_migrate.py": 7, "tests/log/test_private.py": 7, "tests/strength/test_exact.py": 7,
    "tests/strength/test_formulas.py": 6, "tests/strength/test_backtest.py": 6, "tests/faults/test_kill.py": 9,
    "tests/faults/test_stopped.py": 9, "tests/deploy/test_behind_proxy.py": 60, "tests/faults/test_copies.py": 7, "tests/study/test_portions.py": 7,
}  # fmt: skip


def seconds(file: str, tests: int) -> float:
    """Return about how long a file takes: only the order comes of it."""
    each = next((value for folder, value in PER_TEST.items() if file.startswith(folder)), PER_OTHER_TEST)
    return LONG.get(file, each * tests)


class LongFirst(LoadFileScheduling):
    """Give whole files to the processes, the longest first, each process its own kind as long as there is any."""

    def _assign_work_unit(self, node: WorkerController) -> None:
        self.workqueue.move_to_end(self._chosen(node), last=False)
        super()._assign_work_unit(node)

    def _chosen(self, node: WorkerController) -> str:
        sizes: Mapping[str, int] = {file: len(tests) for file, tests in self.workqueue.items()}
        nodes = sorted(self.assigned_work, key=lambda each: each.gateway.id)
        browses = nodes.index(node) < len(nodes) // 2
        own = [file for file in sizes if file.startswith(BROWSER) is browses]
        return max(own or sizes, key=lambda file: seconds(file, sizes[file]))
