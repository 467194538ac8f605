"""Frozen dataclasses that are quick to make: those that a request makes by the hundred."""

from dataclasses import dataclass
from typing import TypeVar, dataclass_transform

_T = TypeVar("_T")


@dataclass_transform(kw_only_default=True, frozen_default=True, eq_default=False)
def frozen(cls: type[_T]) -> type[_T]:
    """Make a class a keyword-only dataclass compared by identity, frozen for the type checker, which sees every caller.

    At run time a field can be set: `dataclass` sets those of a frozen one by a call each, which costs a record of forty
    fields more than its calculation does.
    """
    return dataclass(kw_only=True, eq=False)(cls)
