"""Statics: runs, bars and equipment on their supports, braces, leaning rods, rigid plates, bolt groups, overturning."""
