"""``hangpoint serve`` and ``hangpoint health``: the service, and whether one on this machine is ready."""

import sys
from ipaddress import ip_address
from math import ceil
from typing import TYPE_CHECKING, Annotated

import typer

from hangpoint import __version__
from hangpoint.cli.refusal import refuse, usable_settings

if TYPE_CHECKING:
    from hangpoint.settings import Settings

EXIT_NOT_READY = 1
_HEALTH_SECONDS = 5
_SPARE_SECONDS = 10
"""For what is computed and sent beside what has a limit of its own."""


def serve(
    host: Annotated[str | None, typer.Option(help="Address to listen on; otherwise HANGPOINT_HOST.")] = None,
    port: Annotated[int | None, typer.Option(min=1, max=65535, help="Otherwise HANGPOINT_PORT.")] = None,
) -> None:
    """Serve the API: on this machine only, unless HANGPOINT_ACCESS says who else may call."""
    settings = usable_settings()
    settings = settings.model_copy(update={"host": host or settings.host, "port": port or settings.port})
    _require_access(settings)
    import logging

    import uvicorn

    from hangpoint.app import create_app
    from hangpoint.core.errors import CatalogueError

    try:
        service = create_app(settings)
    except CatalogueError as error:
        refuse(str(error))
    lines = logging.StreamHandler(sys.stdout)
    requests = logging.getLogger("hangpoint.requests")
    requests.addHandler(lines)
    requests.setLevel(logging.INFO)
    requests.propagate = False
    shown = f"[{settings.host}]" if ":" in settings.host else settings.host
    server = uvicorn.Config(
        service,
        host=settings.host,
        port=settings.port,
        log_config=None,
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=longest_seconds(settings),
    )
    try:
        listening = server.bind_socket()
    except SystemExit:  # It has said what the system says.
        refuse(
            f"{shown}:{settings.port} can't be listened on: if another service has the port, name a free one by --port"
            " or HANGPOINT_PORT."
        )
    typer.echo(
        f"hangpoint {__version__} on http://{shown}:{settings.port}, form under /form, documentation under /docs",
        err=True,
    )
    uvicorn.Server(server).run(sockets=[listening])


def longest_seconds(settings: "Settings") -> int:
    """Time that the longest request takes within its limits: what is under way when the service stops may end."""
    from hangpoint.api.pdf_files import WAIT_SECONDS
    from hangpoint.report.pdf.document import SECONDS

    printed = settings.body_seconds + WAIT_SECONDS + SECONDS
    return ceil(max(settings.stream_seconds, printed)) + _SPARE_SECONDS


def _require_access(settings: "Settings") -> None:
    if settings.access == "tokens" and not settings.bearer_tokens:
        refuse("HANGPOINT_ACCESS=tokens needs HANGPOINT_TOKENS: set it to the tokens let in, separated by commas.")
    if settings.access != "tokens" and settings.bearer_tokens:
        refuse(
            f"HANGPOINT_TOKENS are set, and HANGPOINT_ACCESS={settings.access} asks for none: set"
            " HANGPOINT_ACCESS=tokens, or unset HANGPOINT_TOKENS."
        )
    if settings.access == "loopback" and not _is_loopback(settings.host):
        refuse(
            f"{settings.host} can be reached from other machines, and anybody there could call. Set"
            " HANGPOINT_ACCESS=tokens with HANGPOINT_TOKENS, or HANGPOINT_ACCESS=proxy if a proxy in front"
            " authenticates; or listen on 127.0.0.1."
        )


def _is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


def health(
    port: Annotated[int | None, typer.Option(min=1, max=65535, help="Otherwise HANGPOINT_PORT.")] = None,
) -> None:
    """Ask the service on this machine whether it is ready; exit 0 if it is, else 1."""
    from http.client import HTTPConnection, HTTPException

    settings = usable_settings()
    connection = HTTPConnection(_own_address(settings.host), port or settings.port, timeout=_HEALTH_SECONDS)
    try:
        connection.request("GET", "/readyz")
        response = connection.getresponse()
        status = response.status
        text = response.read().decode(errors="replace")
    except (OSError, HTTPException) as error:
        status, text = 0, f"no answer: {error}"
    finally:
        connection.close()
    typer.echo(text, err=status != 200)
    if status != 200:
        raise typer.Exit(EXIT_NOT_READY)


def _own_address(host: str) -> str:
    """Where a service that listens on ``host`` is found from this machine."""
    return {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(host, host)  # noqa: S104
