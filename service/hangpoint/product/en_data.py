"""What EN 1992-4:2018 asks of one embedment of one size: figures of a European technical product specification.

Symbols and clauses are of EN 1992-4. Numbers are in the unit system of the file; k_cr_n and k_ucr_n alone are always
those of N, mm and N/mm2, as the standard prints them. A_s, f_uk, f_yk, d_nom, A_h and h_ef are `a_se`, `f_uta`, `f_ya`
and `d_a` of the size, `a_brg` of its head, and `h_ef` of the embedment.
"""

from typing import Annotated

from pydantic import Field

from hangpoint.product.bond_data import EnBond
from hangpoint.product.fields import Model, Pullout, force, length, pullout

K7_SILENT = 0.8
"""7.35: k_7 of a group whose steel has a rupture elongation of 8 % or less; so of one that says nothing."""
PSI0_SUS_SILENT = 0.6
"""7.2.1.6: psi0_sus of a bonded fastener whose data say nothing (from memory)."""


class EnSeismicData(Model):
    """Resistances of one seismic performance category, annex C of EN 1992-4."""

    n_rk_s_eq: Annotated[float, force("Resistance of the steel in tension N_Rk,s,eq.")]
    n_rk_p_eq: Annotated[
        Pullout | None,
        pullout(
            "Pull-out resistance N_Rk,p,eq in C20/25; required of mechanical post-installed fasteners,"
            " calculated of headed ones; that of bonded ones stands in `bond`."
        ),
    ] = None
    v0_rk_s_eq: Annotated[
        float | None,
        force(
            "Resistance of the steel in shear V0_Rk,s,eq of one fastener, without alpha_gap and alpha_eq; absent: not"
            " qualified for shear under earthquake."
        ),
    ] = None


class EnData(Model):
    """Figures of an embedment for EN 1992-4."""

    n_rk_p_cr: Annotated[
        Pullout | None, pullout("Pull-out resistance N_Rk,p in cracked concrete C20/25 (7.2.1.5).")
    ] = None
    n_rk_p_ucr: Annotated[
        Pullout | None, pullout("Pull-out resistance N_Rk,p in uncracked concrete C20/25 (7.2.1.5).")
    ] = None
    psi_c_exponent: Annotated[
        float | None,
        Field(
            ge=0,
            le=1,
            description="Exponent of psi_c: N_Rk,p grows by (f_ck / 20 MPa)^that, 0: it does not; required beside a"
            " pull-out resistance in figures.",
        ),
    ] = None
    gamma_inst: Annotated[
        float | None,
        Field(
            ge=1,
            le=2,
            description="Installation factor gamma_inst (Table 4.1); required of a mechanical post-installed fastener.",
        ),
    ] = None
    n_rk_s: Annotated[float | None, force("Resistance of the steel N_Rk,s (7.2.1.3); absent: A_s f_uk.")] = None
    v0_rk_s: Annotated[
        float | None,
        force("Resistance of the steel in shear V0_Rk,s of one fastener (7.34); absent: k_6 A_s f_uk."),
    ] = None
    k7: Annotated[
        float | None,
        Field(ge=0.5, le=1, description="Factor k_7 of groups for ductility (7.35); absent: 0.8."),
    ] = None
    gamma_ms_n: Annotated[
        float | None,
        Field(ge=1, le=3, description="gamma_Ms in tension; absent: Table 4.1 from f_uk and f_yk."),
    ] = None
    gamma_ms_v: Annotated[
        float | None, Field(ge=1, le=3, description="gamma_Ms in shear; absent: Table 4.1 from f_uk and f_yk.")
    ] = None
    k_cr_n: Annotated[
        float | None,
        Field(
            ge=5,
            le=14,
            description="k_cr,N of the cone (7.2.1.4), for N, mm, N/mm2 in files of either system; absent: 7.7"
            " post-installed, 8.9 headed.",
        ),
    ] = None
    k_ucr_n: Annotated[
        float | None,
        Field(
            ge=5,
            le=14,
            description="k_ucr,N of the cone (7.2.1.4), for N, mm, N/mm2 in files of either system; absent: 11.0"
            " post-installed, 12.7 headed.",
        ),
    ] = None
    s_cr_n: Annotated[float | None, length("Characteristic spacing s_cr,N of the cone (7.2.1.4); absent: 3 h_ef.")] = (
        None
    )
    c_cr_sp: Annotated[
        float | None,
        length(
            "Characteristic edge distance c_cr,sp of splitting (7.2.1.7), s_cr,sp being twice it; required of a"
            " post-installed fastener."
        ),
    ] = None
    n0_rk_sp: Annotated[
        float | None,
        force("Basic resistance N0_Rk,sp of splitting (7.2.1.7); absent: the lesser of N_Rk,p and N0_Rk,c."),
    ] = None
    bond: Annotated[
        tuple[EnBond, ...],
        Field(
            strict=False,
            max_length=24,
            description="Bond resistance of a bonded fastener (7.2.1.6), one entry a condition, in place of pull-out"
            " resistances and gamma_inst.",
        ),
    ] = ()
    psi0_sus: Annotated[
        float | None,
        Field(
            ge=0.3,
            le=1,
            description="Factor psi0_sus of a bonded fastener under sustained load (7.2.1.6); absent: 0.6.",
        ),
    ] = None
    k8: Annotated[float, Field(ge=1, le=3, description="Factor k_8 of pry-out (7.2.2.4).")]
    l_f: Annotated[float | None, length("Effective length l_f in shear near an edge (7.2.2.5); absent: h_ef.")] = None
    c1: Annotated[
        EnSeismicData | None,
        Field(description="Resistances of seismic performance category C1; absent: not qualified for earthquake."),
    ] = None
    c2: Annotated[
        EnSeismicData | None,
        Field(description="Resistances of seismic performance category C2, beside those of C1."),
    ] = None
