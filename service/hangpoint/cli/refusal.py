"""How a command ends that can't do what it is asked: one sentence on the error stream, exit code 2."""

from typing import TYPE_CHECKING, NoReturn

import typer

if TYPE_CHECKING:
    from hangpoint.settings import Settings

EXIT_UNUSABLE = 2


def refuse(sentence: str) -> NoReturn:
    """Say why and end."""
    typer.echo(sentence, err=True)
    raise typer.Exit(EXIT_UNUSABLE)


def usable_settings() -> "Settings":
    """Settings of the environment, or the end."""
    from pydantic import ValidationError

    from hangpoint.settings import read_settings

    try:
        return read_settings()
    except ValidationError as error:
        lines = [f"HANGPOINT_{'_'.join(map(str, each['loc'])).upper()}: {each['msg']}." for each in error.errors()]
        refuse("\n".join(lines))
