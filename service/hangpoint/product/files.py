"""Family files: reading them, and what is wrong with them, with the place as JSON pointer.

A file holds one family or a list of families. Its schema is `family`, its rules are `consistency`.
"""

import difflib
import json
from collections.abc import Iterable, Iterator, Sequence
from importlib import resources
from pathlib import Path
from typing import Any, cast

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from hangpoint.core.errors import CatalogueError
from hangpoint.product import embedment as row_schema
from hangpoint.product import family as family_schema
from hangpoint.product.consistency import family_flaws
from hangpoint.product.family import BRANCHES, FORMAT, Family, FamilyData

Place = tuple[str | int, ...]
"""Keys and indices from the top of a document."""


def built_in_files() -> Iterator[tuple[str, bytes]]:
    """Name and content of every file of the built-in catalogue."""
    folder = resources.files("hangpoint.product").joinpath("data")
    for entry in sorted(folder.iterdir(), key=lambda each: each.name):
        if entry.name.endswith(".json"):
            yield entry.name, entry.read_bytes()


def family_files(paths: Iterable[Path]) -> Iterator[tuple[str, bytes]]:
    """Name and content of every file, folders by their ``*.json``.

    Raises:
        CatalogueError: a path that is not there, a folder without files, a file that can't be read.
    """
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


def family_documents(text: bytes, file: str) -> Iterator[tuple[Place, dict[str, Any]]]:
    """The families of a file as they stand there, unchecked but for their format, each with its place.

    Raises:
        CatalogueError: the file is no JSON, holds something else than families, or a family of another format.
    """
    document = _parse(text, file)
    members = cast("list[Any]", document) if isinstance(document, list) else [document]
    for i, member in enumerate(members):
        place: Place = (i,) if isinstance(document, list) else ()
        if not isinstance(member, dict):
            raise CatalogueError(file, pointer(place), "a family is a JSON object; the file holds something else here")
        found = cast("dict[str, Any]", member)
        stated = found.get("format", FORMAT)
        if type(stated) is not int or stated != FORMAT:
            raise CatalogueError(
                file,
                pointer((*place, "format")),
                f"the format {stated!r} is not known; this version reads format {FORMAT}",
            )
        yield place, found


def read_family(member: dict[str, Any], file: str, place: Place) -> Family:
    """A family from what stands in a file.

    Raises:
        CatalogueError: its first flaw.
    """
    try:
        return Family.model_validate(member)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        path = (*place, *first["loc"], *first.get("ctx", {}).get("path", ()))
        raise CatalogueError(file, pointer(path), _reason(first)) from error


def family_defects(member: dict[str, Any], file: str, place: Place) -> Iterator[CatalogueError]:
    """Every flaw of a family: those of its fields, or where these are right, those between its fields."""
    try:
        family = FamilyData.model_validate(member)
    except ValidationError as error:
        found = error.errors(include_url=False)
        for each in found:
            if not _is_echo(each, found):
                yield CatalogueError(file, pointer((*place, *each["loc"])), _reason(each))
        return
    for flaw in family_flaws(family):
        yield CatalogueError(file, pointer((*place, *flaw.path)), flaw.reason)


def _is_echo(error: ErrorDetails, found: Sequence[ErrorDetails]) -> bool:
    """Whether a list is too short only because entries of it that are wrong were left out."""
    place = error["loc"]
    inside = (each["loc"] for each in found if len(each["loc"]) > len(place))
    return error["type"] == "too_short" and any(loc[: len(place)] == place for loc in inside)


def twice(file: str, place: Place, id_: str) -> CatalogueError:
    """The error of an id that is there already."""
    return CatalogueError(file, pointer((*place, "id")), f"the id {id_} is there twice in the catalogue; keep one")


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


def pointer(path: Place) -> str:
    """The place as JSON pointer."""
    parts = [str(part).replace("~", "~0").replace("/", "~1") for part in path if part not in BRANCHES]
    return "/".join(("#", *parts))


def _field_texts() -> dict[str, str]:
    named = (*vars(family_schema).values(), *vars(row_schema).values())
    models = [m for m in named if isinstance(m, type) and issubclass(m, BaseModel)]
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
