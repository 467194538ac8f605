"""Weights of what hangs."""
