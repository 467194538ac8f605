"""Bond of an adhesive anchor in one condition: by ACI 355.4, and by European assessment for EN 1992-4."""

from typing import Annotated, Literal

from pydantic import Field

from hangpoint.product.fields import Model, about, degrees, stress

Category = Literal[1, 2, 3]
HoleCondition = Literal["dry", "water_saturated"]


class BondCondition(Model):
    """A temperature range and the state of the hole."""

    temperature: Annotated[
        str, Field(pattern=r"^[a-z0-9-]{1,16}$", description="Word for the temperature range, e.g. a.")
    ]
    long_term: Annotated[float, degrees("Highest temperature of the concrete that lasts, of that range.")]
    short_term: Annotated[float, degrees("Highest temperature of the concrete that passes, of that range.")]
    hole: Annotated[HoleCondition, about("State of the hole when the adhesive is set.")]


class Bond(BondCondition):
    """Bond of an adhesive anchor in one condition: a temperature range and the state of the hole (ACI 355.4)."""

    category: Annotated[Category, about("Anchor category in this condition by ACI 355.4, for phi (Table 17.5.3).")]
    tau_cr: Annotated[float | None, stress("Bond stress tau_cr in cracked concrete (17.6.5.2).")] = None
    tau_uncr: Annotated[float | None, stress("Bond stress tau_uncr in uncracked concrete (17.6.5.2).")] = None
    alpha_n_seis: Annotated[
        float | None,
        Field(
            ge=0.1,
            le=1,
            description="Factor on tau_cr by simulated seismic tests (17.10.3); absent: not qualified for earthquake.",
        ),
    ] = None
    tau_exponent: Annotated[
        float, Field(ge=0, le=1, description="n of tau (f'c / f_c_ref)^n; 0: it does not scale.")
    ] = 0.0
    f_c_ref: Annotated[
        float | None, stress("Concrete strength that tau is stated for; absent: 2,500 psi, that of the tests.")
    ] = None


class EnBond(BondCondition):
    """Bond resistance of a bonded fastener in one condition, for C20/25 (7.2.1.6 of EN 1992-4)."""

    gamma_inst: Annotated[float, Field(ge=1, le=2, description="Installation factor gamma_inst (Table 4.1).")]
    tau_rk_cr: Annotated[
        float | None, stress("Bond resistance tau_Rk,cr in cracked concrete C20/25; absent: not assessed there.")
    ] = None
    tau_rk_ucr: Annotated[
        float, stress("Bond resistance tau_Rk,ucr in uncracked concrete C20/25; s_cr,Np follows from it.")
    ]
    psi_c_exponent: Annotated[
        float,
        Field(ge=0, le=0.5, description="Exponent of psi_c: tau_Rk grows by (f_ck / 20 MPa)^that; 0: it does not."),
    ] = 0.0
    tau_rk_c1: Annotated[
        float | None,
        stress("Bond resistance tau_Rk,C1 of seismic performance category C1; absent: not qualified for it."),
    ] = None
    tau_rk_c2: Annotated[
        float | None,
        stress("Bond resistance tau_Rk,C2 of seismic performance category C2; absent: not qualified for it."),
    ] = None
