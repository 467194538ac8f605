"""Findings of loads of one nature that are stated against each other."""

from hangpoint.core.clauses import TRANSIENT_COMBINED
from hangpoint.core.vocabulary.words import Severity, finding

NATURE_APART = finding(
    "one-nature-apart",
    Severity.VIOLATION,
    "Loads of one nature are stated against each other here or beside it, and each may be absent: without those that"
    " relieve the others the point is used beyond its strength.",
    TRANSIENT_COMBINED,
    "ratio",
)
NATURE_APART_UNSOUND = finding(
    "one-nature-apart-unsound",
    Severity.VIOLATION,
    "Loads of one nature are stated against each other here or beside it, and each may be absent: without some of them"
    " the point is refused or has a violation, as where what is left pushes. State a point with those loads alone to"
    " see which.",
    TRANSIENT_COMBINED,
)
NATURE_APART_HOLDS = finding(
    "one-nature-apart-holds",
    Severity.NOTE,
    "Loads of one nature are stated against each other here: the point also holds without those that relieve the"
    " others, and is then used by as much as this.",
    TRANSIENT_COMBINED,
    "ratio",
)
