"""What a member can lift today: formulas that are in print, and an estimate of our own with its band. Pure."""
