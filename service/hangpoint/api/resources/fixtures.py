"""Fixtures that don't hang: brackets, equipment on walls and floors, posts, brought to their anchors."""

from typing import Any

from hangpoint.api.fixture_batch import run_fixtures
from hangpoint.api.resource import Resource
from hangpoint.api.schemas.fixtures import FixturesRequest
from hangpoint.api.schemas.fixtures_answer import FixturesAnswer

DESCRIPTION = """\
What stands or is fixed to a wall, brought to its anchors: tension, shear and moments by nature of load.

Items are wall brackets, equipment on a wall, equipment on a floor with its overturning, and posts of guards, rails and
signs; one bad item never costs the others. Horizontal loads are stated, or the component seismic force of ASCE 7-16 or
7-22, and may act in any direction: each direction then has loads of its own. `anchor_groups` are bodies for the check
of an anchor group, `hang_points` items for the check of hang points; both lack anchor, base and seismic category, which
are added key by key. Nothing is said of the fixture itself, and friction is never counted.

Factored loads are those of ASCE 7; a design code can't be stated. `hang_points` have service loads by nature, which a
check by EN 1992-4 combines by EN 1990.
"""

EXAMPLE: dict[str, Any] = {
    "units": "us",
    "load_standard": "asce7_16",
    "items": [
        {
            "id": "L1-BRACKET-04",
            "kind": "bracket",
            "loads": [
                {"nature": "dead", "weight": "180 lb", "at": {"z": "14 in"}},
                {"nature": "contents", "weight": "220 lb", "at": {"z": "14 in"}},
            ],
        },
        {
            "id": "ROOF-FAN-02",
            "kind": "floor_equipment",
            "weight": "1200 lb",
            "centre_of_gravity": {"x": "2 in", "z": "30 in"},
            "anchors_at": [{"x": -24, "y": -18}, {"x": 24, "y": -18}, {"x": 24, "y": 18}, {"x": -24, "y": 18}],
            "seismic": {
                "category": "D",
                "s_ds": 1.0,
                "i_p": 1.0,
                "component": "air_side",
                "z": "40 ft",
                "h": "40 ft",
            },
        },
        {
            "id": "STAIR-POST-01",
            "kind": "post",
            "weight": "40 lb",
            "centre_of_gravity": {"z": "21 in"},
            "guard": {"rule": "guard_200_lb", "height": "42 in"},
        },
    ],
}

FIXTURES = Resource(
    path="/v1/fixtures",
    operation_id="computeFixtures",
    tag="fixtures",
    summary="Loads on the anchors of what does not hang",
    description=DESCRIPTION,
    request=FixturesRequest,
    answer=FixturesAnswer,
    answer_text="A result or a problem for every item.",
    example=EXAMPLE,
    run=lambda body, state: run_fixtures(body, limits=state.limits),
    by_item=True,
)
