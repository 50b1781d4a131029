"""Conditioning pieces, their scores, and what a change means. Pure."""
