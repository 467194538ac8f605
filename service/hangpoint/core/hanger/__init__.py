"""Hangers of runs, risers, trapezes and equipment: their loads, rods, bars, earthquake, spacing rules."""
