"""Calculation sheets as the files that ``hangpoint check`` writes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hangpoint.cli.refusal import refuse

if TYPE_CHECKING:
    from hangpoint.api.run import Run
    from hangpoint.product.catalogue import Catalogue
    from hangpoint.report.calculation.subject import Subject

PDF_NAMES = ("calculation.pdf", "calculation-[0-9][0-9].pdf", "calculation-[0-9][0-9][0-9].pdf")
"""Patterns of the names of sheets as PDF, one file or several."""
HTML_NAMES = tuple(name.replace(".pdf", ".html") for name in PDF_NAMES)
"""Those of pages."""
SHEETS_AT_A_TIME = 200
"""Sheets of a page, whose calculations are held at the same time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWish:
    """Which sheets are wanted: of the ids ``only`` and of points with one of the ``statuses``, where these say it."""

    html: bool
    pdf: bool
    only: frozenset[str] | None
    statuses: frozenset[str]

    @property
    def any(self) -> bool:
        """Whether sheets are wanted at all."""
        return self.html or self.pdf


@dataclass(slots=True)
class SheetFiles:
    """Files by their name, and the ids of points whose sheet is too long for a PDF.

    ``run`` is the one that all sheets were made of, if it was one.
    """

    files: dict[str, bytes] = field(default_factory=dict[str, bytes])
    too_long: list[str] = field(default_factory=list[str])
    run: "Run | None" = None


def named(words: Sequence[str]) -> frozenset[str]:
    """Ids as they are given, those of a file for ``@FILE``: one a line."""
    ids: list[str] = []
    for word in words:
        if not word.startswith("@"):
            ids.append(word)
            continue
        try:
            lines = Path(word[1:]).read_text("utf-8-sig").splitlines()
        except (OSError, ValueError) as error:
            refuse(f"--only {word}: the file can't be read: {getattr(error, 'strerror', None) or 'it is not UTF-8'}.")
        ids += [line.strip() for line in lines if line.strip()]
    return frozenset(ids)


def sheet_files(
    run: "Run", wish: SheetWish, again: "Callable[[frozenset[str] | None], Run]", catalogue: "Catalogue"
) -> SheetFiles:
    """The sheets of a run as pages and as PDF, in several files where they are many or long.

    Args:
        run: the points, checked.
        wish: which sheets.
        again: checks once more, with the calculations of some ids, of all for None.
        catalogue: products by address.

    Raises:
        ProblemError: an id that no point has.
    """
    from hangpoint.api.calculations import calculation_subjects
    from hangpoint.report.calculation.page import calculation_page

    made = SheetFiles()
    pages: list[bytes] = []
    volumes: list[bytes] = []
    groups = _groups(run.answer["items"], wish)
    for ids in groups:
        traced = again(ids)
        subjects = calculation_subjects(traced, catalogue)

        def page(own: "Sequence[Subject]", of: "Run" = traced) -> str:
            return calculation_page(of.answer, own, system=of.batch.units)

        if wish.html:
            pages.append(page(subjects).encode())
        if wish.pdf:
            volumes += _volumes(subjects, page, made.too_long)
        made.run = traced if len(groups) == 1 else None
    made.files |= _named_files(pages, "html") | _named_files(volumes, "pdf")
    return made


def _groups(items: Sequence[Mapping[str, Any]], wish: SheetWish) -> list[frozenset[str] | None]:
    """Ids of the sheets of each page; None where it has all of them."""
    if wish.only is None and not wish.statuses and len(items) <= SHEETS_AT_A_TIME:
        return [None]
    known = [
        item["id"]
        for item in items
        if item["id"] is not None
        and (wish.only is None or item["id"] in wish.only)
        and (not wish.statuses or item["status"] in wish.statuses)
    ]
    unknown = sorted((wish.only or frozenset()) - {item["id"] for item in items})
    ids = [*unknown, *known]
    return [frozenset(ids[at : at + SHEETS_AT_A_TIME]) for at in range(0, len(ids), SHEETS_AT_A_TIME)]


def _volumes(
    subjects: "Sequence[Subject]", page: "Callable[[Sequence[Subject]], str]", too_long: list[str]
) -> list[bytes]:
    """Sheets as PDF, in as many files as it takes."""
    from hangpoint.api.pdf_files import MOST_PAGE_BYTES, MOST_SHEETS, pdf_file

    def halved(own: "Sequence[Subject]") -> list[bytes]:
        written = page(own)
        if len(written.encode()) <= MOST_PAGE_BYTES:
            return [pdf_file(written, sheets=len(own))]
        if len(own) == 1:
            too_long.append(own[0].result["id"])
            return []
        return [*halved(own[: len(own) // 2]), *halved(own[len(own) // 2 :])]

    starts = range(0, len(subjects), MOST_SHEETS)
    return [volume for start in starts for volume in halved(subjects[start : start + MOST_SHEETS])]


def _named_files(contents: Sequence[bytes], ending: str) -> dict[str, bytes]:
    """Contents by their names: with numbers where there are several."""
    if len(contents) == 1:
        return {f"calculation.{ending}": contents[0]}
    return {f"calculation-{at:02}.{ending}": content for at, content in enumerate(contents, start=1)}
