"""What is next, and logging it."""
