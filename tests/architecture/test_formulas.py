"""What is printed is what is computed: every formula text of every record over the record's own fields.

Not a check of any number against the outside: it ties the explanation to the computation.
"""

from typing import Annotated, ClassVar

import numpy as np
import pytest

from architecture.printed_formula import GrammarError, Sides, evaluate
from architecture.random_records import GENERATORS, ROWS, Columns, record_classes
from hangpoint.core.quantity import Axis, Bools, Floats, Kind, Record, columns, formula, given, record

CLASSES = record_classes()


def fields_of(made):
    return {name: getattr(made, name) for name in columns(type(made))}


def printed_rows(made, q):
    """Rows on which a line is printed."""
    return np.asarray(getattr(made, q.when)) if q.when else np.ones(len(next(iter(fields_of(made).values()))), bool)


def faults(made):
    """What is wrong with the formulas of a record: texts that differ from their column, sides never taken."""
    found, values = [], fields_of(made)
    for name, q in columns(type(made)).items():
        rows = printed_rows(made, q)
        if q.when and (rows.dtype != np.bool_ or rows.all() or not rows.any()):
            found.append(f"{name}: when {q.when} has one side only")
        if q.kind is not Kind.FORMULA:
            continue
        sides = Sides()
        result = np.broadcast_to(evaluate(q.formula, values, rows, sides), values[name].shape)
        column = values[name]
        exact = column.dtype == np.bool_
        differs = column != result if exact else ~np.isclose(column, result, rtol=1e-12, atol=0.0)
        differs = differs.reshape(len(rows), -1).any(axis=1) & rows
        if differs.any():
            found.append(f"{name}: {q.formula} differs on {int(differs.sum())} rows")
        found += [f"{name}: one side of {text} only: {sides.taken[text]}" for text in sides.one_sided()]
    return found


def test_every_record_has_a_generator():
    assert set(CLASSES) == set(GENERATORS)


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_printed_formula_equals_column(cls):
    """Each text over the record's own columns to 1e-12, where the line is printed; both sides of every branch."""
    assert ROWS >= 500
    made = GENERATORS[cls](Columns())
    assert type(made) is cls
    assert {len(values) for values in fields_of(made).values()} == {ROWS}
    for values in fields_of(made).values():
        if values.dtype == np.bool_:
            assert values.any()
            assert not values.all()
    assert faults(made) == []


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_names_in_formulas_come_before_their_use(cls):
    """The order is that of a hand calculation: a formula reads only lines above it."""
    seen = set()
    for name, q in columns(cls).items():
        if q.kind is Kind.FORMULA:
            above = {
                other: np.ones((4, 4)) if q.axis in (Axis.EDGE, Axis.NATURE, Axis.MODEL) else np.ones(4)
                for other, q in _above(cls, seen)
            }
            try:
                evaluate(q.formula, _typed(cls, above), np.ones(4, bool))
            except GrammarError as error:
                pytest.fail(f"{name}: {error}")
        assert not q.when or q.when in seen, f"{name} is printed when {q.when}, which comes later"
        seen.add(name)


def _above(cls, seen):
    return [(name, q) for name, q in columns(cls).items() if name in seen]


def _typed(cls, above):
    """Ones as booleans where the record has booleans."""
    sample = GENERATORS[cls](Columns())
    return {name: values.astype(getattr(sample, name).dtype) for name, values in above.items()}


@record
class _Wrong(Record):
    """An area printed wrongly, and a branch whose other side no row takes."""

    TITLE: ClassVar[str] = "wrong on purpose"
    AXIS: ClassVar[Axis] = Axis.CASE

    d: Annotated[Floats, given("d", "in")]
    always: Annotated[Bools, given("always")]
    area: Annotated[Floats, formula("A", "in**2", "pi / 4 * d**2 * 1.0000000001", clause="none")]
    branch: Annotated[Floats, formula("b", "in", "where(always, d, 0)", clause="none")]
    lesser: Annotated[Floats, formula("m", "in", "min(d, 1000)", clause="none", when="always")]


def test_the_check_finds_a_wrong_text_and_a_one_sided_branch():
    d = np.linspace(1.0, 2.0, 7)
    wrong = _Wrong(d=d, always=np.ones(7, bool), area=np.pi / 4 * d**2, branch=d.copy(), lesser=d.copy())
    found = faults(wrong)
    assert [line.split(":")[0] for line in found] == ["area", "branch", "lesser", "lesser"]


@pytest.mark.parametrize(
    "text",
    [
        "d.real",
        "d[0]",
        "abs(d)",
        "d if d > 1 else 2",
        "d and d",
        "1 < d < 2",
        "unknown * 2",
        "max(d)",
        "where(d, 1, 2)",
        "d // 2",
        "sqrt(d, d)",
        "True",
        "'d'",
    ],
)
def test_the_grammar_is_closed(text):
    with pytest.raises(GrammarError):
        evaluate(text, {"d": np.ones(3)}, np.ones(3, bool))


def test_the_reader_against_python():
    """Values of a few texts by hand: precedence, a trailing axis against a column, nested branches."""
    columns_ = {"h": np.array([2.0, 4.0]), "c": np.array([[1.0, 2.0, 3.0, np.inf], [9.0, 1.0, 1.0, 1.0]])}
    for text, expected in (
        ("-h**2 + 3 * h / 2", [-1.0, -10.0]),
        ("count(c < 1.5 * h)", [2.0, 3.0]),
        ("max(where(c < 1.5 * h, c, 0))", [2.0, 1.0]),
        ("min(c) + sum(where(c > 5, 0, c))", [7.0, 4.0]),
        ("where(h == 2, where(h > 3, 1, 2), 3)", [2.0, 3.0]),
        ("min(3, max(1, h)) * sqrt(h * h)", [4.0, 12.0]),
    ):
        np.testing.assert_array_equal(evaluate(text, columns_, np.ones(2, bool)), expected)
