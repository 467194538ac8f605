"""The bytes of a CSV as text: in UTF-8, or in the encoding that is stated. None is guessed."""

import re
from typing import Literal

from hangpoint.api.problems import FieldError, ProblemError, pointer

Encoding = Literal["utf-8", "windows-1252"]

_CODECS: dict[Encoding, str] = {"utf-8": "utf-8-sig", "windows-1252": "cp1252"}
_BOM = b"\xef\xbb\xbf"
_LINE_END = re.compile(rb"\r\n|\r|\n")
_ARCHIVE = b"PK\x03\x04"
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")
_STATE = (
    "Save it as UTF-8, or state encoding=windows-1252 (of the command, --encoding windows-1252) if it was saved as CSV"
    " by a spreadsheet under Windows."
)


def csv_text(body: bytes, encoding: Encoding | None) -> str:
    """The text of a CSV, in UTF-8 where no encoding is stated.

    Raises:
        ProblemError: a byte that the encoding doesn't have, with its line; a text in UTF-8 that is stated not to be,
            whose signs would all be others.
    """
    if body.startswith(_UTF_16):
        raise ProblemError(
            "unsupported-media", "The CSV is in UTF-16: save it as UTF-8.", headers={"Accept": "text/csv"}
        )
    if body.startswith(_ARCHIVE):
        detail = "This is a workbook or an archive, no CSV: POST /v1/workbook-rows makes a CSV of a sheet (XLSX)."
        raise ProblemError("malformed", detail)
    if b"\x00" in body:
        raise _not_text(body, body.index(0), "has a zero byte", "Save it as UTF-8.")
    own = encoding or "utf-8"
    if own != "utf-8" and _is_utf_8(body):
        detail = f"The CSV is in UTF-8, not in {own}: state no encoding."
        error = FieldError(pointer="?encoding", code="contradiction", detail=detail)
        raise ProblemError("validation", f"{error.pointer}: {detail}", errors=[error])
    try:
        return body.decode(_CODECS[own])
    except UnicodeDecodeError as error:
        at = len(body) - len(error.object) + error.start
        what = "is not UTF-8" if own == "utf-8" else f"is not in {own}"
        raise _not_text(body, at, what, _STATE if own == "utf-8" else "Save it as UTF-8.") from None


def _is_utf_8(body: bytes) -> bool:
    """Whether a text says that it is UTF-8: by its mark, or by letters that are not ASCII and fit together."""
    if body.startswith(_BOM):
        return True
    try:
        return not body.isascii() and bool(body.decode("utf-8"))
    except UnicodeDecodeError:
        return False


def _not_text(body: bytes, at: int, what: str, instead: str) -> ProblemError:
    """The problem of a byte that no text in its encoding has, by the line that it stands on."""
    line = 1 + sum(1 for _ in _LINE_END.finditer(body, 0, at))
    begin = 1 + max(body.rfind(b"\n", 0, at), body.rfind(b"\r", 0, at))
    detail = f"The CSV {what}: byte {at - begin + 1} of line {line} can't be read. {instead}"
    error = FieldError(pointer=pointer("lines", line), code="malformed", detail=detail, line=line)
    return ProblemError("malformed", detail, errors=[error])
