"""Items of an invented building that reverse questions are asked of, and how their answers are posted again."""

import json

from hangpoint.api.reverse.merge_patch import merged

NONE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
CONCRETE = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "10 in",
    "edges": NONE,
    "face": "soffit",
}
BOLT = {
    "id": "BOLT",
    "hangs": {"kind": "weight", "weight": "8000 lb", "nature": "dead"},
    "anchor": {"family": "headed-bolt", "size": "3/4", "h_ef": "6 in"},
    "base": CONCRETE,
    "seismic": {"category": "B"},
}
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "1-3/4 in"}
PIPE = {
    "id": "PIPE",
    "hangs": {
        "kind": "pipe",
        "material": "steel",
        "size": "6",
        "schedule": "40",
        "contents": "water",
        "sprinkler": False,
        "run": {"spans": ["12 ft", "12 ft", "12 ft"], "support": 1, "model": "tributary"},
    },
    "anchor": WEDGE,
    "base": merged(CONCRETE, {"strength": {"f_c": "2500 psi"}}),
    "seismic": {"category": "B"},
}
ROW = merged(
    BOLT,
    {
        "id": "ROW",
        "hangs": {"weight": "14000 lb"},
        "anchor": {"layout": {"pattern": "row", "count": 2, "spacing": "12 in"}},
    },
)
PAIR = merged(BOLT, {"id": "A", "at": {"level": "L1", "x": 10, "y": 20}, "hangs": {"weight": "7000 lb"}})
CORNER = merged(
    BOLT,
    {
        "id": "CORNER",
        "hangs": {"weight": "1120 lb"},
        "base": {"edges": {"x_minus": "2 in", "x_plus": "2 in", "y_minus": "2 in", "y_plus": "3 in"}},
    },
)
"""The edges of reading 44."""

UNCHECKED = [
    {**point, "base": {"kind": kind}}
    for kind in ("steel", "wood", "unknown")
    for point in (
        {"id": "BEAM", "hangs": BOLT["hangs"], "rod": {"size": "1/2"}},
        {"id": "BEAM", "hangs": PIPE["hangs"], "rod": {"size": "1/2"}, "anchor": WEDGE},
    )
]
"""Points whose anchor is refused whatever it is: they state no thickness and no edges, and may state no anchor."""

PATHS = ("/v1/reverse-checks", "/v1/remedies", "/v1/relocations", "/v1/sensitivities")
SCHEMAS = {
    "/v1/reverse-checks": "ReverseCheckAnswer",
    "/v1/remedies": "RemediesAnswer",
    "/v1/relocations": "RelocationAnswer",
    "/v1/sensitivities": "SensitivitiesAnswer",
}


def body(item, **members):
    return {"units": "us", "item": item, **members}


class Asking:
    """Posts bodies, and checks every answer against its published schema."""

    def __init__(self, client, validator):
        self.client = client
        self.validator = validator

    def post(self, path, request, status=200):
        response = self.client.post(path, content=json.dumps(request), headers={"content-type": "application/json"})
        assert response.status_code == status, response.text[:800]
        answer = response.json()
        self.validator(SCHEMAS[path] if status == 200 else "Problem").validate(answer)
        return answer

    def question(self, item, **question):
        answer = self.post("/v1/reverse-checks", body(item, question=question))
        return answer["answers"]

    def check(self, item, **members):
        """The single check of an item."""
        response = self.client.post("/v1/hang-point", json=body(item, detail="verdict", **members))
        assert response.status_code == 200, response.text[:800]
        return response.json()["items"][0]

    def errors(self, path, request, status=422):
        return {(each["pointer"], each["code"]) for each in self.post(path, request, status)["errors"]}
