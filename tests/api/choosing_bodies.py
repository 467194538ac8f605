"""Requests that choose products, of an invented building, for the tests of all that choose."""

import copy

SELECTIONS, JOBS, SUBSTITUTIONS = "/v1/selections", "/v1/job-selections", "/v1/substitutions"
EDGES = {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"}
BASE = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "8 in",
    "edges": EDGES,
    "face": "soffit",
}
WANT = {
    "objective": "cost_index",
    "reserve": 0.1,
    "placing": "post_installed",
    "rod_thread": "any",
    "trained": True,
    "exposure": "dry",
    "vibration": False,
}
UNCRACKED = {"state": "uncracked", "state_decided_by": "engineer of record"}


def base(edge=None, **changed):
    """The base of a point, with one edge."""
    made = copy.deepcopy(BASE)
    if edge is not None:
        made["edges"]["x_plus"] = edge
    return made | changed


def weight(pounds, nature="dead"):
    return {"kind": "weight", "weight": f"{pounds} lb", "nature": nature}


def point(name="A", pounds=300, *, on=None, category="A", **more):
    """A hang point without a product."""
    return {
        "id": name,
        "hangs": weight(pounds),
        "base": on or base(),
        "seismic": {"category": category},
        **more,
    }


def request(*items, want=None, **top):
    return {"units": "us", "want": {**WANT, **(want or {})}, "items": list(items), **top}


def named(item, anchor):
    """The point with a product, its layout and conditions kept."""
    return {**item, "anchor": {**item.get("anchor", {}), **anchor}}


def anchor_of(address):
    """How a hang point names a product: those of the metric family in mm."""
    family, rest = address.split("/", 1)
    size, h_ef = rest.rsplit("/", 1)
    unit = "mm" if family.endswith("metric") else "in"
    return {"family": family, "size": size, "h_ef": f"{h_ef} {unit}"}


def reasons(result):
    """Reason of every rejected candidate by its address."""
    return {product: own["reason"] for own in result["rejected"] for product in own["products"]}


def of_family(found, family):
    """What is said of the products of a family."""
    return {address: own for address, own in found.items() if address.startswith(f"{family}/")}
