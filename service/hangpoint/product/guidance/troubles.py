"""Troubles on site: symptom, likely causes, how to tell, remedy, and whether the anchor may stay.

The list is a data file of this project, checked by its schema when it is read. All of it is common practice without a
source, and says so; the engineer of record and the product's instructions stand above it.
"""

from functools import cache
from importlib.resources import files
from typing import Annotated, Literal

from pydantic import Field

from hangpoint.product.family import Principle
from hangpoint.product.fields import Model, Sentence, about


class Trouble(Model):
    """One trouble. Without ``principles`` it concerns every anchor."""

    id: Annotated[str, Field(pattern=r"^[a-z0-9-]{1,40}$", description="Word of the trouble, never reused.")]
    principles: Annotated[tuple[Principle, ...], Field(strict=False, description="How the anchors hold; none: all.")]
    symptom: Annotated[Sentence, about("What is seen.")]
    causes: Annotated[tuple[Sentence, ...], Field(strict=False, min_length=1, description="Likely causes.")]
    how_to_tell: Annotated[
        tuple[Sentence, ...], Field(strict=False, min_length=1, description="What tells them apart.")
    ]
    remedy: Annotated[tuple[Sentence, ...], Field(strict=False, min_length=1, description="What is done.")]
    may_stay: Annotated[Sentence, about("Whether the anchor may stay.")]
    ask_engineer: Annotated[Sentence, about("When the engineer is asked.")]


class TroubleList(Model):
    """The file."""

    format: Annotated[Literal[1], about("Format of the file: 1.")]
    source: Annotated[Sentence, about("Where the list comes from.")]
    rules: Annotated[
        tuple[Sentence, ...], Field(strict=False, min_length=1, description="What holds for every trouble.")
    ]
    troubles: Annotated[tuple[Trouble, ...], Field(strict=False, min_length=1, description="Each id once.")]


@cache
def trouble_list() -> TroubleList:
    """The list, read once."""
    return TroubleList.model_validate_json(files("hangpoint.product.guidance").joinpath("troubles.json").read_bytes())
