"""Runs the program inside the test, and hands back what it said and with which status it ended."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

import pytest

from tracker.cli import run


@dataclass(frozen=True)
class Answer:
    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The one JSON document on standard output; NaN and infinity are refused, since they are no JSON."""

        def refuse(word: str) -> None:
            raise AssertionError(f"{word} is no JSON")

        return json.loads(self.out, parse_constant=refuse)


@pytest.fixture
def tidemark(capsys):
    def call(*arguments: object) -> Answer:
        capsys.readouterr()
        status = run([str(each) for each in arguments])
        said = capsys.readouterr()
        return Answer(status, said.out, said.err)

    return call


@pytest.fixture
def refused(tidemark):
    """Bad input: status 2, nothing on standard output, one message on standard error."""

    def call(*arguments: object) -> str:
        answer = tidemark(*arguments)
        assert answer.status == 2, answer
        assert answer.out == ""
        assert answer.err.strip()
        assert "Traceback" not in answer.err
        return answer.err

    return call
