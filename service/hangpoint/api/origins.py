"""What a browser lets pages of other origins send to the service and read of it."""

from collections.abc import Sequence
from typing import Any

from hangpoint.api.request_log import HEADER

_SECONDS = 600


def origin_rules(origins: Sequence[str]) -> dict[str, Any]:
    """Arguments of the framework's middleware that answers browsers; cookies are sent to nobody."""
    return {
        "allow_origins": origins,
        "allow_methods": ["GET", "HEAD", "POST"],
        "allow_headers": ["Accept", "Authorization", "Content-Encoding", "Content-Type", "If-None-Match"],
        "expose_headers": ["Content-Disposition", "ETag", "Retry-After", HEADER],
        "max_age": _SECONDS,
    }
