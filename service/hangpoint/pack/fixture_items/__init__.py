"""Fixtures that don't hang, from items to columns of the core."""
