"""Everybody's ground: who may do what, what is kept in memory, and the log opened."""
