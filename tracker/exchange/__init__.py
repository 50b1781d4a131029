"""Files in and out: sets, backups."""
