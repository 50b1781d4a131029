"""No file that somebody brings may take the server: each attack is read in a process of its own, which is measured."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.exchange.heavy_files import ATTACKS, END, HEAD, SHEET, gaps, package
from tracker.errors import BadInputError
from tracker.exchange.tables import MOST_BYTES, read_table

# What one upload may cost: of the processor, in times of a plain loop that the same process runs first (a fifth of a
# second on a small server), since a busy machine is slower for both; and of memory, for the whole process.
MOST_LOOPS, MOST_MB = 30, 300
READING = """
import json, resource, sys
from datetime import date
from pathlib import Path
from tracker.errors import BadInputError
from tracker.exchange.foreign import first_rows
from tracker.exchange.guess import guess
from tracker.exchange.mapping import open_questions
from tracker.exchange.tables import read_table

def used():
    so_far = resource.getrusage(resource.RUSAGE_SELF)
    return so_far.ru_utime + so_far.ru_stime


before = used()
len({str(each) for each in range(400_000)})
loop = used() - before
content = Path(sys.argv[1]).read_bytes()
told = ""
try:
    table = read_table(content, "brought")
    mapping = guess(table, date(2026, 3, 2))
    if not open_questions(table, mapping, date(2026, 3, 2)):
        first_rows(table, mapping, date(2026, 3, 2))
except BadInputError as err:
    told = str(err)
most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024**2 if sys.platform == "darwin" else 1024)
print(json.dumps([(used() - before - loop) / loop, loop, most, told]))
"""
# A process inherits the most that its parent took (getrusage(2) of Linux), so a small one stands between it and the tests.
BETWEEN = "import subprocess, sys; sys.exit(subprocess.call([sys.executable, '-c', *sys.argv[1:]]))"
# These are tables, if odd or empty ones.
PASSES = {"many_rows", "different_cells", "no_dates", "gaps", "empty_cells", "blank_rows", "long_digits"}


@pytest.mark.parametrize("attack", ATTACKS)
def test_an_upload_costs_little_whatever_it_holds(attack, tmp_path):
    path = tmp_path / "brought"
    path.write_bytes(ATTACKS[attack]())
    assert path.stat().st_size <= MOST_BYTES
    done = subprocess.run(
        [sys.executable, "-c", BETWEEN, READING, path], capture_output=True, text=True, check=True, timeout=300,
        cwd=Path(__file__).parents[2],
    )  # fmt: skip
    loops, loop, memory, told = json.loads(done.stdout)
    print(
        f"{attack}: {path.stat().st_size / 1000:,.1f} kB, {loops:.1f} loops of {loop:.2f} s, {memory:,.0f} MB. {told}"
    )
    assert loops <= MOST_LOOPS
    assert memory <= MOST_MB
    if attack not in PASSES:
        assert told


def test_a_long_gap_ends_the_table_and_that_is_said():
    table = read_table(gaps(), "brought.xlsx")
    assert table.heading == ("date", "lift", "load")
    assert table.rows == ()
    assert "up to line 1" in table.how


def test_blank_lines_between_sessions_end_nothing():
    rows = "".join(
        f'<row r="{at}"><c r="A{at}" t="str"><v>a</v></c><c r="B{at}" t="str"><v>b</v></c><c r="C{at}"><v>{at}</v></c></row>'
        for at in (5, 900, 1900)
    )
    table = read_table(package([SHEET + HEAD + rows + END]), "brought.xlsx")
    assert [line for line, _ in table.rows] == [5, 900, 1900]
    assert table.rows[2][1] == ("a", "b", "1900")


def test_only_the_sheet_that_is_asked_for_is_read():
    good = SHEET + HEAD + '<row r="2"><c><v>1</v></c><c><v>2</v></c><c><v>3</v></c></row>' + END
    content = package([good, SHEET + "<row><this is no XML" + " " * 5000])
    table = read_table(content, "brought.xlsx", sheet="sheet1")
    assert table.rows == ((2, ("1", "2", "3")),)
    assert table.sheets == ("sheet1", "sheet2")
    with pytest.raises(BadInputError, match="can't be read"):
        read_table(content, "brought.xlsx", sheet="sheet2")


def test_cells_of_every_kind_are_read_as_a_csv_would_have_them():
    styles = ['<xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="46"/>']
    cells = (
        '<c s="1"><v>46083</v></c><c t="s"><v>1</v></c><c><v>5.0</v></c><c t="b"><v>1</v></c><c t="e"><v>#DIV/0!</v></c>'
        '<c t="inlineStr"><is><r><t>in</t></r><r><t>line</t></r><rPh sb="0" eb="1"><t>aloud</t></rPh></is></c>'
        '<c><f>1+1</f><v>2</v></c><c t="d"><v>2026-03-02T10:00:00</v></c><c s="1"><v>1e300</v></c>'
    )
    texts = ["<si><t>a</t></si>", '<si><t xml:space="preserve"> x_x000A_y_xD800_ </t></si>']
    head = HEAD.replace("</row>", "<c/>" * 5 + '<c t="str"><v>end</v></c></row>')
    content = package([f"{SHEET}{head}<row>{cells}</row>{END}"], texts=texts, styles=styles)
    table = read_table(content, "brought.xlsx")
    # 2026-03-02 is day 46083 of ECMA-376 part 1, 18.17.4.1 (day 1 is 1900-01-01, with a 29 February 1900 that never was)
    assert table.rows[0][1] == (
        "2026-03-02",
        "x\ny_xD800_",
        "5",
        "yes",
        "#DIV/0!",
        "inline",
        "2",
        "2026-03-02",
        "#VALUE!",
    )
