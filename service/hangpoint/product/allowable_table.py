"""Tables of allowable service loads in a family: common practice and evaluation by tests, not ACI 318 chapter 17.

Documents: allowable = mean ultimate / safety factor, 4 in concrete (common practice; a state specification asks for 1/4
of the ultimate), 5 in masonry (CMHA TEK 12-03C: 20 % of the average tested strength). A table holds where it was
tested: base, units, place in the unit, strength, and distances to edges, other anchors, joints and strands.
"""

from collections.abc import Iterator, Mapping
from typing import Annotated, Literal

from pydantic import Field

from hangpoint.product.fields import Model, about, force, length, stress, words
from hangpoint.product.principles import Flaw

Base = Literal["concrete", "deck", "masonry", "hollow_core"]
MasonryUnits = Literal["hollow", "grouted", "solid"]
MasonryMaterial = Literal["concrete", "clay"]
Location = Literal["face", "cell", "web", "joint", "core"]

LOCATIONS: Mapping[str, frozenset[str]] = {
    "masonry": frozenset({"face", "cell", "web", "joint"}),
    "hollow_core": frozenset({"core", "web"}),
}
"""Places in a unit of masonry and in a hollow-core plank that a table may have been tested in."""

_IDENTITY = 0.01
"""Rounding of printed tables: mean ultimate / safety factor against the allowable."""


class Distance(Model):
    """How an allowable load depends on a distance: linear from ``factor`` at ``least`` to 1 at ``full``."""

    least: Annotated[float, length("Least distance of the tests; nearer is not allowed.")]
    full: Annotated[float | None, length("Distance from which the whole load is allowed; absent: the least.")] = None
    factor: Annotated[float, Field(gt=0, le=1, description="Share of the load at the least distance.")] = 1.0


class AllowableRow(Model):
    """One allowable load."""

    size: Annotated[str, Field(max_length=16, description="A size of this family.")]
    h_ef: Annotated[float, length("An embedment of that size.")]
    mean_ultimate: Annotated[float, force("Mean ultimate load of the tests.")]
    allowable: Annotated[float, force("Allowable service load: mean ultimate / safety factor, rounded to 1 % at most.")]
    edge: Annotated[Distance | None, about("Edge distance; required but in a deck.")] = None
    spacing: Annotated[Distance | None, about("Spacing of anchors; required but in a deck.")] = None


class AllowableTable(Model):
    """Allowable service loads of the family in one base and direction; common practice, not chapter 17."""

    title: Annotated[str, words("What the table is.")]
    direction: Annotated[Literal["tension", "shear"], about("Direction of the load.")]
    base: Annotated[Base, about("Base material of the tests.")]
    masonry: Annotated[
        MasonryUnits | None,
        about("Units of the tests: hollow, grouted or solid. Required for a base of masonry, and only there."),
    ] = None
    material: Annotated[
        MasonryMaterial | None,
        about("Material of the units: concrete or clay (brick). Required for a base of masonry, and only there."),
    ] = None
    locations: Annotated[
        tuple[Location, ...],
        Field(
            strict=False,
            max_length=5,
            description="Where the tests stood. Masonry: face, cell, web, joint. Hollow core: core, web. Required"
            " there, and only there; a place that isn't named isn't covered.",
        ),
    ] = ()
    lightweight: Annotated[bool, about("The tests hold for lightweight concrete.")] = False
    state: Annotated[Literal["cracked", "uncracked"], about("State of the base in the tests.")]
    f_c: Annotated[float, stress("Strength of the base in the tests, of masonry f'm. Never scaled above it.")]
    strength_exponent: Annotated[
        float | None,
        Field(ge=0, le=1, description="n of (strength / f_c)^n below f_c; absent: no weaker base is covered."),
    ] = None
    least_strength: Annotated[
        float | None, stress("Weakest base that the exponent reaches; required with it, and only then.")
    ] = None
    safety_factor: Annotated[float, Field(ge=1, le=20, description="Mean ultimate load divided by the allowable.")]
    one_a_cell: Annotated[bool, about("One anchor a cell of a unit: the least spacing is the width of a cell.")] = False
    least_thickness: Annotated[
        float | None, length("Least thickness of the member; absent: that of the embedment (h_min).")
    ] = None
    least_face_shell: Annotated[float | None, length("Least thickness of the face shell of a hollow unit.")] = None
    least_joint: Annotated[float | None, length("Least distance from a joint of masonry.")] = None
    least_cover: Annotated[float | None, length("Least concrete below or beside the core of a plank.")] = None
    least_strand: Annotated[float | None, length("Least distance from a strand of a plank.")] = None
    interaction: Annotated[
        Literal["linear", "power_5_3"], about("Tension and shear together: sum of the ratios, or powers of 5/3.")
    ] = "linear"
    rows: Annotated[
        tuple[AllowableRow, ...],
        Field(strict=False, min_length=1, max_length=400, description="One row a size and embedment."),
    ]


