"""Looking ahead: what may become of a max, what would be needed now, and when a test would pay."""
