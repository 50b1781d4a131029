"""Nothing that a person reads says what nobody in the trade says: texts of the program, scripts of the phone's page, documents."""

from __future__ import annotations

from pathlib import Path

import pytest

import tracker
from tests.plain_words import never, said_in, said_in_script
from tracker.log.history import words_now

ROOT = Path(tracker.__file__).parent
HOUSE = ROOT.parent
# A coach's sheet is read by words that coaches write, whatever they are.
ELSEWHERE = ("prescription/sheet/days/sections.py", "prescription/sheet/words/talk.py")
SCRIPTS = (".js", ".html", ".css", ".toml")


def test_such_words_are_seen():
    assert never("Mend it, or bring a file; then hand out what is really 50 % of it.") == [
        "Mend", "bring", "hand out", "really 50",
    ]  # fmt: skip
    assert never("Edit it, or import a file; then share what is 50 % of it. Recommended amendments.") == []


def test_what_stands_in_the_code_for_people_to_read_is_found(tmp_path: Path):
    path = tmp_path / "page.py"
    path.write_text('"""Mend."""\nraise BadInputError(f"{n} sets: mend them.", mend="Bring it.")\nPART = "bring"\n')
    assert [(line, never(text)) for line, text in said_in(path) if never(text)] == [(2, ["mend"]), (2, ["Bring"])]
    path = tmp_path / "view.js"
    path.write_text(
        '// mends\nbutton("Mend", `id="mend_${id}" data-do="mend"`); ui.mend = mend(row);\nsay("Type it once.");'
    )
    assert [(line, never(text)) for line, text in said_in_script(path) if never(text)] == [
        (2, ["Mend"]),
        (3, ["Type it"]),
    ]


def test_no_text_of_the_program_says_it():
    paths = [*sorted(ROOT.rglob("*.py")), *sorted((HOUSE / "pages").glob("*.py"))]
    wrong = [
        f"{path.relative_to(HOUSE)}:{line}: {text!r}"
        for path in paths
        if str(path.relative_to(ROOT) if path.is_relative_to(ROOT) else path) not in ELSEWHERE
        for line, text in said_in(path)
        if never(text)
    ]
    assert wrong == []


def test_no_script_or_style_says_it():
    paths = [path for path in sorted(ROOT.rglob("*")) if path.suffix in SCRIPTS]
    assert paths
    wrong = [
        f"{path.relative_to(HOUSE)}:{line}: {never(text)}"
        for path in paths
        for line, text in said_in_script(path)
        if never(text)
    ]
    assert wrong == []


@pytest.mark.parametrize("name", ["README.md", ".deploy/README.md"])
def test_the_readme_does_not_say_it(name: str):
    lines = (HOUSE / name).read_text(encoding="utf-8").splitlines()
    assert [(number, never(line)) for number, line in enumerate(lines, 1) if never(line)] == []


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        ("mended back squat: 5 x 60 kg", "edited back squat: 5 x 60 kg"),
        ("undid: undid: mended press: 5 x 40 kg", "undid: undid: edited press: 5 x 40 kg"),
        ("brought Millrace to 2026-03-02", "moved Millrace to 2026-03-02"),
        ("removed mended", "removed mended"),
    ],
)
def test_acts_of_older_logs_are_said_in_the_words_of_today(kept, said):
    assert words_now(kept) == said
