"""Clauses as answers by each design code name them: a bare one is of the code that the answer goes by."""

import re
from collections.abc import Callable, Mapping
from functools import partial
from typing import NamedTuple

_BARE = re.compile(r"(Table |R|\()?\d")


def is_bare(clause: str) -> bool:
    """Whether a clause names no document."""
    return _BARE.match(clause) is not None


_OF_EN = {
    "17.1.3": "instructions of the product",
    "17.2": "EN 1992-4 6.2.1",
    "17.2.1": "EN 1992-4 6.2.1",
    "17.2.1; common practice": "EN 1992-4 6.2.1; common practice",
    "17.5.2": "EN 1992-4 7.2",
    "17.5.2.2": "assessment of the product",
    "17.9.2": "EN 1992-4 7.2.1.7(1)",
    "22.8": "EN 1992-1-1 6.7, from memory",
    "Table 17.5.1.3.1; 17.6.4.2; reading 30": "reading 30",
}
"""Clauses of what chapter 17 and EN 1992-4 both find, in answers by the latter."""


def named_clause(clause: str) -> str:
    """A clause of the closed lists in an answer by EN 1992-4; the bare ones are of ACI 318-19."""
    if not is_bare(clause):
        return clause
    return _OF_EN.get(clause, f"ACI 318-19 {clause}")


_SYMBOL_OF_LOAD = re.compile(r"\b([MNPV])_ua?\b")
_OF_LOADS = {
    "5.3.1": "EN 1990 6.4.3",
    "17.2.1": "EN 1992-4 6.2",
    "17.5.1": "statics",
    "17.5.2.2": "common practice",
    "19.2.2.1": "EN 1992-1-1 Table 3.1",
    "20.2.2.2": "EN 1992-1-1 3.2.7(4)",
    "17.10.5.1": "EN 1990 (6.12b)",
    "17.10.6.1": "EN 1990 (6.12b)",
    "ASCE 7 2.3": "EN 1990 6.4.3",
    "ASCE 7 2.3.6": "EN 1990 (6.12b)",
    "ASCE 7 2.4": "EN 1990 6.5.3",
    "ASCE 7 2.4.5": "EN 1990 6.5.3",
}


def shared_clause(clause: str) -> str:
    """A clause of a number that every code computes, in a trace by EN 1992-4: none of another code is left."""
    if is_bare(clause) or clause.startswith("ASCE 7"):
        return _OF_LOADS.get(clause, "")
    return clause


def shared_symbol(symbol: str) -> str:
    """Its symbol there: design loads have the index Ed of EN 1990 in place of u and ua."""
    return _SYMBOL_OF_LOAD.sub(r"\1_Ed", symbol)


class Naming(NamedTuple):
    """How a trace names the clauses and the symbols of a record."""

    clause: Callable[[str], str]
    symbol: Callable[[str], str]


_SERVICE: Mapping[str, str] = {
    "5.3.1": "ASCE 7 2.4",
    "17.5.1": "statics",
    "17.5.2.2": "common practice",
    "17.10.5.1": "ASCE 7 2.4.5",
    "17.10.6.1": "ASCE 7 2.4.5",
    "ASCE 7 2.3": "ASCE 7 2.4",
    "ASCE 7 2.3.6": "ASCE 7 2.4.5",
}
"""Clauses of strength design that loads come together by, at the level of service loads."""
_BY_TABLE: Mapping[str, str] = {"table of the product, TMS 402 8.1.3.3, 9.1.6.3": "table of the product"}
_BOLT_BY_STRENGTH: Mapping[str, str] = {
    "table of the product, TMS 402 8.1.3.3, 9.1.6.3": "TMS 402 9.1.6.3",
    "TMS 402 8.1.3.3, 9.1.6.3": "TMS 402 9.1.6.3",
}
_BOLT_BY_SERVICE: Mapping[str, str] = {
    "table of the product, TMS 402 8.1.3.3, 9.1.6.3": "TMS 402 8.1.3.3",
    "TMS 402 8.1.3.3, 9.1.6.3": "TMS 402 8.1.3.3",
    "TMS 402 9.1.4": "TMS 402 8.1.3.3",
    "TMS 402 9.1.9": "",
}


def _of_aci(named: Mapping[str, str], clause: str) -> str:
    """A clause where chapter 17 isn't the method: a bare one names its document."""
    own = named.get(clause, clause)
    return f"ACI 318-19 {own}" if is_bare(own) else own


def _service_symbol(symbol: str) -> str:
    """Service loads have no index u of factored ones."""
    return _SYMBOL_OF_LOAD.sub(r"\1_a", symbol)


def _same(text: str) -> str:
    return text


OWN = Naming(_same, _same)
BY_EN = Naming(shared_clause, shared_symbol)
FACTORED = Naming(partial(_of_aci, {}), _same)
"""Strength design beside service loads, or beside the method of a bolt in masonry."""
TABLE_LOADS = Naming(partial(_of_aci, _SERVICE | _BY_TABLE), _service_symbol)
BOLT_STRENGTHS = Naming(partial(_of_aci, _BOLT_BY_STRENGTH), _same)
BOLT_SERVICE = Naming(partial(_of_aci, _SERVICE | _BOLT_BY_SERVICE), _service_symbol)
