"""What every page stands in and shares."""
