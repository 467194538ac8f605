"""What hangs in an invented building, as items of a request for the loads on hangers; asked as fresh copies."""

import copy
import math

from jsonschema.exceptions import best_match

from api.bodies import GONE, change

PATH = "/v1/hanger-loads"
NEWTON = 0.45359237 * 9.80665
"""N in a pound of force, NIST SP 811."""

PIPE = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water"}
DUCT = {
    "kind": "duct",
    "shape": "rectangular",
    "width": "24 in",
    "height": "12 in",
    "gauge": 24,
    "gauge_table": "galvanised",
}
CONDUIT = {"kind": "conduit", "type": "emt", "size": "2", "fill": 0.4}
TRAY = {"kind": "tray", "self_weight": "4 lb/ft", "load_class": "20C"}
STATED = {"kind": "line", "weight": "16.32 lb/ft", "allowance": 0}
SPRINKLER = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "10", "sprinkler": True}
LINES = {"pipe": PIPE, "duct": DUCT, "conduit": CONDUIT, "tray": TRAY, "line": STATED}

RUN = {"id": "run", "kind": "run", "line": PIPE, "run": {"spans": ["10 ft", "8 ft", "10 ft"]}}
RISER = {"id": "riser", "kind": "riser", "line": PIPE, "length": "100 ft", "supports": 2}
TRAPEZE = {
    "id": "trapeze",
    "kind": "trapeze",
    "run": {"spacing": "10 ft"},
    "rods_at": [0, "4 ft"],
    "tiers": [
        {
            "bar": {"weight": "1.9 lb/ft"},
            "lines": [{"at": "1 ft", "line": {**PIPE}}, {"at": "2.5 ft", "line": {**PIPE}}],
        }
    ],
}
EQUIPMENT = {
    "id": "equipment",
    "kind": "equipment",
    "weight": "1000 lb",
    "rods_at": [
        {"x": "-2 ft", "y": "-1.5 ft"},
        {"x": "2 ft", "y": "-1.5 ft"},
        {"x": "2 ft", "y": "1.5 ft"},
        {"x": "-2 ft", "y": "1.5 ft"},
    ],
    "centre_of_gravity": {"x": "0.5 ft", "y": "0.3 ft"},
}
KINDS = [RUN, RISER, TRAPEZE, EQUIPMENT]

SECTION = {
    "section": {"width": "1-5/8 in", "height": "1-5/8 in", "thickness": "0.105 in", "lip": "3/8 in"},
    "allowable_stress": "25 ksi",
}
SEISMIC = {
    "category": "D",
    "s_ds": 1.0,
    "i_p": 1.5,
    "component": "pipe_b31_welded",
    "z": "10 ft",
    "h": "20 ft",
    "brace": {"angle": 30, "angle_from": "vertical", "spacing": "40 ft"},
}
SEISMIC_22 = change(SEISMIC, {"coefficients": {"c_ar": 1.4, "r_po": 1.5, "omega_0p": 2.0}, "component": GONE})
NUMBERED = {"angle": 30, "angle_from": "vertical", "number": 4}
"""A brace of equipment."""


def steel(outside, inside):
    """Weight of a steel tube, lb/ft."""
    return math.pi / 4 * (outside**2 - inside**2) / 144 * 490


def water(inside):
    return math.pi / 4 * inside**2 / 144 * 62.4


BARE, WATER = steel(4.5, 4.026), water(4.026)
FILLED = BARE + WATER
"""4 in schedule 40: 10.80 + 5.52 = 16.32 lb/ft, as tables of pipe print it."""


def made(item, **changes):
    """A copy of an item; a path is written with two underscores for each dot."""
    return change(item, {path.replace("__", "."): value for path, value in changes.items()})


def without(members, *names):
    return {name: value for name, value in members.items() if name not in names}


def on_bar(*lines, at="2 ft", **changes):
    """A trapeze with these lines, all at one place of its one bar."""
    return made(TRAPEZE, tiers__0__lines=[{"at": at, "line": line} for line in lines], **changes)


def braced(item, **seismic):
    """A copy with a seismic force and a brace, whose values ``seismic`` changes as `made` does."""
    brace = NUMBERED if item["kind"] == "equipment" else SEISMIC["brace"]
    return {**copy.deepcopy(item), "seismic": made({**SEISMIC, "brace": brace}, **seismic)}


def request(*items, **top):
    """A request of these items, with the ids of their places where two have one."""
    ids = [each.get("id") for each in items]
    several = [{**each, "id": f"I{at}"} if ids.count(each.get("id")) > 1 else each for at, each in enumerate(items)]
    return {"units": "us", **top, "items": several}


def conforms(schema, answer):
    """The place, not the whole answer, says where an answer leaves its schema."""
    wrong = best_match(schema.iter_errors(answer))
    assert wrong is None, (wrong.json_path, wrong.message[:300])


def asking(client, validator):
    """A function that sends a request and hands back its answer, checked against the published schemas."""

    def ask(*items, status=200, body=None, **top):
        response = client.post(PATH, json=request(*items, **top) if body is None else body)
        assert response.status_code == status, response.text[:800]
        answer = response.json()
        if status != 200:
            conforms(validator("Problem"), answer)
            return answer
        conforms(validator("HangerLoadsAnswer"), answer)
        statuses = [each["status"] for each in answer["items"]]
        assert [each["index"] for each in answer["items"]] == list(range(len(statuses)))
        counted = answer["summary"]
        assert counted["total"] == len(statuses)
        assert {name: counted[name] for name in ("passed", "failed", "invalid")} == {
            name: statuses.count(name) for name in ("passed", "failed", "invalid")
        }
        assert counted["hangers"] == sum(len(each.get("hangers", ())) for each in answer["items"])
        return answer

    return ask


def total(hanger):
    """Dead load and contents of a hanger."""
    return hanger["service"]["dead"] + hanger["service"]["contents"]


def codes(result):
    return [each["code"] for each in result["findings"]]
