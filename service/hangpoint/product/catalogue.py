"""The catalogue: family files, read once, checked, hashed and turned into columns.

A file holds one family or a list of families. Its schema is `family`, its rules are `consistency`. The hash is the
SHA-256 of the families as canonical JSON (sorted by id, sorted keys, no blanks, what equals its default left out), so
that it depends on what is said and not on how it is laid out.
"""

import difflib
import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from types import MappingProxyType
from typing import Any, cast

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from hangpoint.core.errors import CatalogueError
from hangpoint.product import family as schema
from hangpoint.product.consistency import MM_PER_INCH
from hangpoint.product.family import BRANCHES, FORMAT, Family
from hangpoint.product.table import ProductTable, depth_text, family_table

BUILT_IN_VERSION = "built-in-1"
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
    for file, text in _built_in_files() if paths is None else _files(paths):
        for place, family in _read(text, file):
            if family.id in families:
                raise CatalogueError(
                    file,
                    _pointer((*place, "id")),
                    f"the id {family.id} is there twice in the catalogue; ids are unique",
                )
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


def _built_in_files() -> Iterator[tuple[str, bytes]]:
    folder = resources.files("hangpoint.product").joinpath("data")
    for entry in sorted(folder.iterdir(), key=lambda each: each.name):
        if entry.name.endswith(".json"):
            yield entry.name, entry.read_bytes()


def _files(paths: Iterable[Path]) -> Iterator[tuple[str, bytes]]:
    for path in paths:
        if not path.exists():
            raise CatalogueError(str(path), "#", "there is no such file or folder; check the path")
        members = sorted(path.glob("*.json")) if path.is_dir() else [path]
        if not members:
            raise CatalogueError(str(path), "#", "the folder holds no .json file; name a folder of family files")
        for member in members:
            try:
                text = member.read_bytes()
            except OSError as error:
                raise CatalogueError(str(member), "#", f"the file can't be read: {error.strerror}") from error
            yield str(member), text


def _read(text: bytes, file: str) -> Iterator[tuple[tuple[str | int, ...], Family]]:
    document = _parse(text, file)
    members = cast("list[Any]", document) if isinstance(document, list) else [document]
    for i, member in enumerate(members):
        place: tuple[str | int, ...] = (i,) if isinstance(document, list) else ()
        if not isinstance(member, dict):
            raise CatalogueError(file, _pointer(place), "a family is a JSON object; the file holds something else here")
        stated = cast("dict[str, Any]", member).get("format", FORMAT)
        if type(stated) is not int or stated != FORMAT:
            raise CatalogueError(
                file,
                _pointer((*place, "format")),
                f"the format {stated!r} is not known; this version reads format {FORMAT}",
            )
        try:
            yield place, Family.model_validate(member)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            path = (*place, *first["loc"], *first.get("ctx", {}).get("path", ()))
            raise CatalogueError(file, _pointer(path), _reason(first)) from error


def _parse(text: bytes, file: str) -> Any:
    def unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise CatalogueError(file, "#", f"the key {twice!r} is there twice in one object; keep one")
        return found

    def no_constant(word: str) -> Any:
        raise CatalogueError(file, "#", f"{word} is not a JSON number; state a finite number or leave the field out")

    try:
        return json.loads(text.decode("utf-8"), object_pairs_hook=unique, parse_constant=no_constant)
    except UnicodeDecodeError as error:
        raise CatalogueError(file, "#", f"not UTF-8 at byte {error.start}; save the file as UTF-8") from error
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        raise CatalogueError(file, "#", f"not JSON at {place}: {error.msg}; correct the file") from error
    except RecursionError as error:
        raise CatalogueError(file, "#", "nested too deeply to be read; a family needs six levels") from error


def _pointer(path: tuple[str | int, ...]) -> str:
    parts = [str(part).replace("~", "~0").replace("/", "~1") for part in path if part not in BRANCHES]
    return "/".join(("#", *parts))


def _field_texts() -> dict[str, str]:
    models = [m for m in vars(schema).values() if isinstance(m, type) and issubclass(m, BaseModel)]
    return {name: field.description or "" for model in models for name, field in model.model_fields.items()}


_FIELD_TEXTS = _field_texts()


def _reason(error: ErrorDetails) -> str:
    """What is wrong, why, and what to do, from one error of the schema."""
    if error["type"] == "product":
        return error["msg"]
    names = [part for part in error["loc"] if isinstance(part, str) and part not in BRANCHES]
    name = names[-1] if names else ""
    if error["type"] == "extra_forbidden":
        near = difflib.get_close_matches(name, _FIELD_TEXTS, n=1)
        return f"the field {name} is not known; {f'is {near[0]} meant?' if near else 'remove it'}"
    meaning = _FIELD_TEXTS.get(name, "")
    if error["type"] == "missing":
        return f"{name} is required and not there. {meaning}".strip()
    return f"{error['msg']}; it is {json.dumps(error['input'], default=str)[:80]}. {meaning}".strip()
