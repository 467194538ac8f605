"""Allowable service loads: tables by tests, and bolts in masonry by TMS 402. Units: in, in2, lbf, psi."""
