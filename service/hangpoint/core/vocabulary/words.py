"""Plain words of an answer: statuses, severities, links, natures of load; and what an entry of a closed list holds."""

from dataclasses import dataclass
from enum import Enum, StrEnum


class Listed(Enum):
    """Base of the closed lists of codes."""

    # Every check looks up many codes; the hash of `Enum` asks each for its name.
    __hash__ = object.__hash__


class Status(StrEnum):
    """What became of one hang point."""

    PASSED = "passed"
    FAILED = "failed"
    REFUSED = "refused"
    INVALID = "invalid"


class Severity(StrEnum):
    """How much a finding weighs: a violation fails the point."""

    VIOLATION = "violation"
    CAUTION = "caution"
    NOTE = "note"


class Link(StrEnum):
    """The links of the chain from what hangs to the base, in the order in which the first largest governs."""

    LOAD = "load"
    ROD = "rod"
    ANCHOR = "anchor"
    BASE = "base"


class Nature(StrEnum):
    """Where a load comes from."""

    DEAD = "dead"
    CONTENTS = "contents"
    LIVE = "live"
    ROOF_LIVE = "roof_live"
    SNOW = "snow"
    WIND = "wind"
    EARTHQUAKE = "earthquake"
    TEST = "test"
    THERMAL = "thermal"
    SPRINKLER_RULE = "sprinkler_rule"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A code of a closed list, its sentence and its clause; where methods cite others it is a `clauses.Clause`.

    ``instead`` is the end of the text where that says to take another product.
    """

    code: str
    text: str
    clause: str = ""
    instead: str = ""

    @property
    def of_candidate(self) -> str:
        """What is said of a product among others, where nobody is to be told to take another."""
        return self.text.removesuffix(self.instead).rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingEntry(Entry):
    """A finding also has a weight and says what its value and limit are (a quantity kind of the units table)."""

    severity: Severity
    quantity: str = ""


def finding(code: str, severity: Severity, text: str, clause: str, quantity: str = "") -> FindingEntry:
    """An entry of a closed list of findings."""
    return FindingEntry(code=code, text=text, clause=clause, severity=severity, quantity=quantity)


def say(code: str, text: str, clause: str = "", *, instead: str = "") -> Entry:
    """An entry of a closed list; ``instead`` comes behind the text."""
    return Entry(code=code, text=f"{text} {instead}".rstrip(), clause=clause, instead=instead)
