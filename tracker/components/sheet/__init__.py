"""A sheet pasted, understood and taken."""
