"""The documents can't drift from the program: every command has its help and stands in the README."""

from __future__ import annotations

import re
import shlex
import tomllib
from importlib.metadata import version
from pathlib import Path

import click
import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from tracker.cli import COMMANDS, tidemark

ROOT = Path(__file__).parent.parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def commands() -> dict[str, click.Command]:
    """Every command by the words that call it, the verbs of groups too."""
    found: dict[str, click.Command] = {}
    context = click.Context(tidemark)
    for name in COMMANDS:
        command = tidemark.get_command(context, name)
        assert command is not None
        found[name] = command
        if isinstance(command, click.Group):
            found |= {f"{name} {verb}": each for verb, each in command.commands.items()}
    return found


def test_the_commands_of_the_contract_are_there():
    wanted = {
        "estimate",
        "weights",
        "score ladder",
        "sheet",
        "open",
        "demo",
        "import",
        "export",
        "backup",
        "restore",
        "check",
    }
    assert wanted <= set(commands())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_stands_in_the_readme(name):
    assert f"tidemark {name}" in README


@pytest.mark.parametrize("name", commands())
def test_every_command_and_option_has_its_help(name, capsys):
    command = commands()[name]
    assert command.help
    assert command.name == name.split()[-1]
    for option in command.params:
        if isinstance(option, click.Option):
            assert option.help or isinstance(option.type, click.Choice) or option.show_default, option.name
    assert len(command.get_short_help_str()) > 10


@pytest.mark.parametrize("name", sorted(set(commands()) - {"open", "demo", "score", "goal"}))
def test_every_verb_that_reads_or_computes_takes_json(name):
    assert "--json" in [word for option in commands()[name].params for word in option.opts]


def test_help_is_asked_for_in_two_ways(tidemark):
    for flag in ("-h", "--help"):
        answer = tidemark(flag)
        assert answer.status == 0
        assert all(name in answer.out for name in COMMANDS)
        assert tidemark("weights", flag).out.startswith("Usage: tidemark weights")


def examples() -> list[str]:
    """The README's examples of one command."""
    return re.findall(r"^tidemark .+$", README, re.MULTILINE)


@pytest.mark.parametrize("line", examples())
def test_the_readmes_examples_run(tidemark, line, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my_sets.csv").write_text("date,lift,load,unit,reps,rir\n2026-03-02,front squat,80,kg,5,2\n")
    (tmp_path / "session.txt").write_text(
        "Week 1, day 1: Front squat\n\nFront squat, barbell, % of 3RM\n3 x 4 @ 82 %\n"
    )
    answer = tidemark(*shlex.split(line)[1:])
    assert answer.status == 0, answer.err
    assert answer.out


CONSTRAINT = "--constraint .ci/tested-versions.txt"


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", ".deploy/README.md"])
def test_every_install_command_installs_what_was_tested(name):
    lines = [line for line in (ROOT / name).read_text(encoding="utf-8").splitlines() if "pip install" in line]
    assert lines
    assert [line for line in lines if CONSTRAINT not in line] == []


def test_what_was_tested_is_what_the_project_asks_for():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    pins = (ROOT / ".ci/tested-versions.txt").read_text(encoding="utf-8").split()
    tested = {canonicalize_name(name): version for name, _, version in (pin.partition("==") for pin in pins)}
    more = [each for extra in project["optional-dependencies"].values() for each in extra]
    asked = [Requirement(each) for each in (*project["dependencies"], *more)]
    wrong = [
        f"{each}: {found}"
        for each in asked
        if not each.specifier.contains(found := tested.get(canonicalize_name(each.name), "0"))
    ]
    assert wrong == []


def test_one_minor_version_of_what_is_used_from_within():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    for name in ("streamlit", "uvicorn"):
        (asked,) = [Requirement(each) for each in project["dependencies"] if each.startswith(f"{name}>")]
        least = next(Version(each.version) for each in asked.specifier if each.operator == ">=")
        assert not asked.specifier.contains(f"{least.major}.{least.minor + 1}.0")
        assert version(name) in asked.specifier
