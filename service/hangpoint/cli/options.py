"""Words that options of the commands take; those of a request are written again, as its schemas load slowly."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer


class UnitSystem(StrEnum):
    """Unit system of bare numbers."""

    US = "us"
    SI = "si"


class DesignCode(StrEnum):
    """Design code."""

    ACI318_19 = "aci318_19"
    EN1992_4 = "en1992_4"


class LoadStandard(StrEnum):
    """Load standard and its edition."""

    ASCE7_16 = "asce7_16"
    ASCE7_22 = "asce7_22"
    EN1990 = "en1990"


class Combinations(StrEnum):
    """How loads are combined."""

    STRENGTH = "strength"
    GIVEN_FACTORED = "given_factored"
    ALLOWABLE = "allowable"


class Detail(StrEnum):
    """How much of the calculation is written."""

    VERDICT = "verdict"
    MODES = "modes"
    TRACE = "trace"


class Delimiter(StrEnum):
    """What stands between the cells of a CSV."""

    COMMA = "comma"
    SEMICOLON = "semicolon"
    TAB = "tab"

    @property
    def sign(self) -> str:
        """The character."""
        return {"comma": ",", "semicolon": ";", "tab": "\t"}[self]


class Decimal(StrEnum):
    """Decimal sign of a CSV."""

    POINT = "."
    COMMA = ","


class Encoding(StrEnum):
    """Encoding of a CSV."""

    UTF_8 = "utf-8"
    WINDOWS_1252 = "windows-1252"


class Sheets(StrEnum):
    """Which points of a submittal have calculation sheets."""

    WORST = "worst"
    ALL = "all"


class ProofRule(StrEnum):
    """Rule of proof tests."""

    CBC_1910A_5 = "cbc_1910a_5"
    IEBC_URM = "iebc_urm"
    ONE_AND_A_HALF_WORKING_LOAD = "one_and_a_half_working_load"
    THREE_QUARTERS_OF_DESIGN_STRENGTH = "three_quarters_of_design_strength"


class AnchorUse(StrEnum):
    """What anchors that are tested are used for."""

    STRUCTURAL = "structural"
    NONSTRUCTURAL = "nonstructural"
    SILL_BOLT = "sill_bolt"


class Format(StrEnum):
    """Form of a file that is written."""

    CSV = "csv"
    JSON = "json"
    NDJSON = "ndjson"
    XLSX = "xlsx"
    HTML = "html"
    PDF = "pdf"


UnitsOption = Annotated[
    UnitSystem | None, typer.Option(help="Units of bare numbers of a CSV or lines, and of the answer.")
]
DefaultsOption = Annotated[
    Path | None, typer.Option(help="JSON object with values for every row of a CSV that lacks its own.")
]
CombinationsOption = Annotated[Combinations | None, typer.Option(help="Of a CSV or lines.")]
LoadStandardOption = Annotated[LoadStandard | None, typer.Option(help="Of a CSV or lines.")]
DesignCodeOption = Annotated[DesignCode | None, typer.Option(help="Of a CSV or lines.")]
NeighboursOption = Annotated[
    bool | None,
    typer.Option(
        "--neighbours/--no-neighbours",
        help="Of a CSV or lines: check points near each other together; otherwise of a CSV, not of lines.",
    ),
]
DelimiterOption = Annotated[Delimiter | None, typer.Option(help="Of a CSV; otherwise read from its header.")]
DecimalOption = Annotated[Decimal | None, typer.Option(help="Decimal sign of a CSV; otherwise the point.")]
EncodingOption = Annotated[Encoding | None, typer.Option(help="Of a CSV; otherwise UTF-8. None is guessed.")]
NoteOption = Annotated[
    list[str] | None,
    typer.Option(help="Title of a column of a CSV that is not read but handed back, again for each."),
]
ProjectOption = Annotated[
    list[str] | None,
    typer.Option(
        help="Of a CSV, what heads its sheets, again for each: name=TEXT, number=, revision=, date=, prepared_by=."
    ),
]
CatalogueOption = Annotated[
    Path | None, typer.Option(help="File or folder of families used instead of the built-in ones.")
]
StrictOption = Annotated[bool, typer.Option("--strict", help="Exit with 3 if any point is not passed.")]
"""Options of the commands that read a file of hang points."""

EXIT_NOT_PASSED = 3
"""With ``--strict``."""
