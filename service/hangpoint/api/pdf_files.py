"""Answers as PDF: how many sheets one has, and how many are typeset at a time."""

from threading import BoundedSemaphore

from hangpoint.api.problems import ProblemError
from hangpoint.report.pdf.document import pdf_of

MOST_SHEETS = 20
MOST_PAGE_BYTES = 2_500_000
"""Of one file: a sheet has some 60,000 bytes, a tenth of a second and ten megabytes of memory; one of many anchors has
ten times as many."""
_WAIT_SECONDS = 20.0
_RETRY_SECONDS = 10
_at_a_time = BoundedSemaphore(2)


def pdf_file(page: str, *, sheets: int) -> bytes:
    """A printed page of so many sheets as PDF.

    Raises:
        ProblemError: too many or too long sheets, or too many files at a time.
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
    if not _at_a_time.acquire(timeout=_WAIT_SECONDS):
        detail = "Other PDF files are being made; send the request again."
        raise ProblemError("overloaded", detail, headers={"Retry-After": str(_RETRY_SECONDS)})
    try:
        return pdf_of(page)
    finally:
        _at_a_time.release()
