"""Answers as PDF: how many sheets one has, and how many are typeset at a time."""

from anyio import CapacityLimiter, fail_after
from anyio.lowlevel import RunVar
from starlette.concurrency import run_in_threadpool

from hangpoint.api.problems import ProblemError
from hangpoint.report.pdf.document import SECONDS, LateError, pdf_of

MOST_SHEETS = 20
MOST_PAGE_SHEETS = 200
"""Of one page of HTML that is counted in sheets."""
MOST_PAGE_BYTES = 2_500_000
"""Of one file: a sheet has some 60,000 bytes, a tenth of a second and ten megabytes of memory; one of many anchors has
ten times as many."""
AT_A_TIME = 2
WAIT_SECONDS = 20.0
_RETRY_SECONDS = 10
_places: RunVar[CapacityLimiter] = RunVar("places of files being typeset")


def pdf_file(page: str, *, sheets: int) -> bytes:
    """A printed page of so many sheets as PDF.

    Raises:
        ProblemError: too many or too long sheets, or it took too long.
    """
    for what, own, limit in (
        ("sheets or cards", sheets, MOST_SHEETS),
        ("bytes of page", len(page.encode()), MOST_PAGE_BYTES),
    ):
        if own > limit:
            raise ProblemError(
                "too-many-items",
                f"A PDF is made of at most {limit} {what}, this one of {own}: ask for fewer, or for format=html.",
                members={"limit": limit, "received": own},
            )
    try:
        return pdf_of(page)
    except LateError:
        detail = f"The PDF was not made within {SECONDS:g} s: send the request again, for fewer sheets or format=html."
        raise _overloaded(detail) from None


async def pdf_in_turn(page: str, *, sheets: int) -> bytes:
    """The same in a thread, `AT_A_TIME` of a service; what waits for its turn holds no thread.

    Raises:
        ProblemError: as `pdf_file`, or the others took too long.
    """
    places, own = _limiter(), object()
    try:
        with fail_after(WAIT_SECONDS):
            await places.acquire_on_behalf_of(own)
    except TimeoutError:
        raise _overloaded("Other PDF files are being made; send the request again.") from None
    try:
        return await run_in_threadpool(pdf_file, page, sheets=sheets)
    finally:
        places.release_on_behalf_of(own)


def _limiter() -> CapacityLimiter:
    """That of the event loop."""
    try:
        return _places.get()
    except LookupError:
        made = CapacityLimiter(AT_A_TIME)
        _places.set(made)
        return made


def _overloaded(detail: str) -> ProblemError:
    return ProblemError("overloaded", detail, headers={"Retry-After": str(_RETRY_SECONDS)})
