"""An allowable load brought to the level of strength design by the load factor of the actual loads. Units: lbf.

Evaluation reports convert the other way: allowable = design strength / alpha, alpha the weighted average of the load
factors of the governing strength combination (common practice). So alpha times the allowable is what a factored load
may be compared with, for these loads in this proportion and no others.
"""

from typing import Annotated, ClassVar

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

_CLAUSE = "common practice"


@record
class StrengthEquivalent(Record):
    """One point, in the strength combination with its largest load."""

    TITLE: ClassVar[str] = "allowable load at the level of strength design"
    AXIS: ClassVar[Axis] = Axis.CASE

    gamma_dead: Annotated[Floats, given("γ of dead load", clause="ASCE 7 2.3")]
    q_dead: Annotated[Floats, given("Q, dead", "lbf")]
    gamma_contents: Annotated[Floats, given("γ of contents", clause="ASCE 7 2.3")]
    q_contents: Annotated[Floats, given("Q, contents", "lbf")]
    gamma_live: Annotated[Floats, given("γ of live load", clause="ASCE 7 2.3")]
    q_live: Annotated[Floats, given("Q, live and 250 lb of a sprinkler line", "lbf")]
    q_others: Annotated[Floats, given("Q, all others", "lbf")]
    q_others_factored: Annotated[Floats, given("γQ, all others", "lbf")]
    service: Annotated[Floats, formula("ΣQ", "lbf", "q_dead + q_contents + q_live + q_others", clause=_CLAUSE)]
    factored: Annotated[
        Floats,
        formula(
            "ΣγQ",
            "lbf",
            "gamma_dead * q_dead + gamma_contents * q_contents + gamma_live * q_live + q_others_factored",
            clause="ASCE 7 2.3",
        ),
    ]
    load_factor: Annotated[Floats, formula("α", "", "factored / service", clause=_CLAUSE)]
    allowable: Annotated[Floats, given("allowable load", "lbf")]
    equivalent: Annotated[
        Floats, formula("α times the allowable load", "lbf", "load_factor * allowable", clause=_CLAUSE)
    ]


def strength_equivalent(
    *,
    gamma_dead: Floats,
    q_dead: Floats,
    gamma_contents: Floats,
    q_contents: Floats,
    gamma_live: Floats,
    q_live: Floats,
    q_others: Floats,
    q_others_factored: Floats,
    allowable: Floats,
) -> StrengthEquivalent:
    """The load factor of each point and what its allowable load is with it, (rows,); the sum of the loads above 0."""
    service = q_dead + q_contents + q_live + q_others
    factored = gamma_dead * q_dead + gamma_contents * q_contents + gamma_live * q_live + q_others_factored
    load_factor = factored / service
    return StrengthEquivalent(
        gamma_dead=gamma_dead,
        q_dead=q_dead,
        gamma_contents=gamma_contents,
        q_contents=q_contents,
        gamma_live=gamma_live,
        q_live=q_live,
        q_others=q_others,
        q_others_factored=q_others_factored,
        service=service,
        factored=factored,
        load_factor=load_factor,
        allowable=allowable,
        equivalent=load_factor * allowable,
    )
