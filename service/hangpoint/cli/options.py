"""Words that options of the commands take; those of a request are written again, as its schemas load slowly."""

from enum import StrEnum


class UnitSystem(StrEnum):
    """Unit system of bare numbers."""

    US = "us"
    SI = "si"


class DesignCode(StrEnum):
    """Design code."""

    ACI318_19 = "aci318_19"
    EN1992_4 = "en1992_4"


class LoadStandard(StrEnum):
    """Editions of the load standard."""

    ASCE7_16 = "asce7_16"
    ASCE7_22 = "asce7_22"


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


class Format(StrEnum):
    """Form of a file that is written."""

    CSV = "csv"
    JSON = "json"
    NDJSON = "ndjson"
    XLSX = "xlsx"
    HTML = "html"
    PDF = "pdf"
