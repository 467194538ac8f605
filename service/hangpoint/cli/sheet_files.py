"""Calculation sheets as the files that ``hangpoint check`` writes."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hangpoint.api.run import Run
    from hangpoint.product.catalogue import Catalogue
    from hangpoint.report.calculation.subject import Subject

PDF_NAMES = ("calculation.pdf", "calculation-[0-9][0-9].pdf", "calculation-[0-9][0-9][0-9].pdf")
"""Patterns of the names of sheets as PDF, one file or several."""


@dataclass(frozen=True, slots=True)
class SheetFiles:
    """Files by their name, and the ids of points whose sheet is too long for a PDF."""

    files: dict[str, bytes] = field(default_factory=dict[str, bytes])
    too_long: list[str] = field(default_factory=list[str])


def sheet_files(run: "Run", catalogue: "Catalogue", *, html: bool, pdf: bool) -> SheetFiles:
    """The sheets of a run as a page, and as PDF in several files where they are many or long."""
    from hangpoint.api.calculations import calculation_subjects
    from hangpoint.api.pdf_files import MOST_PAGE_BYTES, MOST_SHEETS, pdf_file
    from hangpoint.report.calculation.page import calculation_page

    made = SheetFiles()

    def page(own: Sequence["Subject"]) -> str:
        return calculation_page(run.answer, own, system=run.batch.units)

    def volumes(own: Sequence["Subject"]) -> list[bytes]:
        written = page(own)
        if len(written.encode()) <= MOST_PAGE_BYTES:
            return [pdf_file(written, sheets=len(own))]
        if len(own) == 1:
            made.too_long.append(own[0].result["id"])
            return []
        return [*volumes(own[: len(own) // 2]), *volumes(own[len(own) // 2 :])]

    subjects = calculation_subjects(run, catalogue)
    if html:
        made.files["calculation.html"] = page(subjects).encode()
    if pdf:
        starts = range(0, len(subjects), MOST_SHEETS)
        each = [volume for start in starts for volume in volumes(subjects[start : start + MOST_SHEETS])]
        names = [f"calculation-{at:02}.pdf" for at in range(1, len(each) + 1)] if len(each) > 1 else ["calculation.pdf"]
        made.files.update(zip(names, each, strict=False))
    return made
