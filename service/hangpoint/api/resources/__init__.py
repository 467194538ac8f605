"""The resources that compute an answer from a body of JSON, one module each. A new one is listed here."""

from hangpoint.api.resource import Resource
from hangpoint.api.resources.as_built_lists import AS_BUILT_LISTS
from hangpoint.api.resources.hanger_loads import HANGER_LOADS
from hangpoint.api.resources.take_offs import TAKE_OFFS

RESOURCES: tuple[Resource, ...] = (HANGER_LOADS, TAKE_OFFS, AS_BUILT_LISTS)
