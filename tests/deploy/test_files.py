"""Build files that no engine can try here hold together: each says the same as the others, and as the program itself.

systemd: systemd.exec(5), systemd.service(5), systemd.timer(5). Compose: its specification's words for services. Where the
machine has the tool that reads a file, that tool reads it.
"""

from __future__ import annotations

import ast
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.deploy.built import (
    COMPOSE,
    DEPLOY,
    PROGRAM,
    PROXY,
    ROOT,
    SERVICES,
    UNITS,
    environment,
    image,
    of_image,
    ports_of_proxy,
    shell_of,
    understood,
    unit,
    words_of,
)
from tests.server.cluster import Cluster, NoServerError
from tracker.desk.files import dumps
from tracker.door import serving, sign_in
from tracker.log import engine

DOCUMENTS = [DEPLOY / "README.md", ROOT / "README.md"]
KNOWN = {  # the keys that a unit may have here, from the manual pages named above
    "Unit": {"Description", "After", "Wants", "StartLimitIntervalSec"},
    "Timer": {"OnCalendar", "Persistent"},
    "Install": {"WantedBy"},
}


@pytest.mark.parametrize("path", UNITS, ids=lambda each: each.name)
def test_a_unit_is_one_to_whoever_reads_it(path: Path, tmp_path: Path) -> None:
    for section, keys in unit(path).items():
        assert set(keys) <= KNOWN.get(section, set(keys)), section
    tool = shutil.which("systemd-analyze")
    if tool is None:
        pytest.skip("there is no systemd-analyze on this machine; the sections and keys were looked at")
    for each in UNITS:  # a timer wants its service beside it
        text = each.read_text(encoding="utf-8").replace(PROGRAM, sys.executable)
        (tmp_path / each.name.replace("@", "@8511")).write_text(text)
    done = subprocess.run(
        [tool, "verify", "--man=no", tmp_path / path.name.replace("@", "@8511")], capture_output=True, text=True, check=False
    )  # fmt: skip
    assert (done.returncode, [line for line in done.stderr.splitlines() if path.stem.split("@")[0] in line]) == (0, [])


def test_units_call_the_program_as_it_is_with_the_settings_that_it_reads() -> None:
    called = {path.stem: unit(path)["Service"] for path in UNITS if path.suffix == ".service"}
    assert set(called) == {"tidemark@", "tidemark-dump", "tidemark-look"}
    for name, service in called.items():
        (command,) = service["ExecStart"]
        program, *words = command.replace("%i", "8511").split()
        assert program == PROGRAM
        assert understood(words if "dump" not in words else [*words, "somewhere"]).params
        assert service["EnvironmentFile"] == ["/etc/tidemark/tidemark.env"]
        assert service["User"] == ["tidemark"], name
        for wall in ("NoNewPrivileges=yes", "ProtectSystem=strict", "ProtectHome=yes", "PrivateTmp=yes"):
            key, value = wall.split("=")
            assert service[key] == [value], name
    server = called["tidemark@"]
    assert server["Restart"] == ["always"]
    assert int(server["TimeoutStopSec"][0]) > serving.END_S  # what is under way ends by itself before it is killed
    assert server["KillSignal"] == ["SIGTERM"]
    timers = {path.stem for path in UNITS if path.suffix == ".timer"}
    assert timers == set(called) - {"tidemark@"}


def test_the_settings_are_those_that_the_program_reads() -> None:
    assert set(environment()) == {engine.VARIABLE, sign_in.VARIABLE, dumps.VARIABLE}
    url = engine.database_url(environment()[engine.VARIABLE])
    assert (url.get_backend_name(), url.database, url.query["host"]) == (
        "postgresql",
        "tidemark",
        "/var/run/postgresql",
    )
    assert url.password is None
    given = tomllib.loads((DEPLOY / "sign_in.toml").read_text(encoding="utf-8"))
    assert set(given) == {*sign_in.NEEDED, "name", "metrics_key"}
    assert not given["cookie_secret"] + given["metrics_key"]  # none that everybody knows


def test_the_proxy_reads_its_file(tmp_path: Path) -> None:
    assert re.findall(r"crt (\S+)", PROXY) == ["/etc/haproxy/tidemark.pem"]
    for words in (
        "cookie tidemark_server insert", "timeout tunnel 1h", "hdr Host 127.0.0.1", "Strict-Transport-Security",
        "redirect scheme https code 301", "set-header X-Forwarded-For %[src]", "uri /_stcore/health",
    ):  # fmt: skip
        assert words in PROXY
    assert "%HU" not in PROXY  # nor %HQ: codes of sign-in stand in the query
    assert "%HQ" not in PROXY
    assert len(ports_of_proxy()) == 2


