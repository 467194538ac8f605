"""Findings of a plate that is taken as rigid."""

from hangpoint.core.clauses import Clause
from hangpoint.core.vocabulary.words import Severity, finding

_PRACTICE = "common practice"
_RIGID = Clause("17.2.1; common practice", en="EN 1992-4 6.2.1; common practice", strength=_PRACTICE, service=_PRACTICE)
"""A plate that is taken as rigid."""

PLATE_THICKNESS_UNKNOWN = finding(
    "plate-thickness-unknown",
    Severity.CAUTION,
    "The plate is taken as rigid, and its thickness is not stated: a plate that bends pries and loads its anchors"
    " more. The limit is a thickness at which it stays elastic around its most loaded anchor, at 36 ksi"
    " (248 MPa), or 235 MPa by EN 1992-4.",
    _RIGID,
    "length",
)
PLATE_BENDS = finding(
    "plate-bends",
    Severity.CAUTION,
    "The plate is taken as rigid, and it yields around its most loaded anchor at 36 ksi (248 MPa), or 235 MPa by EN"
    " 1992-4: prying loads the anchors more than computed. Take a thicker plate, or have the engineer show the"
    " forces.",
    _RIGID,
    "length",
)
