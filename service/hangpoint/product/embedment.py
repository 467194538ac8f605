"""One embedment of one size: one row of the column table. Symbols and clauses of ACI 318-19 chapter 17.

A pullout strength or a bond stress that is absent means: not qualified in that state.
"""

from typing import Annotated, Literal

from pydantic import Field

from hangpoint.product.bond_data import Bond, BondCondition, Category
from hangpoint.product.deck import DeckData
from hangpoint.product.en_data import EnData
from hangpoint.product.fields import Model, Pullout, about, force, length, pullout, quantity, stress

Lightweight = Literal["lambda_a", "tested", "none"]


class Hole(Model):
    """The drilled hole."""

    diameter: Annotated[float, length("Nominal diameter of the bit.")]
    depth: Annotated[float, length("Least depth of the drilled hole.")]


class Embedment(Model):
    """One embedment of one size."""

    h_ef: Annotated[float, length("Effective embedment depth h_ef (chapter 2).")]
    h_nom: Annotated[float | None, length("Nominal embedment, the depth that is set and marked.")] = None
    hole: Annotated[Hole | None, about("Hole to drill; required in the file of a drilled anchor.")] = None
    torque: Annotated[
        float | None, quantity("torque", "Installation torque; null where none is applied (17.9.2 then: not torqued).")
    ] = None
    h_min: Annotated[float, length("Least thickness of the member (17.9.4).")]
    thickness_tested: Annotated[bool, about("h_min rests on tests, so the limits of h_ef in 17.9.4 don't hold.")] = (
        False
    )
    c_min: Annotated[float, length("Least edge distance, centre of anchor to edge (17.9.2).")]
    s_min: Annotated[float, length("Least spacing of anchors (17.9.2).")]
    spacing_tested: Annotated[
        bool, about("c_min and s_min rest on tests by ACI 355.2 and may be below Table 17.9.2.")
    ] = False
    c_ac: Annotated[
        float | None, length("Critical edge distance c_ac (17.6.2.6); absent: Table 17.9.5, where a request may.")
    ] = None
    category: Annotated[
        Category | None,
        about("Anchor category by ACI 355.2, for phi (Table 17.5.3); that of an adhesive anchor stands in `bond`."),
    ] = None
    k_cr: Annotated[
        float | None,
        Field(ge=1, le=24, description="k_c by tests, cracked (17.6.2.2.1). 17 to 24 in us, 7 to 10 in si."),
    ] = None
    k_uncr: Annotated[
        float | None,
        Field(ge=1, le=24, description="k_c by tests, uncracked (17.6.2.2.1). 17 to 24 in us, 7 to 10 in si."),
    ] = None
    n_p_cr: Annotated[Pullout | None, pullout("Pullout strength N_p,cr in cracked concrete (17.6.3.1).")] = None
    n_p_uncr: Annotated[Pullout | None, pullout("Pullout strength N_p,uncr in uncracked concrete (17.6.3.1).")] = None
    n_p_eq: Annotated[Pullout | None, pullout("Pullout strength N_p,eq by simulated seismic tests (17.10.3).")] = None
    n_exponent: Annotated[
        float | None,
        Field(ge=0, le=1, description="n of N_p (f'c / f_c_ref)^n; required beside a pullout strength in figures."),
    ] = None
    f_c_ref: Annotated[
        float | None, stress("Concrete strength that N_p is stated for; absent: 2,500 psi, that of the tests.")
    ] = None
    v_sa: Annotated[float | None, force("Steel strength in shear V_sa by tests (17.7.1.2).")] = None
    v_sa_eq: Annotated[float | None, force("Steel strength in shear V_sa,eq by simulated seismic tests (17.10.3).")] = (
        None
    )
    seismic: Annotated[bool, about("Qualified for earthquake at this embedment (17.10.3).")] = False
    lightweight: Annotated[
        Lightweight,
        about(
            "Lightweight concrete: lambda_a of Table 17.2.4.1 on N_p too; tested: N_p already holds there;"
            " none: not allowed."
        ),
    ] = "lambda_a"
    distance_sleeve: Annotated[
        bool, about("Distance sleeve apart from the expansion sleeve: l_e is 2 d_a in shear (17.7.2.2.1).")
    ] = False
    bond: Annotated[
        tuple[Bond, ...],
        Field(strict=False, max_length=24, description="Bond of an adhesive anchor, one entry a condition."),
    ] = ()
    deck: Annotated[
        tuple[DeckData, ...],
        Field(strict=False, max_length=2, description="Tested strengths in a deck soffit, one entry a flute."),
    ] = ()
    en: Annotated[EnData | None, about("Figures for EN 1992-4; required with the basis en, and of no other.")] = None

    @property
    def conditions(self) -> tuple[BondCondition, ...]:
        """The conditions that the bond of an adhesive anchor is stated for, by either code."""
        return self.bond or (self.en.bond if self.en else ())
