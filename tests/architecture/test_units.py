"""Units of the records: every unit parses, every formula has the unit it claims, every number says where it is from.

``pint`` is the outside reference. Formulas are read with their units, so a wrong dimension and a foot taken for an
inch fail alike; the hidden unit of a printed coefficient is the one that the field states.
"""

import ast
from pathlib import Path

import pint
import pytest

from architecture.printed_formula import Measure, UnitError, literal_value, measure, parse
from architecture.random_records import record_classes
from hangpoint.core.quantity import Kind, columns

UNITS = pint.UnitRegistry(cache_folder=None)
CLASSES = record_classes()
FIELDS = [(cls, name) for cls in CLASSES for name in columns(cls)]
TESTS = Path(__file__).parents[1]

PROCEDURES = {
    "projected_area": "core/geometry/test_union_area.py::test_groups_against_polygons",
    "cut_circle": "core/geometry/test_circle_area.py::test_circles_against_polygons",
    "cut_half_circle": "core/geometry/test_circle_area.py::test_half_circles_against_polygons",
    "edge_area": "core/geometry/test_edge_area.py::test_rows_of_anchors_against_polygons",
    "largest_spacing": "core/geometry/test_grouping.py::test_chains_against_loops",
    "tension_eccentricity": "core/aci318_19/test_group_tension.py::test_eccentricity_of_a_group",
    "beam_reaction": "published/test_continuous_run.py::test_random_runs_point_loads",
    "slenderness_of_stress": "core/statics/test_rod_in_compression.py::test_the_curve_is_turned_round",
    "tangent": "core/statics/test_brace.py::test_components_against_the_geometry_of_a_brace",
    "bar_moment": "published/test_trapeze.py::test_random_bars",
    "bar_deflection": "published/test_trapeze.py::test_random_bars_deflect",
    "support_sums": "core/statics/test_suspended_equipment.py::test_a_support_that_would_push_is_flagged",
    "any_three": "core/statics/test_suspended_equipment.py::test_random_bodies",
    "sprinkler_rod_diameter": "published/test_rods.py::test_sprinkler_rod_sizes",
    "stress_plane": "published/test_rigid_plate.py::test_random_plates",
    "plate_residual": "core/statics/test_rigid_plate.py::test_what_nothing_holds_is_said",
    "compression_resultant": "published/test_rigid_plate.py::test_lever_arm_and_eccentricity",
    "tension_resultant": "published/test_rigid_plate.py::test_lever_arm_and_eccentricity",
    "tensioned_anchors": "published/test_rigid_plate.py::test_lever_arm_and_eccentricity",
    "resisting_anchors": "core/statics/test_bolt_group_shear.py::test_slots_along_x_move_the_centre",
    "polar_sum": "published/test_bolt_group_shear.py::test_eccentric_shear_of_six_bolts",
    "direction": "core/statics/test_fixture_statics.py::test_directions",
    "farthest_edge": "core/statics/test_fixture_statics.py::test_any_body_about_its_edge",
    "edge_sums": "core/statics/test_fixture_statics.py::test_any_body_about_its_edge",
    "corner_tensions": "api/test_overturning.py::test_no_anchor_is_pulled_more_than_is_told",
    "rounded_up": "core/site/test_proof_load.py::test_counts_by_hand",
    "whole_lengths": "core/take_off/test_rod_pieces.py::test_rods_by_hand",
    "whole_pieces": "core/take_off/test_order.py::test_whole_pieces_against_fractions",
    "cutting_plan": "core/take_off/test_cutting.py::test_small_jobs_against_every_plan",
    "least_bars": "core/take_off/test_cutting.py::test_small_jobs_against_every_plan",
    "row_along": "core/aci318_19/test_groups_against_independent.py::test_every_row_of_every_mode",
    "row_extent": "core/aci318_19/test_groups_against_independent.py::test_every_row_of_every_mode",
    "row_shear": "core/aci318_19/test_groups_against_independent.py::test_every_row_of_every_mode",
    "shear_eccentricity": "core/aci318_19/test_groups_against_independent.py::test_every_row_of_every_mode",
    "shear_resisted": "core/statics/test_bolt_group_shear.py::test_random_groups_against_a_stiffness_solver",
}
"""The closed list of named procedures, each with the test that checks it against something else."""


