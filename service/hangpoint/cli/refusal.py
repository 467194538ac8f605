"""How a command ends that can't do what it is asked: one sentence on the error stream, exit code 2."""

import os
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import typer

if TYPE_CHECKING:
    from hangpoint.api.problems import ProblemError
    from hangpoint.product.catalogue import Catalogue
    from hangpoint.settings import Settings

EXIT_UNUSABLE = 2


def refuse(sentence: str) -> NoReturn:
    """Say why and end."""
    typer.echo(sentence, err=True)
    raise typer.Exit(EXIT_UNUSABLE)


def refuse_ending(file: Path, endings: str) -> NoReturn:
    """End because the ending of a file is none of those that say how it is read."""
    refuse(f"{file}: name a file that ends in {endings}; its ending says how it is read.")


def usable_settings() -> "Settings":
    """Settings of the environment, or the end."""
    from pydantic import ValidationError

    from hangpoint.settings import misspelt, read_settings

    wrong = misspelt(os.environ)
    if wrong:
        refuse("\n".join(f"{name} is no setting; {near} is. Correct or unset it." for name, near in wrong.items()))
    try:
        return read_settings()
    except ValidationError as error:
        said = {"_".join(map(str, each["loc"])): each["msg"].removeprefix("Value error, ") for each in error.errors()}
        refuse("\n".join(f"HANGPOINT_{name.upper()}: {message}." for name, message in said.items()))


def usable_catalogue(path: Path | None) -> "Catalogue":
    """The families of a file or folder, the built-in ones without it, or the end."""
    from hangpoint.core.errors import CatalogueError
    from hangpoint.product.catalogue import load_catalogue

    try:
        return load_catalogue(None if path is None else [path])
    except CatalogueError as error:
        refuse(str(error))


def problem_text(file: Path, problem: "ProblemError") -> str:
    """A problem in words: what, where by line and column or pointer, and what would do."""
    from hangpoint.api.problems import MAX_ERRORS, PROBLEMS
    from hangpoint.report.printable import printable
    from hangpoint.report.reasons import place_of
    from hangpoint.report.terminal import error_text

    lines = [f"{file}: {PROBLEMS[problem.slug].title.lower()}."]
    found = [error.as_json() for error in problem.errors]
    lines += [f"  {place_of(error)}: {error_text(error)}" for error in found[:MAX_ERRORS]]
    if len(found) > MAX_ERRORS:
        lines.append(f"  and {len(found) - MAX_ERRORS} more")
    if not found:
        lines.append(f"  {problem.detail}")
    return "\n".join(printable(line) for line in lines)