def table_flaws(table: AllowableTable) -> Iterator[Flaw]:
    """What a table misses or contradicts by itself."""
    yield from _place_flaws(table)
    yield from _distance_flaws(table)
    if (table.strength_exponent is None) != (table.least_strength is None):
        lacking = "least_strength" if table.least_strength is None else "strength_exponent"
        yield Flaw((lacking,), "an exponent and the weakest base that it reaches go together; state both or none")
    if table.least_strength is not None and table.least_strength > table.f_c:
        yield Flaw(("least_strength",), f"the weakest base exceeds the {table.f_c:g} of the tests; check both")
    for at, row in enumerate(table.rows):
        by_tests = row.mean_ultimate / table.safety_factor
        if abs(row.allowable - by_tests) > _IDENTITY * by_tests:
            yield Flaw(
                ("rows", at, "allowable"),
                f"the allowable {row.allowable:g} is not the mean ultimate {row.mean_ultimate:g} divided by the safety"
                f" factor {table.safety_factor:g}, {by_tests:g}; correct one",
            )


def _place_flaws(table: AllowableTable) -> Iterator[Flaw]:
    masonry = table.base == "masonry"
    if masonry != (table.masonry is not None):
        yield Flaw(
            ("masonry",),
            "a table in masonry says whether its units are hollow, grouted or solid, and no other table does",
        )
    if masonry != (table.material is not None):
        yield Flaw(
            ("material",), "a table in masonry says whether its units are of concrete or clay, and no other table does"
        )
    known = LOCATIONS.get(table.base, frozenset())
    if bool(known) != bool(table.locations) or not known >= set(table.locations):
        advice = f"of {', '.join(sorted(known))} at least one" if known else "none"
        yield Flaw(("locations",), f"a table with the base {table.base} names as places of its tests {advice}")
    for name, base in (
        ("least_joint", "masonry"),
        ("least_face_shell", "masonry"),
        ("least_cover", "hollow_core"),
        ("least_strand", "hollow_core"),
    ):
        if getattr(table, name) is not None and table.base != base:
            yield Flaw((name,), f"{name} goes with the base {base}, not with {table.base}; remove it")
    if table.one_a_cell and not masonry:
        yield Flaw(("one_a_cell",), f"cells are those of masonry, not of {table.base}; remove it")


def _distance_flaws(table: AllowableTable) -> Iterator[Flaw]:
    for at, row in enumerate(table.rows):
        for name in ("edge", "spacing"):
            place, distance = ("rows", at, name), getattr(row, name)
            if distance is None:
                if table.base != "deck":
                    yield Flaw(place, f"the row needs its {name}: the least distance that its tests cover")
                continue
            full = distance.least if distance.full is None else distance.full
            if full < distance.least:
                yield Flaw((*place, "full"), f"the distance for the whole load is below the least {distance.least:g}")
            elif (full == distance.least) != (distance.factor == 1):
                reason = "a factor below 1 at the least distance and a greater distance for the whole load go together"
                yield Flaw((*place, "factor"), reason)