def unit(text):
    """A unit of a field as base exponents and size."""
    quantity = UNITS.Quantity(1.0, UNITS.parse_units(text)).to_base_units()
    return Measure.of({str(k): float(v) for k, v in quantity.dimensionality.items()}, float(quantity.magnitude))


def claims(found, q):
    """Whether the unit of a formula text, times that of its hidden coefficient, is the unit of its field."""
    return (found or unit("")).__mul__(unit(q.coefficient)).agrees(unit(q.unit))


@pytest.mark.parametrize(("cls", "name"), FIELDS, ids=lambda part: getattr(part, "__name__", part))
def test_unit_parses_and_origin_is_said(cls, name):
    q = columns(cls)[name]
    unit(q.unit)
    unit(q.coefficient)
    assert q.symbol
    assert q.kind in (Kind.GIVEN, Kind.FORMULA, Kind.PROCEDURE)
    if q.kind is Kind.GIVEN:
        assert not q.formula
    else:
        assert q.formula
        assert q.clause, "a computed number names its clause"
    if q.kind is Kind.PROCEDURE:
        assert q.formula in PROCEDURES


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_formulas_have_their_units(cls):
    units = {name: unit(q.unit) for name, q in columns(cls).items()}
    for name, q in columns(cls).items():
        if q.kind is not Kind.FORMULA:
            continue
        found = measure(parse(q.formula), units)
        assert claims(found, q), f"{name}: {q.formula} is {found}, the field {unit(q.unit)}"


def test_a_coefficient_is_hidden_only_where_there_is_a_number():
    """A hidden unit belongs to a printed number or to a coefficient k of a code; a formula of other names has none."""
    for cls, name in FIELDS:
        q = columns(cls)[name]
        if q.coefficient:
            nodes = list(ast.walk(parse(q.formula)))
            numbers = any(isinstance(node, ast.Constant) for node in nodes)
            coefficients = any(isinstance(node, ast.Name) and node.id.startswith("k_") for node in nodes)
            assert numbers or coefficients, f"{name}: {q.formula}"


@pytest.mark.parametrize("procedure", PROCEDURES)
def test_procedure_is_used_and_has_an_oracle(procedure):
    """The oracle is a test function that exists and asserts."""
    assert any(columns(cls)[name].formula == procedure for cls, name in FIELDS)
    file, function = PROCEDURES[procedure].split("::")
    tree = ast.parse((TESTS / file).read_text(encoding="utf-8"))
    found = [node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name == function]
    assert len(found) == 1, PROCEDURES[procedure]
    calls = {ast.unparse(node.func).rsplit(".", 1)[-1] for node in ast.walk(found[0]) if isinstance(node, ast.Call)}
    asserts = any(isinstance(node, ast.Assert) for node in ast.walk(found[0]))
    assert asserts or calls & {"assert_allclose", "assert_array_equal"}


LENGTHS = {"h_ef": unit("in"), "l": unit("ft"), "f_c": unit("psi"), "n": unit("")}


@pytest.mark.parametrize(
    "text", ["h_ef + f_c", "h_ef + l", "h_ef + 1", "h_ef < f_c", "min(h_ef, l)", "where(h_ef, 1, 2)", "h_ef**n", "n**l"]
)
def test_the_check_finds_mixed_units(text):
    with pytest.raises(UnitError):
        measure(parse(text), LENGTHS)


def test_the_check_against_pint():
    """Units of a few texts by pint's own arithmetic; fractional powers and hidden coefficients included."""
    for text, expected in (
        ("16 * sqrt(f_c) * h_ef**(5 / 3)", "psi**0.5 * in**(5/3)"),
        ("h_ef * l / f_c", "in * ft / psi"),
        ("max(h_ef, 3) / h_ef", ""),
        ("where(h_ef < 3, h_ef, 0)**2", "in**2"),
    ):
        assert (measure(parse(text), LENGTHS) or unit("")).agrees(unit(expected)), text
    assert not unit("psi").agrees(unit("ksi"))
    assert literal_value(parse("5 / 3")) == pytest.approx(5 / 3)
    assert literal_value(parse("n / 3")) is None
