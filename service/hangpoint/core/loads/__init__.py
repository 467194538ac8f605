"""Weights of what hangs, combinations of loads, seismic force of components."""
