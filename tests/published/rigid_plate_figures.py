"""Makes ``rigid_plate_figures.json``: random plates by concreteproperties 0.7.0, an independent library of sections.

    python tests/published/rigid_plate_figures.py

For each plate a strain plane is drawn at random, and the library integrates what concrete without tension and bars
without compression resist. Load and bar forces of a row belong together; nothing of this project takes part.

The library wants an older ``rich`` than the tools of the tests, so it isn't in the test group: its figures are
committed. It needs an environment of its own with ``concreteproperties==0.7.0`` (`_n_i` and its like are private).

Its ways round: a bar has 1e-9 of its stiffness in compression, because none at all is refused, and is an ordinary
region of the section, made a ten-thousandth of its area and as much stiffer, so that it doesn't displace concrete.
Places are whole multiples of 1e-5, because the library rounds them to 1e-6.
"""

import json
import warnings
from importlib.metadata import version
from math import pi, sqrt
from pathlib import Path

import numpy as np
from concreteproperties import Concrete, ConcreteSection, RectangularStressBlock, SteelBar
from concreteproperties.results import MomentCurvatureResults
from concreteproperties.stress_strain_profile import ConcreteLinearNoTension, StressStrainProfile
from concreteproperties.utils import calculate_extreme_fibre, get_service_strain
from sectionproperties.pre.geometry import CompoundGeometry, Geometry
from shapely import box

FILE = Path(__file__).with_suffix(".json")
PLATES = 300
SHRINK = 1e-4
RESIDUE = 1e-9


def section(plate):
    """Concrete rectangle and bars, in, psi."""
    e_c, e_s = plate["e_c"], plate["e_s"] / SHRINK
    concrete = Concrete(
        name="concrete",
        density=1.0,
        stress_strain_profile=ConcreteLinearNoTension(
            elastic_modulus=e_c, ultimate_strain=1.0, compressive_strength=e_c
        ),
        ultimate_stress_strain_profile=RectangularStressBlock(
            compressive_strength=e_c, alpha=0.85, gamma=0.85, ultimate_strain=0.003
        ),
        flexural_tensile_strength=0.0,
        colour="grey",
    )
    bar = SteelBar(
        name="bar",
        density=1.0,
        stress_strain_profile=StressStrainProfile([-1.0, 0.0, 1.0], [-e_s, 0.0, e_s * RESIDUE]),
        colour="black",
    )
    geometries = [Geometry(box(plate["x0"], plate["y0"], plate["x1"], plate["y1"]), material=concrete)]
    for x, y, area in zip(plate["x"], plate["y"], plate["a_s"], strict=True):
        half = round(sqrt(area * SHRINK) / 2, 5)
        geometries.append(Geometry(box(x - half, y - half, x + half, y + half), material=bar))
    return ConcreteSection(CompoundGeometry(geometries), moment_centroid=(1e-300, 0.0))


def drawn(rng):
    """A plate and a strain plane: angle, strain at the most compressed corner, depth of the neutral axis."""
    count = int(rng.integers(1, 9))
    sides = np.exp(rng.uniform(np.log(4), np.log(24), 2)).round(5)
    low = (-sides * rng.uniform(0.3, 0.7, 2)).round(5)
    places = (low + sides * rng.uniform(0.08, 0.92, (count, 2))).round(5)
    halves = (np.sqrt(np.exp(rng.uniform(np.log(0.05), np.log(1.5), count)) * SHRINK) / 2).round(5)
    plate = {
        "x0": low[0],
        "x1": round(low[0] + sides[0], 5),
        "y0": low[1],
        "y1": round(low[1] + sides[1], 5),
        "x": places[:, 0].tolist(),
        "y": places[:, 1].tolist(),
        "a_s": (4 * halves**2 / SHRINK).tolist(),
        "e_s": 29e6,
        "e_c": rng.uniform(2e6, 6e6),
    }
    return plate, rng.uniform(-pi, pi), rng.uniform(-0.4, 1.4)


def row(rng):
    plate, theta, share = drawn(rng)
    made = section(plate)
    corner, depth = calculate_extreme_fibre(points=made.compound_geometry.points, theta=theta)
    kappa = 1e-4 / depth
    eps0 = kappa * depth * share
    result = MomentCurvatureResults(default_units=made.default_units, theta=theta, n_target=0.0)
    made.service_normal_force_convergence(eps0=eps0, kappa=kappa, moment_curvature=result)
    forces = []
    for bar in made.reinf_geometries_lumped:
        strain = get_service_strain(point=bar.calculate_centroid(), ecf=corner, eps0=eps0, theta=theta, kappa=kappa)
        forces.append(-bar.material.stress_strain_profile.get_stress(strain=strain) * bar.calculate_area())
    return plate | {
        "compression": result._n_i,
        "compression_x": result._m_y_i,
        "compression_y": result._m_x_i,
        "bar_tension": forces,
        "corner_stress": max(eps0, 0.0) * plate["e_c"],
    }


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    rng = np.random.default_rng(622)
    rows = [{k: v if isinstance(v, list) else float(v) for k, v in row(rng).items()} for _ in range(PLATES)]
    head = {"source": f"concreteproperties {version('concreteproperties')}", "units": "in, lbf, psi"}
    lines = ",\n".join(json.dumps(each) for each in rows)
    FILE.write_text(json.dumps(head)[:-1] + ', "plates": [\n' + lines + "\n]}\n", encoding="utf-8")
