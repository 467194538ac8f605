"""Exact factors between the units of the design codes: inch, pound-force and those of SI."""

MM_PER_INCH = 25.4
NEWTONS_PER_POUND = 4.4482216152605
"""0.45359237 kg by 9.80665 m/s2."""
PSI_PER_MPA = MM_PER_INCH**2 / NEWTONS_PER_POUND
