"""Fixtures that all tests share: a fresh log, in a file or on a throw-away server, a browser, and quiet hypothesis."""

from __future__ import annotations

import contextlib
import gc
import itertools
import os
import shutil
import sys
import sysconfig
import tempfile
import zoneinfo
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, settings

from tests import day, kept, once_more, selection
from tests.server.cluster import Cluster, NoServerError, roomy
from tests.stores import Databases, Files, Fill, Store

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from tests.situations import Gym, Situation
    from tracker.log.records import LiftRecord, MemberRecord
    from tracker.log.unit_of_work import Log

PORT, NO_SERVER, LEFT_OUT = "TIDEMARK_TEST_SERVER_PORT", "TIDEMARK_TEST_NO_SERVER", "left_out"
OF_OPENING = {  # and of how tables change
    "log/test_downgrade.py", "log/test_migrate.py", "log/test_older_logs.py",
    "faults/test_failing_migration.py", "faults/test_kill_in_migration.py",
}  # fmt: skip
BARE, COMPILED = "PYTHONDONTWRITEBYTECODE", "compiled-for-tests"

# Before numpy is there: the processes of a run share the processors already, and threads that wait for one another
# over matrices as small as ours took nearly half of the time of an estimate.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

settings.register_profile(
    "steady",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
settings.load_profile("steady")


def pytest_configure(config: pytest.Config) -> None:
    """Say where the files of the tests lie, and start the server before the processes that use it: it ends with this one."""
    if memory := roomy():  # what is written is the same there, and no disk is waited for
        os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", memory)
    keep_compiled(config)
    if selection.ON_SERVER and not hasattr(config, "workerinput"):
        try:
            cluster = Cluster().start()
        except NoServerError as err:
            if must_not_skip():
                raise pytest.UsageError(str(err)) from err
            cluster = None
            os.environ[NO_SERVER] = str(err)
        if cluster:
            config.add_cleanup(cluster.remove)
            os.environ[PORT] = str(cluster.port)


def keep_compiled(config: pytest.Config) -> None:
    """Let the processes of the runs compile each module once, where the environment would have all of them do it anew.

    Some hundred are started, and the program with its libraries takes each ten seconds then. The sources' own folders stay
    as clean as was asked for: what is compiled lies in a folder of the environment, is known by the moment and size of its
    source, and begins with what was compiled there when the libraries were installed.
    """
    if hasattr(config, "workerinput") or not os.environ.get(BARE):
        return
    folder = Path(sys.prefix) / COMPILED
    if not folder.is_dir():
        try:
            part = Path(tempfile.mkdtemp(prefix=f"{COMPILED}-", dir=sys.prefix))
        except OSError:  # an environment that is not ours to write to
            return
        for installed in {Path(sysconfig.get_path(name)).absolute() for name in ("purelib", "platlib")}:
            _begin_with(part, installed)
        with contextlib.suppress(OSError):  # another run was quicker
            part.rename(folder)
        shutil.rmtree(part, ignore_errors=True)
    del os.environ[BARE]
    os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = str(folder)
    sys.dont_write_bytecode = False


def _begin_with(folder: Path, installed: Path) -> None:
    """Have what lies compiled beside installed modules also where Python looks for it with this folder as its prefix."""
    for compiled in installed.rglob(f"__pycache__/*.{sys.implementation.cache_tag}.pyc"):
        to = folder / compiled.parent.parent.relative_to(installed.anchor) / compiled.name
        to.parent.mkdir(parents=True, exist_ok=True)
        try:
            to.hardlink_to(compiled)
        except OSError:
            shutil.copyfile(compiled, to)


def pytest_collection_finish() -> None:
    """Look through the objects for what can go a hundred times less often: a tenth of what a run takes went there.

    The program and its libraries are some million objects that stay to the end; what tests leave behind is little.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    selection.choose(config, items)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    from tests.order import LongFirst

    return LongFirst(config, log) if config.getoption("dist") == "loadfile" else None


def pytest_sessionfinish(session: pytest.Session) -> None:
    if hasattr(session.config, "workeroutput"):  # only this reaches the process that prints
        session.config.workeroutput[LEFT_OUT] = dict(session.config.stash.get(selection.LEFT, Counter()))


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: Any) -> None:
    """Each process of a run leaves out the same tests."""
    node.config.stash[selection.LEFT] = Counter(getattr(node, "workeroutput", {}).get(LEFT_OUT, {}))


def pytest_terminal_summary(terminalreporter: Any, config: pytest.Config) -> None:
    for line in selection.told(config.stash.get(selection.LEFT, Counter())):
        terminalreporter.write_line(line)
    once_more.note(terminalreporter.stats)


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    """One test has one day, and nothing that was kept from a former day, or from any test where nothing may be kept."""
    if day.begin() or kept.NOTHING:
        item.session._setupstate.teardown_exact(None)  # fixtures of modules and of the session; they are set up again


def pytest_runtest_logfinish() -> None:
    day.end()


_numbers = itertools.count(1)


@pytest.fixture(autouse=True, scope="module")
def main_module() -> Iterator[None]:
    """A page that was run leaves itself as the program of this process, which processes made later would run again."""
    before = sys.modules["__main__"]
    yield
    sys.modules["__main__"] = before


@pytest.fixture(autouse=True)
def _no_log_of_the_user(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """No test may ever open the log of the person who runs it."""
    nowhere = tmp_path_factory.getbasetemp() / f"unasked-{next(_numbers)}.db"
    monkeypatch.setenv("TIDEMARK_DATABASE", str(nowhere))


@pytest.fixture(autouse=True)
def _on_both_databases(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> Iterator[None]:
    """Whoever opens a log does it where this run has its logs."""
    watch = selection.Watch(monkeypatch)
    yield
    watch.hold(request.node)


@pytest.fixture(autouse=True)
def _made_once(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> None:
    """What comes out the same for every test is made once, but for the tests of how it is made, or how soon."""
    name = request.path.relative_to(selection.HERE).as_posix()
    about = name.partition("/")[0]
    if about == "benchmarks" or kept.NOTHING:
        return
    if about != "strength":
        kept.keep_models(monkeypatch)
    if name not in OF_OPENING and about != "server":
        kept.keep_schemas(monkeypatch)
        kept.keep_statements(monkeypatch)


@pytest.fixture(scope="session")
def shared_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of all processes of this run."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def store(shared_folder: Path) -> Store:
    """Where the logs of this run lie."""
    if not selection.ON_SERVER:
        return Files(shared_folder)
    if NO_SERVER in os.environ:
        pytest.skip(os.environ[NO_SERVER])
    return Databases(Cluster(port=int(os.environ[PORT])), shared_folder)


@pytest.fixture
def fresh(store: Store, tmp_path: Path) -> Iterator[Callable[..., str]]:
    """Make a log of its own at each call: `fresh()` is the address of an empty one, `fresh("demo")` of the demo's."""
    made: list[str] = []

    def make(kind: str = "empty", fill: Fill | None = None) -> str:
        made.append(store.copy(kind, fill or KINDS[kind], tmp_path))
        return made[-1]

    yield make
    for each in made:
        store.drop(each)


def fill_demo(log: Log) -> None:
    from tracker.desk.files import demo

    demo.fill(log, day.this_day())


KINDS: dict[str, Fill | None] = {"empty": None, "demo": fill_demo}


@pytest.fixture(scope="session")
def empty_log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of an empty log, for tests of files; others use `fresh`."""
    return Path(Files(tmp_path_factory.mktemp("empty")).copy("empty", None, tmp_path_factory.mktemp("empty")))


@pytest.fixture
def log(fresh: Callable[..., str]) -> Iterator[Log]:
    """A fresh, empty log."""
    from tracker.desk.base.opening import open_log

    opened = open_log(fresh())
    yield opened
    opened.close()


@pytest.fixture
def demo_log(fresh: Callable[..., str]) -> Iterator[Log]:
    """A copy of the demo's log, to be written to."""
    from tracker.desk.base.opening import open_log

    opened = open_log(fresh("demo"))
    yield opened
    opened.close()


@pytest.fixture
def in_situation(fresh: Callable[..., str]) -> Iterator[Callable[[Situation], Gym]]:
    """Make a situation of a training day in a log of its own; desk, pages and command line get copies of one log."""
    from tests.situations import SITUATIONS, Gym
    from tracker.desk.base.opening import open_log

    opened: list[Log] = []

    def make(situation: Situation) -> Gym:
        def fill(log: Log) -> None:
            situation.made(Gym(log))

        many = selection.ON_SERVER  # a template for each would take as long, and half a gigabyte
        kind = f"situation_{SITUATIONS.index(situation)}"
        opened.append(open_log(fresh() if many else fresh(kind, fill)))
        if many:
            fill(opened[-1])
        return Gym(opened[-1])

    yield make
    for log in opened:
        log.close()


@pytest.fixture(scope="session")
def gym_world(store: Store, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """A gym of members, coach and owner, made once: `gym_world.into(log)` writes it into an empty log."""
    from tests.desk import gym_world
    from tracker.desk.base.opening import open_log

    address = store.copy("empty", None, tmp_path_factory.mktemp("gym"))
    log = open_log(address)
    made = gym_world.make(log)
    log.close()
    store.drop(address)
    return made


def must_not_skip() -> bool:
    """In CI a browser or server test that finds nothing to run on fails."""
    return bool(os.environ.get("CI"))


# Each window would draw, where nobody looks, two pages below an address bar that no test has: more than half a second
# of processor time a window.
WITHOUT = ("WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup")
# The browser takes only the last list of features, so this one holds what Playwright asks for as well.
AS_PLAYWRIGHT = (
    "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades", "LensOverlay", "MediaRouter",
    "HttpsFirstBalancedModeAutoEnable", "PaintHolding", "ThirdPartyStoragePartitioning", "TcpPortRandomizationWin",
    "AvoidCorsURLLoaderRestartOnRedirect", "OptimizationHints", "NetworkTimeServiceQuerying", "PreconnectToSearch", "AimEnabled",
)  # fmt: skip
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", f"--disable-features={','.join((*WITHOUT, *AS_PLAYWRIGHT))}",
    "--js-flags=--no-opt --no-maglev",  # no test runs a script long enough for what optimising it takes
]  # fmt: skip


def where_chromium_is() -> str | None:
    return shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Chromium of the system, one for all tests of a process; skips with the reason where there is none, but never in CI."""
    where = where_chromium_is()
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        where = None
    if where is None:
        if must_not_skip():
            pytest.fail("There is no Chromium or Playwright, and this run may not skip.")
        pytest.skip("No Chromium or Playwright on this machine: apt-get install chromium, pip install playwright.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=where, args=FLAGS, env={**os.environ, **_zone()})  # type: ignore[dict-item]
        yield browser
        browser.close()


def _zone() -> dict[str, str]:
    """Name the zone of the run as Chromium knows it: what POSIX alone allows, such as XXX+1, it takes for something else."""
    known = os.environ.get("TZ", "")
    if not known or known in zoneinfo.available_timezones():
        return {}
    hours, rest = divmod(-int(datetime.now().astimezone().utcoffset().total_seconds()), 3600)  # type: ignore[union-attr]
    return {"TZ": f"Etc/GMT{hours:+d}"} if not rest else {}


@pytest.fixture
def ana(log: Log) -> MemberRecord:
    from tracker.desk.people import people

    return people.add_member(log, "Ana")


@pytest.fixture
def wren(log: Log) -> MemberRecord:
    from tracker.desk.people import people

    return people.add_member(log, "Wren")


@pytest.fixture
def squat(log: Log) -> LiftRecord:
    from tracker.desk.people import people

    return people.add_lift(log, "back squat", "barbell")
