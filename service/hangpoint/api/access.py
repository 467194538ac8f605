"""Who may call: ASGI middleware for access by bearer tokens."""

import hmac
from collections.abc import Sequence

from hangpoint.api.body_limit import Answer, App, Receive, Scope, Send
from hangpoint.api.problems import ProblemError

OPEN_PATHS = ("/livez", "/readyz", "/version", "/metrics", "/docs", "/openapi.json", "/problems/", "/static/", "/form")

START_PATH = "/"
"""Says only where to read on."""


class TokenAccess:
    """Let a request in that carries one of the tokens, or asks for an open path."""

    def __init__(self, app: App, *, tokens: Sequence[str], answer: Answer) -> None:
        """``tokens`` as they stand behind ``Bearer``; ``answer`` sends a problem."""
        self._app = app
        self._tokens = [token.encode() for token in tokens]
        self._answer = answer

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        is_open = scope["type"] != "http" or scope["path"] == START_PATH or scope["path"].startswith(OPEN_PATHS)
        if is_open or self._known(scope):
            await self._app(scope, receive, send)
            return
        problem = ProblemError(
            "unauthorised", "This address needs a bearer token.", headers={"WWW-Authenticate": "Bearer"}
        )
        await self._answer(problem, scope, receive, send)

    def _known(self, scope: Scope) -> bool:
        stated = next((value for name, value in scope["headers"] if name == b"authorization"), b"")
        kind, _, token = stated.partition(b" ")
        matches = [hmac.compare_digest(token.strip(), each) for each in self._tokens]
        return kind.lower() == b"bearer" and any(matches)
