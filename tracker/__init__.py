"""Tidemark: a training log that says what a member's maxes are today, and how sure it is."""

import os
from pathlib import Path

__version__ = "0.1.0"

# Read by numpy's linear algebra when it is loaded. The estimator multiplies small matrices: more threads take as long
# and two thirds more of the processor, which a server of several members lacks.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def asset_folder(name: str) -> Path:
    """Return the folder of pages, migrations or demo data: inside the installed package, else beside it."""
    inside = Path(__file__).parent / f"_{name}"
    return inside if inside.is_dir() else Path(__file__).parent.parent / name
