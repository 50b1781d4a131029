"""Writes what is read of the texts in ambiguous/ and prose/ beside them, to be looked at as a change: `python -m tests.prescription.sheet.golden`."""

from __future__ import annotations

import json
from pathlib import Path

from tracker.prescription.sheet import as_json, read

FOLDERS = tuple(Path(__file__).with_name(name) for name in ("ambiguous", "prose"))


def reading_of(path: Path) -> dict[str, object]:
    """Return the document of a text, and the key of each ask."""
    reading = read(path.read_text(encoding="utf-8"))
    document = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    return {
        "sessions": document["sessions"],
        "notes": document["notes"],
        "asks": document["asks"],
        "said": document["said"],
    }


def main() -> None:
    for folder in FOLDERS:
        for path in sorted(folder.glob("*.txt")):
            text = json.dumps(reading_of(path), indent=1, ensure_ascii=False)
            path.with_suffix(".json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
