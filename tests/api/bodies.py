"""Requests of an invented building to start from, as fresh copies."""

import copy

from hangpoint.api.examples import BATCH_CSV, BATCH_JSON, SINGLE_JSON


class _Gone:
    def __repr__(self):
        return "GONE"


GONE = _Gone()
"""Value that takes a field away."""

INLINE = {
    "units": "us",
    "principle": "torque_controlled_expansion",
    "basis": "qualified",
    "source": {"document": "Evaluation of an invented anchor", "date": "2024-05", "standard": "ACI 355.2-19"},
    "traits": {"tension_overhead": True, "sustained_tension": True, "bases": ["concrete"]},
    "size": {"size": "3/8", "d_a": 0.375, "a_se": 0.05, "f_uta": 100000, "f_ya": 80000, "ductile": True},
    "embedment": {
        "h_ef": 2.0,
        "h_min": 4.0,
        "c_min": 3.0,
        "s_min": 2.25,
        "c_ac": 6.0,
        "category": 1,
        "n_p_cr": 1500,
        "n_p_uncr": 2400,
        "n_exponent": 0.5,
    },
}


def change(body, changes):
    """A copy with the value at each dotted path replaced, or taken away by `GONE`."""
    made = copy.deepcopy(body)
    for path, value in changes.items():
        *parents, last = path.split(".")
        place = made
        for part in parents:
            place = place[int(part)] if isinstance(place, list) else place.setdefault(part, {})
        if value is GONE:
            del place[last]
        else:
            place[int(last) if isinstance(place, list) else last] = copy.deepcopy(value)
    return made


def item(**changes):
    """The item of the single example; a path is written with two underscores for each dot."""
    return change(SINGLE_JSON["item"], {path.replace("__", "."): value for path, value in changes.items()})


def single(**changes):
    return {"units": "us", "item": item(**changes)}


def batch(*items, **top):
    """A batch of items, 50 ft apart where they state no place but that of the example."""
    return {"units": "us", **top, "items": [_apart({**each, "id": f"P{at}"}, at) for at, each in enumerate(items)]}


def _apart(each, at):
    if each.get("at") != SINGLE_JSON["item"]["at"]:
        return each
    return {**each, "at": {**each["at"], "x": 50 * at}}


def as_lines(body):
    """A batch as the lines of a stream."""
    return [{name: part for name, part in body.items() if name != "items"}, *body["items"]]


def standing(results, last):
    """Results that hold at the end of a stream: those withdrawn replaced."""
    withdrawn = {each["index"]: each for each in last["withdrawn"]}
    return [withdrawn.get(each["index"], each) for each in results]


NO_EDGES = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
PLANK = {
    "kind": "hollow_core",
    "hollow_core": {"location": "core", "cover": 1.5, "strand_distance": 3},
    "strength": {"f_c": 5000},
    "thickness": 8,
    "edges": NO_EDGES,
}
"""A hollow-core plank, anchored into a core."""

FORCES = {"kind": "forces", "components": [{"nature": "dead", "tension": 400}]}
WEIGHT = {"kind": "weight", "weight": 400, "nature": "dead"}

SLAB = {
    "at": {"level": "L2"},
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": "4000 psi"},
        "density": "normalweight",
        "thickness": "8 in",
        "face": "soffit",
        "edges": {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"},
    },
    "seismic": {"category": "B"},
}
"""Defaults of points under a slab that has no edge near."""

__all__ = ["BATCH_CSV", "BATCH_JSON", "FORCES", "GONE", "INLINE", "SINGLE_JSON", "SLAB", "WEIGHT"]


STUD_WITHOUT_SPLITTING = {
    "units": "si",
    "principle": "headed_cast_in",
    "basis": "en",
    "source": {"document": "Invented report no. 0", "date": "2024-05", "standard": "an assessment, invented"},
    "traits": {"tension_overhead": True, "sustained_tension": True},
    "size": {
        "size": "16",
        "d_a": 16,
        "a_se": 201.1,
        "f_uta": 450,
        "f_ya": 350,
        "ductile": True,
        "head": {"a_brg": 603.2},
    },
    "embedment": {"h_ef": 125, "h_min": 165, "c_min": 60, "s_min": 80, "en": {"k7": 1.0, "k8": 2.0}},
}
"""A headed stud whose data have no c_cr,sp."""
