"""The day: the next set and what stands around it."""
