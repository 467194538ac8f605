"""What a workbook is read as."""

from typing import Literal

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.problem import CLOSED

Hidden = Literal["read", "skip"]
"""What becomes of hidden rows and columns."""


@with_config(CLOSED)
class WorkbookRows(TypedDict):
    """A sheet of a workbook as a CSV, to be looked at and sent on."""

    sheet: str
    sheets: list[str]
    rows: int
    notes: list[str]
    csv: str
