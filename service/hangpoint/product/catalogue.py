"""The catalogue: family files, read once, checked, hashed and turned into columns.

Files are read by `files`. The hash is the SHA-256 of the families as canonical JSON (sorted by id, sorted keys, no
blanks, what equals its default left out), so that it depends on what is said and not on how it is laid out.
"""

import difflib
import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from hangpoint.core.errors import CatalogueError
from hangpoint.product.family import Family
from hangpoint.product.files import built_in_files, family_documents, family_files, read_family, twice
from hangpoint.product.principles import MM_PER_INCH
from hangpoint.product.table import ProductTable, depth_text, family_table

BUILT_IN_VERSION = "built-in-7"
DEPTH_TOLERANCE = 1e-6
"""Difference, in, up to which two embedments are the same: the rounding of a conversion, not of a tape."""

_LONGEST_WORD = 64


@dataclass(frozen=True, kw_only=True)
class Catalogue:
    """All families and their columns. ``table`` has one row an address, in the order of ``addresses``."""

    families: Mapping[str, Family]
    version: str
    hash: str
    table: ProductTable
    addresses: tuple[str, ...]
    _depths: Mapping[tuple[str, str], tuple[tuple[float, int], ...]]

    def row(self, family: str, size: str, h_ef_in: float) -> int | None:
        """Row of the table for a family, a size as printed and h_ef in inches; None if there is none."""
        for depth, row in self._depths.get((family, size), ()):
            if abs(depth - h_ef_in) <= DEPTH_TOLERANCE:
                return row
        return None

    def bond_row(self, row: int, temperature: str, hole: str) -> int | None:
        """Row of ``table.bond`` for a row of the table in a condition; None if the product has no such condition."""
        return self.table.bond_row(row, temperature, hole)

    def nearest(self, family: str, size: str, h_ef_text: str, n: int = 5) -> tuple[str, ...]:
        """Addresses most like the given words: first by family, then by size, then by depth."""
        found: list[str] = []
        for near_family in _by_likeness(family, self.families):
            units = {s.size: [depth_text(e.h_ef) for e in s.embedments] for s in self.families[near_family].sizes}
            for near_size in _by_likeness(size, units):
                for depth in _by_likeness(h_ef_text, units[near_size]):
                    found.append(f"{near_family}/{near_size}/{depth}")
                    if len(found) == n:
                        return tuple(found)
        return tuple(found)


def load_catalogue(paths: Iterable[Path] | None = None) -> Catalogue:
    """Read a catalogue.

    Args:
        paths: files with one family or a list of families, and folders of such files (``*.json``); None is the
            built-in catalogue, whose families are invented.

    Raises:
        CatalogueError: the first file that can't be used, with the place in it and the reason.
    """
    families: dict[str, Family] = {}
    for file, text in built_in_files() if paths is None else family_files(paths):
        for place, member in family_documents(text, file):
            family = read_family(member, file, place)
            if family.id in families:
                raise twice(file, place, family.id)
            families[family.id] = family
    if not families:
        raise CatalogueError("catalogue", "#", "no family was found; name one file at least")
    ordered = {key: families[key] for key in sorted(families)}
    digest = catalogue_hash(ordered.values())
    table = family_table(ordered.values())
    return Catalogue(
        families=MappingProxyType(ordered),
        version=BUILT_IN_VERSION if paths is None else f"supplied-{digest[:12]}",
        hash=digest,
        table=table,
        addresses=table.address,
        _depths=MappingProxyType(_depths(ordered.values())),
    )


def catalogue_hash(families: Iterable[Family]) -> str:
    """SHA-256, in hexadecimal digits, of the families as canonical JSON."""
    content = [
        family.model_dump(mode="json", exclude_defaults=True) for family in sorted(families, key=lambda each: each.id)
    ]
    text = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _depths(families: Iterable[Family]) -> dict[tuple[str, str], tuple[tuple[float, int], ...]]:
    found: dict[tuple[str, str], tuple[tuple[float, int], ...]] = {}
    row = 0
    for family in families:
        divisor = 1.0 if family.units == "us" else MM_PER_INCH
        for size in family.sizes:
            depths = [embedment.h_ef / divisor for embedment in size.embedments]
            found[family.id, size.size] = tuple(zip(depths, range(row, row + len(depths)), strict=True))
            row += len(depths)
    return found


def _by_likeness(word: str, candidates: Iterable[str]) -> list[str]:
    matcher = difflib.SequenceMatcher(b=word[:_LONGEST_WORD])

    def likeness(candidate: str) -> float:
        matcher.set_seq1(candidate)
        return matcher.ratio()

    return sorted(candidates, key=likeness, reverse=True)
