"""The forms that bodies and answers have, by media type, and the choice of the form of an answer."""

import re
from collections.abc import Iterator, Mapping, Sequence

from hangpoint.api.problems import ProblemError

JSON = "application/json"
NDJSON = "application/x-ndjson"
CSV = "text/csv"
HTML = "text/html"
PDF = "application/pdf"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

FORMATS: Mapping[str, str] = {"json": JSON, "ndjson": NDJSON, "csv": CSV, "xlsx": XLSX, "html": HTML, "pdf": PDF}
"""Forms of an answer by their word in ``?format=``, the preferred first."""

SHEETS = (HTML, PDF)
"""Forms with a calculation sheet for each hang point."""

WINDOWS = "windows-1252"
"""The encoding that a CSV may have beside UTF-8, where it is stated."""

_QUALITY = re.compile(r"(?:^|;)q=([01]?\.[0-9]*|[01])(?:;|$)")


def body_media_type(stated: str, known: Sequence[str]) -> str:
    """Media type of a body by its Content-Type.

    Raises:
        ProblemError: none of the known ones, or not in UTF-8; a CSV may be in windows-1252.
    """
    media = stated.partition(";")[0].strip().lower()
    if media == XLSX and CSV in known:
        detail = "A workbook is not read here: POST /v1/workbook-rows makes a CSV of a sheet; send that."
        raise ProblemError("unsupported-media", detail, headers={"Accept": ", ".join(known)})
    read = {"utf-8", "utf8", *((WINDOWS,) if media == CSV else ())}
    if media not in known or not _charsets(stated) <= read:
        raise ProblemError(
            "unsupported-media",
            f"{f'Content-Type {stated[:80]}' if stated else 'A body without Content-Type'} is not read here; send UTF-8"
            f" with the header {' or '.join(f'Content-Type: {each}' for each in known)}.",
            headers={"Accept": ", ".join(known)},
        )
    return media


def with_charset(query: Mapping[str, str], stated: str) -> dict[str, str]:
    """The query of a CSV with the encoding that its Content-Type states, where the query states none.

    A charset of UTF-8 may come from a library that knows nothing of the file, and contradicts no query.
    """
    return {**({"encoding": WINDOWS} if WINDOWS in _charsets(stated) else {}), **query}


def _charsets(stated: str) -> set[str]:
    parameters = (part.partition("=") for part in stated.lower().split(";")[1:])
    return {value.strip(' "') for name, _, value in parameters if name.strip() == "charset"}


def answer_form(chosen: str | None, accept: str, media: str, *, known: Mapping[str, str] = FORMATS) -> str:
    """Media type of an answer, one of the ``known`` by their words.

    By the word of ``?format=`` where there is one. Else by ``Accept``: the highest quality, then what stands first in
    it, then the form of the request.

    Raises:
        ProblemError: no such word; every form is excluded.
    """
    if chosen is not None:
        if chosen not in known:
            raise ProblemError("not-acceptable", f"There is no format {chosen[:20]}; there are {', '.join(known)}.")
        return known[chosen]
    ranges = list(_ranges(accept or "*/*"))
    found = [
        (-quality, place, form != media, order, form)
        for order, form in enumerate(known.values())
        for quality, place in [_match(form, ranges)]
        if quality > 0
    ]
    if not found:
        raise ProblemError(
            "not-acceptable", f"The answer can be {', '.join(known.values())}; Accept asks for none of them."
        )
    return min(found)[-1]


def _ranges(accept: str) -> Iterator[tuple[str, float]]:
    for each in accept.lower().replace(" ", "").replace("\t", "").split(","):
        media, _, parameters = each.partition(";")
        quality = _QUALITY.search(parameters)
        yield media or "*/*", min(float(f"0{quality[1]}"), 1.0) if quality else 1.0


def _match(form: str, ranges: Sequence[tuple[str, float]]) -> tuple[float, int]:
    """Quality and place of the most specific range that a form is in; quality 0 where it is in none."""
    for wanted in (form, f"{form.partition('/')[0]}/*", "*/*"):
        for place, (media, quality) in enumerate(ranges):
            if media == wanted:
                return quality, place
    return 0.0, len(ranges)
