"""Beams on simple supports by PyNite, an independent solver: reactions, moments, shears, deflections."""

from dataclasses import dataclass

import numpy as np
from Pynite import FEModel3D

STATIONS = 2001
"""Places of a member at which its deflection is read."""


@dataclass
class Solved:
    """Reactions (supports,), the largest moments both ways and shear, deflections up or down of each part.

    ``deflection`` has the overhang before support 0, the spans, the overhang after the last.
    """

    reactions: np.ndarray
    m_sag: float
    m_hog: float
    shear: float
    deflection: list


def padded(rows, width):
    """Rows of unlike length, with zeros behind."""
    return np.array([np.pad(row, (0, width - len(row))) for row in rows], dtype=float)


def random_beams(rng, count, *, most=8, overhangs=True, loads=3):
    """Spans of 3 to 20 ft, overhangs to 40 % of their end span, loads anywhere; the first load stands at a support."""
    for _ in range(count):
        spans = rng.uniform(3.0, 20.0, rng.integers(1, most + 1))
        start, end = rng.uniform(0.0, 0.4, 2) * spans[[0, -1]] * (rng.random(2) < 0.7) * overhangs
        places = rng.uniform(-start, spans.sum() + end, loads)
        places[:1] = rng.choice(np.cumsum(spans))
        yield {"spans": spans, "start": start, "end": end}, places


def solved(spans, *, start=0.0, end=0.0, w=0.0, loads=(), e_i=1.0):
    """One beam: ft, lbf, lbf/ft, E I in lbf*ft2, deflections in ft. ``loads`` are (position from support 0, weight).

    Moments of the solver are negative where the beam sags.
    """
    at = np.concatenate([[0.0], np.cumsum(spans)])
    nodes = np.concatenate([[-start], at, [at[-1] + end]])
    there = np.diff(nodes) > 0.0
    beam = FEModel3D()
    beam.add_material("m", E=e_i, G=e_i, nu=0.3, rho=0.0)
    beam.add_section("s", A=1.0, Iy=1.0, Iz=1.0, J=1.0)
    for i, x in enumerate(nodes):
        if 1 <= i <= len(at) or there[min(i, len(there) - 1)]:
            beam.add_node(f"n{i}", x, 0.0, 0.0)
    for i in range(len(at)):
        beam.def_support(f"n{i + 1}", i == 0, True, True, i == 0, True, False)
    for i in np.flatnonzero(there):
        beam.add_member(f"b{i}", f"n{i}", f"n{i + 1}", "m", "s")
        beam.add_member_dist_load(f"b{i}", "FY", -w, -w)
    for x, weight in loads:
        i = int(np.clip(np.searchsorted(nodes, x, side="right") - 1, np.argmax(there), np.flatnonzero(there)[-1]))
        beam.add_member_pt_load(f"b{i}", "FY", -weight, x - nodes[i])
    beam.analyze_linear(check_stability=False)
    members = [beam.members[f"b{i}"] for i in np.flatnonzero(there)]
    bows = [np.abs(member.deflection_array("dy", STATIONS)[1]).max() for member in members]
    every = np.zeros(len(there))
    every[there] = bows
    return Solved(
        reactions=np.array([beam.nodes[f"n{i + 1}"].RxnFY["Combo 1"] for i in range(len(at))]),
        m_sag=-min(member.min_moment("Mz") for member in members),
        m_hog=max(member.max_moment("Mz") for member in members),
        shear=max(max(member.max_shear("Fy"), -member.min_shear("Fy")) for member in members),
        deflection=every.tolist(),
    )
