"""From a prescription to the bar: percentages, kit, discs, waves and sheets. Pure."""
