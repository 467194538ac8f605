"""Makes ``channel_section_figures.json``: channels by sectionproperties 3.10.2, an independent library of sections.

    python tests/published/channel_section_figures.py

``sharp`` and ``rounded`` are the library's own cold-formed C-section, without radius and with an inner radius as large
as the wall; the library's x is there the y of this project. ``struts`` are channels drawn here as a band along their
middle line: with and without lips, returns, radius, slots, and two back to back. Arcs are drawn by 64 chords (those of
``rounded`` by 256): 1e-4 of the area of a quarter circle, less than 3e-5 of a section.

It needs an environment of its own with ``sectionproperties==3.10.2``: a mesher and a plotting library come with it,
too much for the test group. Its figures are committed.
"""

import json
from importlib.metadata import version
from math import cos, pi, sin
from pathlib import Path

import numpy as np
from sectionproperties.analysis import Section
from sectionproperties.pre.geometry import Geometry
from sectionproperties.pre.library import cee_section
from shapely import LineString, box, set_precision, union_all
from shapely.affinity import scale

FILE = Path(__file__).with_suffix(".json")
STRUT = {"b": 1.625, "h": 1.625, "t": 0.105, "d_lip": 0.375}
CHORDS = 64


def properties(geometry, *, turned):
    """Area, distance of the centroid, moments of inertia and section moduli, in."""
    section = Section(geometry.create_mesh(mesh_sizes=[0]))
    section.calculate_geometric_properties()
    found = section.section_props
    x = {"y_1": found.cx, "i_x": found.iyy_c, "s_open": found.zyy_plus, "s_back": found.zyy_minus}
    y = {"y_1": found.cy, "i_x": found.ixx_c, "s_open": found.zxx_plus, "s_back": found.zxx_minus}
    return {"area": found.area, **(x if turned else y), "i_y": found.ixx_c if turned else found.iyy_c}


def cee(radius, chords):
    geometry = cee_section(d=STRUT["b"], b=STRUT["h"], l=STRUT["d_lip"], t=STRUT["t"], r_out=radius, n_r=chords)
    return STRUT | properties(geometry, turned=True)


def middle_line(strut):
    """Corners of the half with positive x, from the tip to the middle of the back."""
    half, h, t, lip = strut["b"] / 2, strut["h"], strut["t"], strut["d_lip"]
    line = [(half - t / 2, t / 2), (0.0, t / 2)]
    if lip == t:
        return [(half - t / 2, h), *line]
    line = [(half - t / 2, h - t / 2), *line]
    if not strut["d_return"]:
        return [(half - lip, h - t / 2), *line]
    return [(half - lip + t / 2, h - strut["d_return"]), (half - lip + t / 2, h - t / 2), *line]


def rounded(line, radius):
    """The line with a quarter of a circle at each right-angled corner."""
    points = [line[0]]
    for before, corner, after in zip(line, line[1:], line[2:], strict=False):
        to = [np.sign(np.subtract(other, corner)) for other in (before, after)]
        centre = np.add(corner, radius * (to[0] + to[1]))
        for i in range(CHORDS + 1):
            angle = i / CHORDS * pi / 2
            points.append(tuple(centre - radius * (to[1] * cos(angle) + to[0] * sin(angle))))
    return [*points, line[-1]]


def drawing(strut):
    """One channel or two as a polygon, the outer face of the back at y = 0."""
    line = middle_line(strut)
    if strut["r"]:
        line = rounded(line, strut["r"] + strut["t"] / 2)
    whole = [*line, *((-x, y) for x, y in reversed(line[:-1]))]
    one = LineString(whole).buffer(strut["t"] / 2, cap_style="flat", join_style="mitre")
    if strut["b_slot"]:
        one -= box(-strut["b_slot"] / 2, -1, strut["b_slot"] / 2, 2 * strut["t"])
    one = set_precision(one, 1e-9)
    return union_all([one, scale(one, yfact=-1, origin=(0, 0))]) if strut["back_to_back"] else one


def measured(polygon):
    parts = [Geometry(part) for part in getattr(polygon, "geoms", [polygon])]
    whole = parts[0]
    for part in parts[1:]:
        whole += part
    return properties(whole, turned=False)


def drawn(rng, i):
    b, h, t = rng.uniform(1.2, 4.0), rng.uniform(1.2, 4.0), rng.uniform(0.05, 0.15)
    r = (0.0, rng.uniform(0.5, 1.0) * t)[i % 4 > 0]
    least = 2 * (t + r)
    strut = {
        "b": b,
        "h": h,
        "t": round(t, 4),
        "d_lip": rng.uniform(least, max(least, 0.4 * b)),
        "d_return": (0.0, rng.uniform(least, max(least, 0.4 * h)))[i % 3 > 0],
        "r": r,
        "b_slot": (0.0, rng.uniform(0.1, 0.4) * b)[i % 5 == 0],
    }
    if i % 7 == 0:
        strut |= {"d_lip": t, "d_return": 0.0}
    return {name: round(float(value), 4) for name, value in strut.items()} | {"back_to_back": i % 2 == 0}


if __name__ == "__main__":
    rng = np.random.default_rng(51)
    rows = [strut | measured(drawing(strut)) for strut in (drawn(rng, i) for i in range(60))]
    made = {
        "source": f"sectionproperties {version('sectionproperties')}",
        "units": "in",
        "sharp": cee(0.0, 1),
        "rounded": cee(2 * STRUT["t"], 4 * CHORDS),
    }
    lines = ",\n".join(json.dumps({k: v if isinstance(v, bool) else float(v) for k, v in row.items()}) for row in rows)
    FILE.write_text(json.dumps(made)[:-1] + ', "struts": [\n' + lines + "\n]}\n", encoding="utf-8")
