"""Looking back: the journal, weeks and training load."""
