"""What the build files of a gym's server say, read once: units, image, compose file, proxy."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import click
import yaml

from tracker.cli import tidemark

ROOT = Path(__file__).parents[2]
DEPLOY = ROOT / ".deploy"
UNITS = sorted((DEPLOY / "units").glob("*.service")) + sorted((DEPLOY / "units").glob("*.timer"))
PROXY = (DEPLOY / "haproxy.cfg").read_text(encoding="utf-8")
COMPOSE: dict[str, Any] = yaml.safe_load((DEPLOY / "compose.yaml").read_text(encoding="utf-8"))
SERVICES: dict[str, dict[str, Any]] = COMPOSE["services"]
PROGRAM = "/opt/tidemark/.venv/bin/tidemark"


def unit(path: Path) -> dict[str, dict[str, list[str]]]:
    """Return the sections of a unit, each key with its values in their order."""
    found: dict[str, dict[str, list[str]]] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        if head := re.fullmatch(r"\[(\w+)\]", line):
            section = found.setdefault(head[1], {})
        elif line and not line.startswith("#"):
            key, _, value = line.partition("=")
            section.setdefault(key, []).append(value)
    return found


def environment(name: str = "tidemark.env") -> dict[str, str]:
    """Return what the settings file sets, as it is shipped."""
    lines = (DEPLOY / name).read_text(encoding="utf-8").splitlines()
    return dict(line.split("=", 1) for line in lines if line and not line.startswith("#"))


def image() -> list[tuple[str, str]]:
    """Return the instructions of the image, long lines joined."""
    text = (DEPLOY / "Containerfile").read_text(encoding="utf-8").replace("\\\n", " ")
    lines = (line.strip() for line in text.splitlines())
    pairs = [line.split(None, 1) for line in lines if line and not line.startswith("#")]
    return [(word, rest) for word, rest in pairs]


def of_image(word: str) -> str:
    """Return what the last instruction of a kind says."""
    return [rest for each, rest in image() if each == word][-1]


def words_of(instruction: str) -> list[str]:
    """Return an instruction in its exec form."""
    return json.loads(instruction)


def understood(words: list[str]) -> click.Context:
    """Let the command line read what it is called with, without doing it.

    Raises:
        click.ClickException: if there is no such command or option, or a value can't be.
    """
    name, *rest = words
    command = tidemark.get_command(click.Context(tidemark), name)
    assert command is not None, name
    return command.make_context(name, rest)


def ports_of_proxy() -> list[str]:
    """Return the ports of the servers behind the proxy, in their order."""
    return re.findall(r"^\s*server (?:one|two) 127\.0\.0\.1:(\d+) ", PROXY, re.MULTILINE)


def shell_of(document: Path) -> list[str]:
    """Return the blocks of shell in a document, without the spaces that a list gives them."""
    blocks = re.findall(r"^( *)```sh\n(.*?)^ *```", document.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    return ["\n".join(line.removeprefix(ahead) for line in text.splitlines()) for ahead, text in blocks]
