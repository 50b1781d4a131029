"""What a member can lift today: published formulas, and an estimate of our own with its band. Pure."""
