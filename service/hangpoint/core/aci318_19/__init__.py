"""ACI 318-19 chapter 17, anchoring to concrete: tension, shear, both together, earthquake.

Units of every module here: in, in2, lbf, psi. The coefficients of the formulas carry hidden units, so nothing in
this package may be fed other units. One module a failure mode; `check` is the list of calls.
"""

EDITION = "ACI 318-19"
