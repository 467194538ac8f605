"""Hangers: reactions of a run, rods, spacing rules."""