def test_the_image_is_made_of_what_is_there_and_is_nobody_s_root() -> None:
    for word, rest in image():
        if word == "COPY" and "--from" not in rest:
            *sources, _ = rest.split()
            assert all((ROOT / each).exists() for each in sources), rest
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert {rest.split()[0] for word, rest in image() if word == "FROM"} == {"python:3.11-slim-bookworm"}
    assert project["requires-python"] == ">=3.11"
    (install,) = [rest for word, rest in image() if "pip install" in rest]
    assert "'.[server]' --constraint .ci/tested-versions.txt" in install
    assert of_image("USER") == "tidemark"
    assert words_of(of_image("ENTRYPOINT")) == [PROGRAM]
    port = understood(words_of(of_image("CMD"))).params["port"]
    assert f"PORT={port}" in of_image("ENV")
    program, flag, body = words_of(of_image("HEALTHCHECK").partition("CMD ")[2])
    assert (program, flag) == (str(Path(PROGRAM).parent / "python"), "-c")
    ast.parse(body)
    assert "/_stcore/health" in body
    major = re.search(r"postgresql-client-(\d+)", "".join(rest for _, rest in image()))
    assert major
    assert SERVICES["database"]["image"].startswith(f"postgres:{major[1]}")


def test_the_compose_file_says_what_image_proxy_and_settings_say() -> None:
    servers = {name: each for name, each in SERVICES.items() if each.get("command", [""])[0] == "open"}
    assert [each["command"][-1] for each in servers.values()] == ports_of_proxy()
    settings = environment()
    for each in servers.values():
        assert str(understood(each["command"]).params["port"]) == each["environment"]["PORT"]
        assert each["network_mode"] == "service:door"  # where the proxy is too: both are 127.0.0.1
        assert each["env_file"] == ["/etc/tidemark/tidemark.env"]
        places = {volume.split(":")[1] for volume in each["volumes"]}
        assert places == {settings["TIDEMARK_SIGN_IN"], settings["TIDEMARK_DUMPS"]}
        assert each["cap_drop"] == ["ALL"]
        assert int(each["stop_grace_period"].removesuffix("s")) > serving.END_S
    assert SERVICES["proxy"]["network_mode"] == "service:door"
    assert SERVICES["proxy"]["image"].startswith("haproxy:2.6")
    assert "/etc/haproxy/tidemark.pem:/etc/haproxy/tidemark.pem:ro" in SERVICES["proxy"]["volumes"]
    bound = re.findall(r"bind :::(\d+)", PROXY)
    assert [each.split(":") for each in SERVICES["door"]["ports"]] == [[each, each] for each in bound]
    assert SERVICES["two"]["depends_on"]["one"] == {"condition": "service_healthy"}  # one alone makes the tables
    understood([*SERVICES["dump"]["command"], settings["TIDEMARK_DUMPS"]])
    named = {volume.split(":")[0] for each in SERVICES.values() for volume in each.get("volumes", [])}
    assert {each for each in named if "/" not in each} == set(COMPOSE["volumes"])
    assert [each for each in named if each.startswith("./") and not (DEPLOY / each).is_file()] == []
    for each in SERVICES.values():  # what is waited for is there
        assert set(each.get("depends_on", {})) <= set(SERVICES)
        if "build" in each:
            assert (DEPLOY / each["build"]["context"]).resolve() == ROOT
            assert (ROOT / each["build"]["dockerfile"]).is_file()


@pytest.mark.parametrize("text", ["database.sh", "as-tidemark", *DOCUMENTS], ids=str)
def test_what_a_shell_reads_is_whole(text: str | Path) -> None:
    blocks = shell_of(text) if isinstance(text, Path) else [(DEPLOY / text).read_text(encoding="utf-8")]
    assert blocks
    for block in blocks:
        done = subprocess.run(["bash", "-n"], input=block, text=True, capture_output=True, check=False)
        assert (done.returncode, done.stderr) == (0, ""), block


def test_every_command_that_the_administrator_is_told_is_one() -> None:
    text = "\n".join(shell_of(DEPLOY / "README.md")).replace("\\\n", " ")
    lines: list[str] = re.findall(r"sudo tidemark ([^\n#|]+)", text)
    assert len(lines) >= 8
    for line in lines:
        words = [each.strip("\"'") for each in re.findall(r"\"[^\"]*\"|'[^']*'|\S+", line)]
        assert understood(words if words[0] != "dump" else [*words, "somewhere"])


@pytest.mark.server
def test_the_role_owns_the_database_and_is_no_superuser() -> None:
    try:
        cluster = Cluster().start()
    except NoServerError as err:
        pytest.skip(str(err))
    try:
        reached = {"PGHOST": "127.0.0.1", "PGPORT": str(cluster.port), "POSTGRES_USER": "gym", "PATH": "/usr/bin:/bin"}
        for password in ("", "quiet-otter's 93", ""):  # it may run again
            given = {**reached, **({"PGPASSWORD": password} if password else {})}
            done = subprocess.run(
                ["sh", DEPLOY / "database.sh"], env=given, capture_output=True, text=True, check=False
            )
            assert (done.returncode, done.stderr) == (0, "")
        ask = (
            "SELECT pg_get_userbyid(datdba), pg_encoding_to_char(encoding), rolsuper, rolcreatedb, rolcreaterole, "
            "rolpassword IS NOT NULL FROM pg_database, pg_authid WHERE datname = 'tidemark' AND rolname = 'tidemark'"
        )
        told = subprocess.run(
            ["psql", "--no-align", "--tuples-only", "--dbname=postgres", "--username=gym", f"--command={ask}"],
            env=reached, capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert told.stdout.strip() == "tidemark|UTF8|f|t|f|t"
    finally:
        cluster.remove()
