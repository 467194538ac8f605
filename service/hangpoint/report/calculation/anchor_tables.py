"""Sections that the anchors of a layout have one each, as one: the formulas once and the numbers in a table."""

import ast
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from hangpoint.report.calculation.sections import Line, Section, anchors_text


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorTable:
    """Sections of one record and load case, one an anchor, with the same formulas.

    ``about`` says which load case and which anchors they are of. ``common`` are the given lines that are the same for
    all of them, ``made`` the lines that are computed, ``columns`` the names of the lines that stand in the table.
    """

    sections: Sequence[Section]
    about: Sequence[str]
    common: Sequence[Line]
    made: Sequence[Line]
    columns: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unloaded:
    """Sections of one record and load case of whose loads there is none; ``text`` says it."""

    sections: Sequence[Section]
    text: str


_NO_SHEAR, _NO_PULL = "No shear acts.", "Neither tension nor a moment acts."
_OF_LOADS: Mapping[str, tuple[str, str]] = {
    "AnchorDemand": ("tension at the point", "No tension acts."),
    "AnchorShear": ("shear at the point", _NO_SHEAR),
    "BoltGroupShear": ("shear", _NO_SHEAR),
    "BoltShear": ("shear", _NO_SHEAR),
    "PlateBalance": ("pull", _NO_PULL),
    "PlateAnchor": ("pull", _NO_PULL),
    "SustainedPlateBalance": ("sustained", _NO_PULL),
    "SustainedPlateAnchor": ("sustained", _NO_PULL),
}
"""Records of a load: what of it, and what is said where it is nothing."""


def with_tables(sections: Sequence[Section]) -> Iterator[Section | AnchorTable | Unloaded]:
    """The sections, those that anchors have one each in tables, and in one line what isn't loaded."""
    acting = {_load(own) for own in sections if not own.is_unloaded}
    for ((record, _), of_anchors, _), alike in groupby(
        sections, key=lambda own: (own.kind, own.anchor is not None, _forms(own))
    ):
        own = list(alike)
        if record in _OF_LOADS and _load(own[0]) not in acting:
            yield Unloaded(sections=own, text=_OF_LOADS[record][1])
        elif of_anchors and len(own) > 1:
            yield _table(own)
        else:
            yield from own


def _load(section: Section) -> tuple[str, str]:
    """What of the load a section is of, and its load case; of any other record that itself."""
    record, case = section.kind
    return _OF_LOADS.get(record, (record,))[0], case


def _forms(section: Section) -> tuple[object, ...]:
    """What the sections of a table have in common: their lines, and the formulas with the branches taken."""
    return tuple([(line.name, line.left_out, line.how, _form(line)) for line in section.lines])


def _form(line: Line) -> object:
    if line.taken is None:
        return None
    because = tuple([(ast.dump(condition), held) for condition, held in line.taken.because])
    return ast.dump(line.taken.tree), because


def _table(sections: Sequence[Section]) -> AnchorTable:
    places = [place for place, line in enumerate(sections[0].lines) if not line.left_out]
    first = sections[0].lines
    same = {place for place in places if all(own.lines[place].value == first[place].value for own in sections)}
    return AnchorTable(
        sections=sections,
        about=[*sections[0].about[:-1], *anchors_text([own.anchor or 0 for own in sections], (), lone=False)],
        common=[first[place] for place in places if first[place].is_given and place in same],
        made=[first[place] for place in places if not first[place].is_given],
        columns=[first[place].name for place in places if not (first[place].is_given and place in same)],
    )
