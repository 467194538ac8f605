"""The resources that compute an answer from a body of JSON, one module each. A new one is listed here."""

from hangpoint.api.resource import Resource
from hangpoint.api.resources.base_interviews import BASE_INTERVIEWS
from hangpoint.api.resources.fixtures import FIXTURES
from hangpoint.api.resources.hanger_loads import HANGER_LOADS

RESOURCES: tuple[Resource, ...] = (
    HANGER_LOADS,
    BASE_INTERVIEWS,
    FIXTURES,
)
