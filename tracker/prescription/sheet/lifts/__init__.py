"""Lifts and their sets, read from tokens. Pure."""
