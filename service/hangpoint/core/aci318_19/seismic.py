"""Earthquake in seismic design categories C to F, ACI 318-19 17.10. Units: in, psi, lbf.

The share of earthquake decides whether 17.10.5.3 (tension) and 17.10.6.3 (shear) apply; it is taken before Omega_0
(reading 5). The factor 0.75 of 17.10.5.4 goes with all four options (reading 20) and is an argument of the modes that
it reduces: breakout, pullout, blowout and bond; not steel, not sustained tension, not shear. Anchor reinforcement has
no factor (17.10.5.5), and takes it from breakout alone, in whose place it stands: pullout, blowout and bond keep it.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Record, formula, given, record
from hangpoint.core.vocabulary import Finding

SEISMIC_FROM = 2
"""Category C, counted from 0 for A."""

EARTHQUAKE_SHARE = 0.20
REDUCTION = 0.75


@record
class DuctileSteelOption(Record):
    """Whether ductile steel governs at one anchor, so that it may yield: option (a) of 17.10.5.3."""

    TITLE: ClassVar[str] = "ductile steel governs, option (a)"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    n_sa: Annotated[Floats, given("N_sa", "lbf", clause="17.6.1.2")]
    n_sa_expected: Annotated[Floats, formula("1.2N_sa", "lbf", "1.2 * n_sa", clause="17.10.5.3(a)")]
    n_concrete: Annotated[
        Floats,
        given("least of N_cb or A_s f_y, N_pn, N_sb, N_a", "lbf", clause="17.10.5.3(a)", infinite="none governs"),
    ]
    steel_governs: Annotated[Bools, formula("steel governs", "", "n_concrete > n_sa_expected", clause="17.10.5.3(a)")]
    d_a: Annotated[Floats, given("d_a", "in")]
    l_stretch_min: Annotated[Floats, formula("least stretch length", "in", "8 * d_a", clause="17.10.5.3(a)")]
    l_stretch: Annotated[Floats, given("stretch length, 0 if not stated", "in", clause="17.10.5.3(a)")]
    stretch_enough: Annotated[
        Bools, formula("stretch length suffices", "", "l_stretch >= l_stretch_min", clause="17.10.5.3(a)")
    ]
    ductile: Annotated[Bools, given("ductile steel", clause="2.3")]
    f_uta_specified: Annotated[Floats, given("f_uta specified", "psi")]
    f_ya: Annotated[Floats, given("f_ya", "psi")]
    strength_ratio: Annotated[Floats, formula("f_uta / f_ya", "", "f_uta_specified / f_ya", clause="17.10.5.3(a)")]
    upset_threads: Annotated[Bools, given("threads upset or over the entire length", clause="17.10.5.3(a)")]
    ratio_enough: Annotated[
        Bools,
        formula(
            "f_uta / f_ya suffices",
            "",
            "where(upset_threads, 1, strength_ratio >= 1.3 * (1 - 1e-9)) == 1",
            clause="17.10.5.3(a)",
        ),
    ]
    holds: Annotated[
        Bools,
        formula(
            "option (a) holds",
            "",
            "steel_governs * stretch_enough * ductile * ratio_enough == 1",
            clause="17.10.5.3(a)",
        ),
    ]


def earthquake_governs(*, category: Codes, n_ua: Floats, n_ua_e: Floats) -> Bools:
    """Whether earthquake is more than 20 % of the load in categories C to F (17.10.5.1; of shear 17.10.6.1).

    Args:
        category: (cases,) seismic design category, 0 for A to 5 for F.
        n_ua: (cases,) factored tension, or shear, of the case, lbf; where it is not positive nothing governs.
        n_ua_e: (cases,) the part of it that is earthquake, without Omega_0, lbf.

    Returns:
        (cases,) boolean.
    """
    return (category >= SEISMIC_FROM) & (n_ua > 0) & (n_ua_e > EARTHQUAKE_SHARE * n_ua)


def seismic_factor(*, governs: Bools) -> Floats:
    """0.75 where earthquake governs the tension (17.10.5.4), else 1.

    Args:
        governs: (cases,) of `earthquake_governs`.

    Returns:
        (cases,) factor on the concrete-governed strengths in tension.
    """
    return np.where(governs, REDUCTION, 1.0)


def ductile_steel_option(
    *,
    n_sa: Floats,
    n_concrete: Floats,
    d_a: Floats,
    l_stretch: Floats,
    ductile: Bools,
    f_uta_specified: Floats,
    f_ya: Floats,
    upset_threads: Bools,
) -> DuctileSteelOption:
    """What option (a) of 17.10.5.3 asks of an anchor; f_uta / f_ya to the rounding of a conversion of units.

    Args:
        n_sa: (anchors,) nominal steel strength, lbf.
        n_concrete: (anchors,) least nominal strength of breakout (or of the anchor reinforcement in its place),
            pullout, blowout and bond, lbf, without phi and without 0.75, infinite where none governs; of a group, the
            share that the anchor has in the group's tension.
        d_a, l_stretch: (anchors,) diameter and stretch length, in; the latter 0 where it isn't stated.
        ductile, upset_threads: (anchors,) ductile by 2.3; threaded portions upset, or threaded over
            the entire length.
        f_uta_specified, f_ya: (anchors,) specified ultimate and yield strength, psi.
    """
    n_sa_expected = 1.2 * n_sa
    l_stretch_min = 8 * d_a
    strength_ratio = f_uta_specified / f_ya
    steel_governs = n_concrete > n_sa_expected
    stretch_enough = l_stretch >= l_stretch_min
    ratio_enough = upset_threads | (strength_ratio >= 1.3 * (1 - 1e-9))
    return DuctileSteelOption(
        n_sa=n_sa,
        n_sa_expected=n_sa_expected,
        n_concrete=n_concrete,
        steel_governs=steel_governs,
        d_a=d_a,
        l_stretch_min=l_stretch_min,
        l_stretch=l_stretch,
        stretch_enough=stretch_enough,
        ductile=ductile,
        f_uta_specified=f_uta_specified,
        f_ya=f_ya,
        strength_ratio=strength_ratio,
        upset_threads=upset_threads,
        ratio_enough=ratio_enough,
        holds=steel_governs & stretch_enough & ductile & ratio_enough,
    )


def ductile_steel_findings(*, option: DuctileSteelOption, asked: Bools) -> list[FindingColumn]:
    """What option (a) lacks, and what it leaves to the engineer.

    Args:
        option: a row a point.
        asked: (points,) option (a) is the stated one and earthquake governs the tension.
    """
    none = np.zeros(len(asked))
    return [
        FindingColumn(
            Finding.SEISMIC_STEEL_NOT_GOVERNING,
            asked & ~option.steel_governs,
            option.n_concrete,
            option.n_sa_expected,
        ),
        FindingColumn(
            Finding.SEISMIC_STRETCH_LENGTH, asked & ~option.stretch_enough, option.l_stretch, option.l_stretch_min
        ),
        FindingColumn(Finding.SEISMIC_NOT_DUCTILE, asked & ~option.ductile, none, none),
        FindingColumn(
            Finding.SEISMIC_STRENGTH_RATIO,
            asked & ~option.ratio_enough,
            option.strength_ratio,
            np.full(len(asked), 1.3),
        ),
        FindingColumn(Finding.SEISMIC_BUCKLING, asked, none, none),
    ]


def other_option_findings(*, attachment: Bools, overstrength: Bools) -> list[FindingColumn]:
    """What the options by the force taken leave to the engineer.

    Args:
        attachment: (points,) a yielding or non-yielding attachment limits the force, in tension (17.10.5.3(b), (c)) or
            in shear (17.10.6.3(a), (b)).
        overstrength: (points,) the earthquake load is with Omega_0, in tension (17.10.5.3(d)) or in shear
            (17.10.6.3(c)).
    """
    none = np.zeros(len(attachment))
    return [
        FindingColumn(Finding.SEISMIC_ATTACHMENT_OPTION, attachment, none, none),
        FindingColumn(Finding.SEISMIC_OVERSTRENGTH, overstrength, none, none),
    ]
