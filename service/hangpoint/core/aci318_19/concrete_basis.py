"""Strength of concrete, lightweight factor and strength reduction factors, ACI 318-19 17.2.4, 17.3.1, 17.5.3.

Units: psi. Table 17.2.4.1 is for lightweight concrete; in normalweight concrete lambda_a is 1.0 (reading 1). The
factors of 17.5.3 go with the load combinations of 5.3.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Record, formula, given, record
from hangpoint.core.rows import some

F_C_LIMIT_CAST_IN = 10_000.0
F_C_LIMIT_POST_INSTALLED = 8_000.0

_PHI_C = np.array([[0.70, 0.65, 0.55, 0.45], [0.75, 0.75, 0.65, 0.55]])
"""Table 17.5.3(b) in tension, without and with supplementary reinforcement: cast in, then category 1 to 3."""

PHI_P = np.array([0.70, 0.65, 0.55, 0.45])
"""Table 17.5.3(c): cast in, then category 1 to 3."""

_PHI_V = np.array([0.70, 0.75])
"""Table 17.5.3(b) in shear, without and with supplementary reinforcement."""


@record
class ConcreteBasis(Record):
    """What every concrete mode of a case starts from."""

    TITLE: ClassVar[str] = "concrete and strength reduction"
    AXIS: ClassVar[Axis] = Axis.CASE

    cast_in: Annotated[Bools, given("cast-in", clause="17.1.2")]
    category: Annotated[Floats, given("anchor category", clause="17.5.3")]
    supplementary: Annotated[Bools, given("supplementary reinforcement", clause="17.5.3")]
    cracked: Annotated[Bools, given("cracked")]
    f_c_specified: Annotated[Floats, given("f'_c specified", "psi")]
    f_c_limit: Annotated[
        Floats, formula("f'_c limit", "psi", "where(cast_in, 10000, 8000)", clause="17.3.1", coefficient="psi")
    ]
    f_c: Annotated[Floats, formula("f'_c", "psi", "min(f_c_specified, f_c_limit)", clause="17.3.1")]
    lightweight: Annotated[Bools, given("lightweight")]
    full_lambda: Annotated[Bools, given("cast-in or undercut", clause="Table 17.2.4.1")]
    lambda_c: Annotated[Floats, given("λ", clause="19.2.4")]
    lambda_a: Annotated[
        Floats,
        formula("λ_a", "", "where(lightweight, where(full_lambda, 1, 0.8) * lambda_c, 1)", clause="Table 17.2.4.1"),
    ]
    adhesive: Annotated[Bools, given("adhesive", clause="17.2.4")]
    lambda_bond: Annotated[
        Floats,
        formula("λ_a of bond", "", "where(lightweight, 0.6 * lambda_c, 1)", clause="Table 17.2.4.1", when="adhesive"),
    ]
    phi_c: Annotated[
        Floats,
        formula(
            "φ_c",
            "",
            "where(cast_in, where(supplementary, 0.75, 0.70), where(supplementary,"
            " where(category == 1, 0.75, where(category == 2, 0.65, 0.55)),"
            " where(category == 1, 0.65, where(category == 2, 0.55, 0.45))))",
            clause="Table 17.5.3(b)",
        ),
    ]
    phi_p: Annotated[
        Floats,
        formula(
            "φ_p",
            "",
            "where(cast_in, 0.70, where(category == 1, 0.65, where(category == 2, 0.55, 0.45)))",
            clause="Table 17.5.3(c)",
        ),
    ]
    phi_v: Annotated[Floats, formula("φ_v", "", "where(supplementary, 0.75, 0.70)", clause="Table 17.5.3(b)")]


def concrete_basis(
    *,
    cast_in: Bools,
    undercut: Bools,
    adhesive: Bools,
    category: Codes,
    supplementary: Bools,
    cracked: Bools,
    f_c_specified: Floats,
    lightweight: Bools,
    lambda_c: Floats,
) -> ConcreteBasis:
    """Limit the concrete strength and pick lambda_a and phi.

    Args:
        cast_in, undercut, adhesive, supplementary, cracked, lightweight: (cases,) booleans.
        category: (cases,) 1, 2 or 3 of a post-installed anchor, 0 for a cast-in one.
        f_c_specified: (cases,) psi.
        lambda_c: (cases,) factor of 19.2.4.
    """
    full_lambda = cast_in | undercut
    f_c_limit = np.where(cast_in, F_C_LIMIT_CAST_IN, F_C_LIMIT_POST_INSTALLED)
    kind = np.where(cast_in, 0, np.where(category == 1, 1, np.where(category == 2, 2, 3)))
    reinforced = supplementary.astype(np.intp)
    lambda_a, lambda_bond = np.ones((2, len(cast_in)))
    if some(lightweight):
        lambda_a = np.where(lightweight, np.where(full_lambda, 1.0, 0.8) * lambda_c, 1.0)
        lambda_bond = np.where(lightweight, 0.6 * lambda_c, 1.0)
    return ConcreteBasis(
        cast_in=cast_in,
        category=category.astype(np.float64),
        supplementary=supplementary,
        cracked=cracked,
        f_c_specified=f_c_specified,
        f_c_limit=f_c_limit,
        f_c=np.minimum(f_c_specified, f_c_limit),
        lightweight=lightweight,
        full_lambda=full_lambda,
        lambda_c=lambda_c,
        lambda_a=lambda_a,
        adhesive=adhesive,
        lambda_bond=lambda_bond,
        phi_c=_PHI_C[reinforced, kind],
        phi_p=PHI_P[kind],
        phi_v=_PHI_V[reinforced],
    )
