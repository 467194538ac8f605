"""The chain of a hang point: what hangs, the rod, the anchor, the base; the weakest link is named.

Units of the columns that come in: in, in2, ft along a run, lbf, lbf/ft, lb/ft3, psi.
"""
