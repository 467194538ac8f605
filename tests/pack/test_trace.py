"""The lines of a record in a trace are its columns at one row, read field by field; the JSON is the json module's."""

import json
import math
from typing import Annotated, ClassVar

import numpy as np
import orjson
import pytest

from architecture.random_records import GENERATORS, Columns
from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Record, columns, given, record
from hangpoint.pack.trace import record_section

TRAILING = {Axis.EDGE: EDGES, Axis.NATURE: TRANSIENT, Axis.MODEL: BY_MODEL}


def lines_of(made, row):
    return json.loads(orjson.dumps(record_section(made, row)))["lines"]


def read(value, q):
    if np.ndim(value):
        return {name: read(each, q) for name, each in zip(TRAILING[q.axis], value, strict=True)}
    return q.infinite if isinstance(value, float) and math.isinf(value) else value.item()


def has_text(value, q):
    return bool(np.all(np.isfinite(value) | ((value == math.inf) & (q.infinite != ""))))


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_lines_are_the_fields_that_hold(cls):
    made = GENERATORS[cls](Columns())
    for row in range(40):
        held = {name: q for name, q in columns(cls).items() if not q.when or getattr(made, q.when)[row]}
        if not all(has_text(getattr(made, name)[row], q) for name, q in held.items()):
            with pytest.raises(NonFiniteError):
                record_section(made, row)
            continue
        lines = {line["name"]: line for line in lines_of(made, row)}
        assert list(lines) == list(held)
        for name, q in held.items():
            value = getattr(made, name)[row]
            assert lines[name].get("when", "") == q.when
            if q.labels:
                assert (lines[name]["value"], lines[name]["code"]) == (q.labels[value], value)
            else:
                assert lines[name]["value"] == read(value, q)


@record
class _Sample(Record):
    TITLE: ClassVar[str] = "100 %"
    AXIS: ClassVar[Axis] = Axis.CASE

    near: Annotated[Bools, given("near 50 %")]
    edge: Annotated[Floats, given("c_a", "in", axis=Axis.EDGE, infinite="none")]
    least: Annotated[Floats, given("c_a,min", "in", when="near")]
    by: Annotated[Codes, given("by", labels=("null", "50 %, [two]"))]


def sample(*, near=True, edge=1.0, least=1.0):
    return _Sample(
        near=np.array([near]), edge=np.full((1, 4), edge), least=np.array([least]), by=np.array([1], dtype=np.int8)
    )


def test_infinity_has_its_word_and_signs_of_the_template_stay():
    near, edge, least, by = lines_of(sample(edge=math.inf), 0)
    assert (near["symbol"], near["value"]) == ("near 50 %", True)
    assert edge["value"] == dict.fromkeys(EDGES, "none")
    assert least["value"] == 1.0
    assert (by["value"], by["code"]) == ("50 %, [two]", 1)


@pytest.mark.parametrize("wrong", [{"edge": math.nan}, {"edge": -math.inf}, {"least": math.inf}, {"least": math.nan}])
def test_a_number_that_is_not_finite_does_not_leave(wrong):
    with pytest.raises(NonFiniteError):
        record_section(sample(**wrong), 0)


def test_what_does_not_hold_is_not_looked_at():
    assert [line["name"] for line in lines_of(sample(near=False, least=math.nan), 0)] == ["near", "edge", "by"]
