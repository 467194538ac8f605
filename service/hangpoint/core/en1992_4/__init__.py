"""EN 1992-4:2018, design of fastenings for use in concrete: headed, mechanical, bonded fasteners.

Units of every module here: mm, N, N/mm2. The coefficients of the formulas carry hidden units, so nothing in this
package may be fed other units. One module a failure mode; `tension` and `shear` are lists of calls, `check` joins them.

Limits: static and quasi-static loads, earthquake by annex C without displacements, ductile failure and lever arm, fire
by annex D without bonded fasteners; no supplementary reinforcement, normal-weight concrete. Partial factors are those
recommended; a national annex may have others.
"""

EDITION = "EN 1992-4:2018"
