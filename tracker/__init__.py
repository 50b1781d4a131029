"""Tidemark: a training log that says what a member's maxes are today, and how sure it is."""

__version__ = "0.1.0"
