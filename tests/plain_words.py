"""Words that nobody in the trade uses for it, and that therefore stand nowhere where a person reads."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

INSTEAD = {  # a pattern, and what is said instead
    r"mend(s|ed|ing)?": "edit, correct, put right",
    r"find it anew|anew": "new max, again",
    r"types? (it|them)": "enter",
    r"bring(s|ing)?|brought": "import, upload, add",
    r"tak(e|es|en|ing) (\w+ )?away|took (\w+ )?away": "export",
    r"hand(s|ed|ing)?[ -]out": "share",
    r"whom to see": "needs attention",
    r"like with like|unlike": "same version, another version",
    r"really \d+": "that is 50 %",
    r"day (that|which) you write": "date",
}
NEVER = re.compile(rf"\b({'|'.join(INSTEAD)})\b", re.IGNORECASE)
NAME = re.compile(r"[a-z_0-9]+")  # a key or a name of code, which nobody reads


def never(text: str) -> list[str]:
    """List what of a text should be said otherwise."""
    return [found[0] for found in NEVER.finditer(text)]


def said_in(path: Path) -> Iterator[tuple[int, str]]:
    """Go through the texts of a Python file by line: all literals but docstrings and names of code."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str) or id(node) in told:
            continue
        if not NAME.fullmatch(node.value):
            yield node.lineno, node.value


def said_in_script(path: Path) -> Iterator[tuple[int, str]]:
    """Go through a script, a style sheet or a page of ours by line, without remarks and names of code."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        text = re.sub(r"(^|\s)//.*", "", line)
        yield number, re.sub(r"data-do=\"\w+\"|[\w.$]*_\w+|[.]\w+|\w+(?=\()|\w+:|\"[a-z]+\"", " ", text)
