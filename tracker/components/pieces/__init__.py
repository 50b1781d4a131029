"""Conditioning: the piece, its clock, its score."""
