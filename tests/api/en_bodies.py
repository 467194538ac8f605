"""Requests by EN 1992-4 of an invented building, in SI, to start from."""

from api.bodies import change

EN = {"units": "si", "design_code": "en1992_4"}
WEDGE = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": 65}
STUD = {"family": "en-headed-stud", "size": "16", "h_ef": 125}
NONE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
BASE = {
    "kind": "concrete",
    "strength": {"class": "C25/30"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": 250,
    "face": "soffit",
    "edges": {**NONE, "x_plus": 200},
}
PULL = {"kind": "forces", "components": [{"nature": "dead", "tension": 2.0, "shear_x": 2.0}]}
PIPE = {
    "kind": "pipe",
    "material": "steel",
    "size": "4",
    "schedule": "40",
    "contents": "water",
    "sprinkler": False,
    "run": {"spans": [3, 3], "support": 1, "model": "tributary"},
}


def en_item(**changes):
    """A sheared point near an edge; a path is written with two underscores for each dot."""
    own = {"id": "A", "hangs": PULL, "anchor": WEDGE, "base": BASE}
    return change(own, {path.replace("__", "."): value for path, value in changes.items()})


def row_of(count, spacing=60):
    return [{"x": spacing * (place - (count - 1) / 2), "y": 0} for place in range(count)]
