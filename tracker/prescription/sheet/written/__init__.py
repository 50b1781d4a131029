"""A sheet written again: printed, said back, as plain values, and its pieces as they are scored. Pure."""
