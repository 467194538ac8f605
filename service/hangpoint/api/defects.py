"""ASGI middleware: a defect of the service as a problem, like every other, and reported."""

import logging

from starlette.requests import Request

from hangpoint.api.body_limit import App, Message, Receive, Scope, Send
from hangpoint.api.problems import ProblemError
from hangpoint.api.responses import problem_response, trace_id

log = logging.getLogger("hangpoint.defects")


class Defects:
    """Report what nothing else caught, answer it unless an answer has begun, and raise it again.

    Stands inside of what gives every response its headers, those for pages of other origins among them.
    """

    def __init__(self, app: App) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        begun = False

        async def send_and_note(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self._app(scope, receive, send_and_note)
        except Exception:
            request = Request(scope)
            log.exception("defect, trace id %s", trace_id(request))
            if not begun:
                problem = ProblemError("internal", "The service failed; report the trace id.")
                await problem_response(request, problem)(scope, receive, send)
            raise
