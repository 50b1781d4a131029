"""Pieces and their movements, read from tokens. Pure."""
