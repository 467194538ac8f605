"""Random anchors for the scalar calculation of `reference`, and the same as columns of the service."""

import numpy as np

from core.aci318_19 import reference
from core.builders import anchor_cases
from hangpoint.core.aci318_19.pullout import HEADED, HOOKED, PRODUCT

PRINCIPLES = {"headed": 0.45, "hooked": 0.1, "expansion": 0.1, "undercut": 0.1, "screw": 0.1, "adhesive": 0.15}
METHODS = {"headed": HEADED, "hooked": HOOKED}
BARS = ("none", "bar", "stirrups")
WAYS = ("vector", "separate", "linear")
CATEGORIES = "ABCDEF"


def _shear(rng):
    """Along both axes, one of them, or none."""
    way = rng.random()
    if way < 0.15:
        return 0.0, 0.0
    signed = rng.choice([-1.0, 1.0], 2) * np.exp(rng.uniform(np.log(30), np.log(2e4), 2))
    if way < 0.35:
        signed[rng.integers(0, 2)] = 0.0
    return float(signed[0]), float(signed[1])


def _bars(rng):
    if rng.random() < 0.8:
        return None
    return float(rng.uniform(0.1, 0.8)), float(rng.choice([40_000, 60_000]))


def random_anchor(rng):
    """An anchor of any kind that chapter 17 covers; by itself each number is possible, together they needn't be."""
    principle = str(rng.choice(list(PRINCIPLES), p=list(PRINCIPLES.values())))
    cast_in, adhesive = principle in METHODS, principle == "adhesive"
    d_a = float(rng.uniform(0.25, 2.0))
    h_ef = float(np.exp(rng.uniform(np.log(1.5), np.log(28))))
    if adhesive:
        h_ef = d_a * float(rng.uniform(4, 20))
    by_code = cast_in or rng.random() < 0.3
    edges = 1.5 * h_ef * np.exp(rng.uniform(np.log(0.15), np.log(2.5), 4))
    edges[rng.random(4) < 0.25] = np.inf
    category = str(rng.choice(list(CATEGORIES)))
    high = category in "CDEF"
    tau_uncr = float(rng.uniform(600, 3_000))
    load = float(rng.uniform(100, 2e4)) if rng.random() < 0.9 else 0.0
    return reference.Anchor(
        principle=principle,
        category=0 if cast_in else int(rng.integers(1, 4)),
        d_a=d_a,
        a_se=float(rng.uniform(0.5, 0.8) * d_a**2),
        f_uta=float(rng.uniform(50_000, 160_000)),
        f_ya=float(rng.uniform(30_000, 130_000)),
        ductile=bool(rng.random() < 0.5),
        h_ef=h_ef,
        c_ac=0.0 if cast_in else float(h_ef * rng.uniform(1.0, 4.0)),
        k=None if by_code else (float(rng.uniform(15, 21)), float(rng.uniform(21, 27))),
        n_p=(0.0, 0.0) if cast_in else (float(rng.uniform(500, 1e4)), float(rng.uniform(500, 2e4))),
        n_p_eq=float(rng.uniform(400, 9e3)) if high and not cast_in and rng.random() < 0.7 else None,
        n_p_exponent=float(rng.uniform(0.1, 0.5)),
        n_p_tested_at=float(rng.choice([2_500.0, 3_000.0])),
        n_p_tested_in_lightweight=bool(rng.random() < 0.3),
        pullout_governs=bool(cast_in or rng.random() < 0.7),
        bonds=(tau_uncr * float(rng.uniform(0.3, 0.9)), tau_uncr) if adhesive else (0.0, 0.0),
        alpha=float(rng.uniform(0.5, 1.0)),
        bond_exponent=float(rng.choice([0.0, 0.1, 0.25])),
        bond_tested_at=float(rng.choice([2_500.0, 3_000.0])),
        a_brg=float(rng.uniform(0.2, 5.0)) if principle == "headed" else 0.0,
        e_h=float(d_a * rng.uniform(3.0, 4.5)) if principle == "hooked" else 0.0,
        stud=bool(principle == "headed" and rng.random() < 0.4),
        sleeve=bool(principle == "expansion" and rng.random() < 0.5),
        v_sa=float(rng.uniform(500, 3e4)) if not cast_in and (high or rng.random() < 0.5) else None,
        f_c=float(rng.uniform(2_000, 13_000)),
        lightweight=bool(rng.random() < 0.3),
        density_factor=float(rng.choice([0.75, 0.85])),
        cracked=bool(rng.random() < 0.6),
        supplementary=bool(rng.random() < 0.5),
        edges=tuple(float(c) for c in edges),
        thickness=h_ef * float(np.exp(rng.uniform(np.log(1.05), np.log(5)))),
        edge_bars=str(rng.choice(BARS)),
        bars_n=_bars(rng),
        bars_v=_bars(rng),
        welded=bool(cast_in and rng.random() < 0.5),
        pad=bool(rng.random() < 0.2),
        oblique=str(rng.choice(WAYS)),
        curve=bool(rng.random() < 0.3),
        seismic_category=category,
        load=load,
        load_that_stays=load * float(rng.choice([0.0, rng.uniform(0.1, 1.0)])),
        load_of_earthquake=load * float(rng.uniform(0.0, 0.6)),
        shear=_shear(rng),
        turns=(bool(rng.random() < 0.1), bool(rng.random() < 0.1)),
    )


