"""The command line: reads what was typed, calls the desk or a pure room, prints the answer.

Exit status: 0 done; 2 bad usage or bad input, with one message that says what, where and how to mend it; 1 a fault of
the program. A command's module is imported when the command is called, and the heavy libraries inside the command, so
that a quick question gets a quick answer.
"""

from __future__ import annotations

import io
import os
import signal
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

import click

from tracker import __version__
from tracker.cli.options import database_option
from tracker.errors import TidemarkError

DONE, FAULT, BAD_INPUT = 0, 1, 2
INTERRUPTED = 130  # what a shell reports of a program that was stopped by Ctrl-C

# Where each command lives, in the order in which `--help` lists them.
COMMANDS = {
    "open": "pages:open_pages",
    "demo": "pages:demo",
    "next": "next:next_thing",
    "weights": "weights:weights",
    "plan": "plan:plan",
    "estimate": "estimate:estimate",
    "score": "score:score",
    "goal": "goal:goal",
    "sheet": "sheet:sheet",
    "import": "files:import_file",
    "export": "files:export",
    "backup": "custody:backup",
    "restore": "custody:restore",
    "check": "custody:check",
    "dump": "dumps:dump",
    "rehearse": "dumps:rehearse",
    "account": "accounts:account",
    "roster": "gym:roster",
    "class": "gym:class_",
}


class Commands(click.Group):
    """The commands by name, each imported only when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module, _, name = COMMANDS[cmd_name].partition(":")
        return getattr(import_module(f"tracker.cli.{module}"), name)

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            _say_no_more()
            return DONE


@click.group(
    "tidemark", cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100}
)
@click.version_option(__version__, prog_name="tidemark")
@database_option
def tidemark() -> None:
    """A training log: sets, current maxes with their band, and the next loads for your kit.

    The log is an SQLite file in your data directory, or what --database or TIDEMARK_DATABASE names. Tidemark computes;
    it clears nobody to train: coach, clinician and the rules of your gym come first.

    Exit status: 0 done; 2 bad usage or bad input, with one message that says what, where and how to mend it; 1 a fault
    of the program.
    """


def main() -> None:
    """Run the program with the arguments it was started with."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a name that this terminal can't write is no fault
    status = run(sys.argv[1:])
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C changes no more what the status says
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        _say_no_more()
    sys.exit(status)


def _say_no_more() -> None:
    """Whoever read the answer has seen enough: what is left goes nowhere, at the exit too."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def run(arguments: Sequence[str]) -> int:
    """Run one command and return the exit status."""
    try:
        answer = tidemark.main(args=list(arguments), prog_name="tidemark", standalone_mode=False)
    except click.ClickException as err:
        err.show()
        return BAD_INPUT
    except TidemarkError as err:
        click.echo(f"tidemark: {err}", err=True)
        return BAD_INPUT
    except (click.Abort, KeyboardInterrupt, EOFError):
        return INTERRUPTED
    except Exception as err:  # the outermost place: a fault of ours ends in a word and its trace
        return _own_fault(err)
    return answer if isinstance(answer, int) else DONE


def _own_fault(err: Exception) -> int:
    import traceback

    click.echo("".join(traceback.format_exception(err)), err=True, nl=False)
    click.echo(
        "tidemark: this is a fault of the program, not of what you typed. Please report the lines above.", err=True
    )
    return FAULT
