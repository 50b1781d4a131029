"""Maxes, trend and loads."""
