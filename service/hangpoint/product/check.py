"""Every defect of family files, for whoever writes a catalogue of their own. Nothing is loaded."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from hangpoint.core.errors import CatalogueError
from hangpoint.product.files import family_defects, family_documents, family_files, twice


class Defect(NamedTuple):
    """What is wrong: the file, the place in it as JSON pointer, and what, why and what to do in words."""

    file: str
    pointer: str
    reason: str


def defects(paths: Iterable[Path]) -> list[Defect]:
    """Everything that is wrong with the files and folders of a catalogue; an empty list where it can be used.

    Rules between the fields of a family are judged once its fields are right by themselves. A file that can't be read
    as families is told by its first defect, and the others are judged without it.
    """
    known: set[str] = set()
    found = [Defect(error.file, error.path, error.reason) for path in paths for error in _of_path(path, known)]
    if not found and not known:
        return [Defect("catalogue", "#", "no family was found; name one file at least")]
    return found


def _of_path(path: Path, known: set[str]) -> Iterator[CatalogueError]:
    try:
        for file, text in family_files([path]):
            yield from _of_file(file, text, known)
    except CatalogueError as error:
        yield error


def _of_file(file: str, text: bytes, known: set[str]) -> Iterator[CatalogueError]:
    try:
        for place, member in family_documents(text, file):
            yield from family_defects(member, file, place)
            id_ = member.get("id")
            if isinstance(id_, str):
                if id_ in known:
                    yield twice(file, place, id_)
                known.add(id_)
    except CatalogueError as error:
        yield error
