"""The query of a request: every name once, and names and words that its address has."""

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from typing import get_args

from hangpoint.api.csv_text import Encoding
from hangpoint.api.media import FORMATS
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.schemas.words import Combinations, DesignCode, Detail, LoadStandard, Neighbours, UnitSystem
from hangpoint.api.schemas.workbooks import Hidden

DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", ",": ",", ";": ";", "\t": "\t"}
"""Signs between the cells of a CSV by their words."""

WORDS: Mapping[str, tuple[str, ...]] = {
    "units": get_args(UnitSystem),
    "design_code": get_args(DesignCode),
    "combinations": get_args(Combinations),
    "load_standard": get_args(LoadStandard),
    "detail": get_args(Detail),
    "neighbours": get_args(Neighbours),
    "echo": ("true", "false"),
    "format": tuple(FORMATS),
    "decimal": (".", ","),
    "delimiter": tuple(DELIMITERS),
    "encoding": get_args(Encoding),
    "hidden": get_args(Hidden),
}
"""Names of queries and the words that each may have."""

_OF_CSV = frozenset({"decimal", "delimiter", "encoding", "notes"})
_PREFIXES_OF_CSV = ("default.", "project.")
"""What a query says of a CSV alone."""

SHOWN = 64
"""Characters of a name that are repeated."""


def read_query(pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """The values of a query by name.

    Raises:
        ProblemError: a name stands there twice. Neither value is the one that was meant.
    """
    query: dict[str, str] = {}
    errors: list[FieldError] = []
    for name, value in pairs:
        if name in query:
            errors.append(
                FieldError(pointer=f"?{name[:SHOWN]}", code="repeated", detail="Stated more than once: state it once.")
            )
        query[name] = value
    _refuse(errors)
    return query


def check_query(
    query: Mapping[str, str],
    known: Sequence[str],
    *,
    prefixes: tuple[str, ...] = (),
    formats: Sequence[str] = (),
    texts: Sequence[str] = (),
    members: Sequence[str] = (),
    of_csv: bool = False,
) -> None:
    """Refuse names and words of a query that this address doesn't have; ``formats`` are its own, if not the usual ones.

    What begins with one of ``prefixes`` is read elsewhere, and names in ``texts`` may have any text. Those in
    ``members`` are of the body. ``of_csv``: the address reads a CSV too, and this body is none. A format that others
    have is no unknown word: it is left to the choice of the answer's form.

    Raises:
        ProblemError: with the place ``?name``.
    """
    errors: list[FieldError] = []
    for name, value in query.items():
        if name.startswith(prefixes) or name in texts:
            continue
        place = f"?{name[:SHOWN]}"
        if name not in known:
            every = (*known, *texts)
            near = tuple(get_close_matches(name[:SHOWN], every, n=3, cutoff=0.4)) or every
            detail = "This address has no such name in its query." if known else "This address has no query."
            if name in members:
                detail, near = f'A body of JSON states its {name} itself: "{name}": "{value[:SHOWN]}".', ()
            elif of_csv and (name in _OF_CSV or name.startswith(_PREFIXES_OF_CSV)):
                detail, near = "This is said of a CSV; send one with Content-Type: text/csv.", ()
            errors.append(FieldError(pointer=place, code="unknown-field", detail=detail, allowed=near))
        elif value not in WORDS[name] and (name != "format" or value not in formats):
            detail = "This is none of the words that may stand here."
            allowed = tuple(formats) if name == "format" and formats else WORDS[name]
            errors.append(FieldError(pointer=place, code="unknown-option", detail=detail, allowed=allowed))
    _refuse(errors)


def _refuse(errors: Sequence[FieldError]) -> None:
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
