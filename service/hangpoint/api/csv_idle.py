"""Cells of a CSV that have no part in what their row is: a word for nothing in them can mean nothing else."""

from collections.abc import Mapping, Sequence

from hangpoint.api.csv_header import Column

_KIND = "kind"
_IDLE = frozenset({"hangs.insulation.density"})
"""Columns whose field means nothing without another one, which asks for it."""
_OF_BASES = {f"base.{kind}": frozenset({kind}) for kind in ("deck", "hollow_core", "masonry")}
"""Kinds of bases by the objects that they alone have."""


class IdleCells:
    """Which cells of a row have no part in what it is, so that a dash in them says nothing.

    ``kinds_of`` are by the name of an object, as ``hangs``, the kinds that have each of its fields.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        kinds_of: Mapping[str, Mapping[str, frozenset[str]]],
        stated: Mapping[str, str],
    ) -> None:
        self._places = {each.parts[0]: each for each in columns if each.parts[1:] == (_KIND,)}
        self._kinds_of = kinds_of
        self._stated = stated

    def has(self, path: str, cells: Sequence[str]) -> bool:
        """Whether a column is idle in a row: of a kind that the row is not."""
        if path in _IDLE:
            return True
        parent, name = (*path.split("."), "")[:2]
        kinds = _OF_BASES.get(f"{parent}.{name}") or self._kinds_of.get(parent, {}).get(name)
        kind = self._kind(parent, cells)
        return bool(kinds) and kind is not None and kind not in kinds

    def _kind(self, parent: str, cells: Sequence[str]) -> str | None:
        column = self._places.get(parent)
        text = cells[column.place].strip() if column is not None and column.place < len(cells) else ""
        if column is None or not text:
            return self._stated.get(parent)
        return column.cell.word(text)
