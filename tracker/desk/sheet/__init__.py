"""A coach's session comes to the log."""
