"""Requests of submittals shown in the documentation, of an invented building."""

import copy
from typing import Any

from hangpoint.api.examples_load_maps import LOAD_MAPS_CSV, LOAD_MAPS_JSON

SUBMITTALS_JSON: dict[str, Any] = {
    **copy.deepcopy(LOAD_MAPS_JSON),
    "sheets": "worst",
    "test_rule": "one_and_a_half_working_load",
    "test_use": "nonstructural",
}

SUBMITTALS_CSV = LOAD_MAPS_CSV
