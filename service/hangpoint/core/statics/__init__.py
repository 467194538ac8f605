"""Reactions of supports."""