def columns_of(anchors):
    """`AnchorCases` of scalar anchors."""

    def of(read):
        return [read(a) for a in anchors]

    return anchor_cases(
        cast_in=of(lambda a: a.cast_in),
        undercut=of(lambda a: a.principle == "undercut"),
        headed=of(lambda a: a.principle == "headed"),
        adhesive=of(lambda a: a.principle == "adhesive"),
        category=of(lambda a: a.category),
        d_a=of(lambda a: a.d_a),
        a_se_n=of(lambda a: a.a_se),
        f_uta=of(lambda a: a.f_uta),
        f_ya=of(lambda a: a.f_ya),
        ductile=of(lambda a: a.ductile),
        h_ef=of(lambda a: a.h_ef),
        c_ac=of(lambda a: a.c_ac),
        product_k_c=of(lambda a: a.k is not None),
        k_cr=of(lambda a: a.k[0] if a.k else 0.0),
        k_uncr=of(lambda a: a.k[1] if a.k else 0.0),
        pullout_method=of(lambda a: METHODS.get(a.principle, PRODUCT)),
        pullout_governs=of(lambda a: a.pullout_governs),
        n_p_cr=of(lambda a: a.n_p[0]),
        n_p_uncr=of(lambda a: a.n_p[1]),
        by_seismic_tests=of(lambda a: a.n_p_eq is not None),
        n_p_eq=of(lambda a: a.n_p_eq or 0.0),
        n_exponent=of(lambda a: a.n_p_exponent),
        f_c_ref=of(lambda a: a.n_p_tested_at),
        tested_lightweight=of(lambda a: a.n_p_tested_in_lightweight),
        tau_cr=of(lambda a: a.bonds[0]),
        tau_uncr=of(lambda a: a.bonds[1]),
        by_seismic_bond=of(lambda a: a.principle == "adhesive" and a.seismic_category in "CDEF"),
        alpha_n_seis=of(lambda a: a.alpha),
        tau_exponent=of(lambda a: a.bond_exponent),
        f_c_ref_bond=of(lambda a: a.bond_tested_at),
        open_share=of(lambda a: 1.0),
        a_brg=of(lambda a: a.a_brg),
        e_h=of(lambda a: a.e_h),
        welded_stud=of(lambda a: a.stud),
        distance_sleeve=of(lambda a: a.sleeve),
        by_shear_tests=of(lambda a: a.v_sa is not None),
        v_sa_eq_alone=of(lambda a: False),
        v_sa=of(lambda a: a.v_sa or 0.0),
        f_c_specified=of(lambda a: a.f_c),
        lightweight=of(lambda a: a.lightweight),
        lambda_c=of(lambda a: a.density_factor),
        cracked=of(lambda a: a.cracked),
        supplementary=of(lambda a: a.supplementary),
        c_a=of(lambda a: a.edges),
        h_a=of(lambda a: a.thickness),
        edge_reinforcement=of(lambda a: BARS.index(a.edge_bars)),
        reinforced_n=of(lambda a: a.bars_n is not None),
        a_s_n=of(lambda a: a.bars_n[0] if a.bars_n else 0.0),
        f_y_n=of(lambda a: a.bars_n[1] if a.bars_n else 0.0),
        reinforced_v=of(lambda a: a.bars_v is not None),
        a_s_v=of(lambda a: a.bars_v[0] if a.bars_v else 0.0),
        f_y_v=of(lambda a: a.bars_v[1] if a.bars_v else 0.0),
        welded=of(lambda a: a.welded),
        grout_pad=of(lambda a: a.pad),
        oblique=of(lambda a: WAYS.index(a.oblique)),
        power=of(lambda a: a.curve),
        seismic_category=of(lambda a: CATEGORIES.index(a.seismic_category)),
        n_ua=of(lambda a: a.load),
        n_ua_s=of(lambda a: a.load_that_stays),
        n_ua_e=of(lambda a: a.load_of_earthquake),
        v_ua_x=of(lambda a: a.shear[0]),
        v_ua_y=of(lambda a: a.shear[1]),
        either_x=of(lambda a: a.turns[0]),
        either_y=of(lambda a: a.turns[1]),
    )
