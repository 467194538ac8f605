"""The project of a file that has no place for it, out of a query or the options of a command."""

from collections.abc import Mapping

from pydantic import ValidationError

from hangpoint.api.body_errors import adapter_of, field_errors
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.schemas.project import Project


def read_project(stated: Mapping[str, str], place: str) -> Project | None:
    """A project by the names of its members; None where nothing is stated.

    Args:
        stated: texts by name.
        place: what stands before a name where it was stated, as ``?project.``.

    Raises:
        ProblemError: a name or a text that a project can't have.
    """
    if not stated:
        return None
    try:
        return adapter_of(Project).validate_python(dict(stated))
    except ValidationError as error:
        errors = [
            FieldError(
                pointer=place + each.pointer.removeprefix("#/")[:64],
                code=each.code,
                detail=each.detail,
                allowed=each.allowed,
            )
            for each in field_errors(Project, error)
        ]
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors) from None
