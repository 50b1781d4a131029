"""Tidemark: a training log that says what a member's maxes are today, and how sure it is."""

from pathlib import Path

__version__ = "0.1.0"


def asset_folder(name: str) -> Path:
    """Return the folder of pages, migrations or demo data: inside the installed package, else beside it."""
    inside = Path(__file__).parent / f"_{name}"
    return inside if inside.is_dir() else Path(__file__).parent.parent / name
