"""Looking back: sessions, weeks, load."""
