"""Conditioning: clock, score, and like with like."""
