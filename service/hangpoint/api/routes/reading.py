"""Registration of addresses that are read: GET, and HEAD beside it, which the framework does not add by itself."""

from collections.abc import Awaitable, Callable
from typing import Any

from fastapi import APIRouter
from starlette.responses import Response

Endpoint = Callable[..., Awaitable[Response]]


def readable(
    router: APIRouter, path: str, *, operation_id: str, summary: str, **options: Any
) -> Callable[[Endpoint], Endpoint]:
    """Decorator: serve ``path`` by GET and HEAD; the document shows the GET, under ``operation_id``."""

    def register(endpoint: Endpoint) -> Endpoint:
        # The first route answers both methods, and so names both in the Allow header of a 405.
        router.add_api_route(path, endpoint, methods=["GET", "HEAD"], include_in_schema=False, **options)
        router.add_api_route(path, endpoint, methods=["GET"], operation_id=operation_id, summary=summary, **options)
        return endpoint

    return register
