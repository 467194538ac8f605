"""Spacing rules of lines, by name. Figures: MSS SP-58 and the plumbing codes as `core.hanger.spacing` cites them.

Steel of 4 in: 14 ft filled with water (SP-58), 12 ft (plumbing code); copper of 2 in: 10 ft (plumbing code). Sprinkler
pipe of 1-1/4 in reaches at most 48 in past its last hanger (NFPA 13, from memory); conduit is fastened within 3 ft of
an end (National Electrical Code, 358.30(A), 352.30(A)).
"""

import numpy as np
import pytest

from hangpoint.core.hanger.spacing import RULE_NAMES
from pack.hanger_items.builders import (
    CONDUIT,
    DUCT,
    EQUIPMENT,
    PIPE,
    RISER,
    RUN,
    STATED,
    TRAPEZE,
    TRAY,
    close,
    columns,
    pack,
    packed_with_flaws,
    run_of,
    trapeze_of,
    unchecked,
)

COPPER = PIPE | {"material": "copper", "size": "2", "schedule": "L"}


def ruled(line, *rules):
    return run_of(line, run=RUN["run"] | {"spacing_rules": list(rules)})


def names(spacings):
    return [RULE_NAMES[code] if code >= 0 else None for code in spacings.rule.tolist()]


def test_the_strictest_of_the_named_rules():
    items = [
        run_of(PIPE),
        ruled(PIPE, "sp58_water", "plumbing_code"),
        EQUIPMENT,
        ruled(COPPER, "plumbing_code"),
        ruled(COPPER, "plumbing_code", "b31_1_water"),
        ruled(STATED, "plumbing_code"),
    ]
    spacings = columns(*items).spacings
    assert spacings.line.tolist() == [1, 2, 3, 4]
    close(spacings.limit[:3], 12, 10, 10)
    assert spacings.limit[3] == np.inf
    assert names(spacings) == ["plumbing_code", "plumbing_code", "plumbing_code", None]
    assert spacings.covered.tolist() == [True, True, True, False]


def test_rules_of_a_trapeze_hold_for_each_of_its_lines():
    run = {"spacing": 9, "spacing_rules": ["plumbing_code", "tray_class_span"]}
    spacings = columns(trapeze_of(PIPE), trapeze_of(COPPER, TRAY, PIPE, run=run)).spacings
    assert spacings.line.tolist() == [1, 2, 3]
    close(spacings.limit, 10, 12, 12)
    assert spacings.covered.tolist() == [True, True, True]


@pytest.mark.parametrize(
    ("line", "rule", "limit"),
    [
        (CONDUIT, "electrical_code", 10),
        (CONDUIT | {"type": "rmc"}, "electrical_code_threaded", 16),
        (CONDUIT | {"type": "imc"}, "electrical_code", 10),
        (CONDUIT | {"type": "pvc40"}, "electrical_code", 5),
        (CONDUIT | {"type": "pvc80"}, "electrical_code", 5),
        (TRAY | {"load_class": "16C"}, "tray_class_span", 16),
        (DUCT, "duct_dwelling", 10),
        (DUCT | {"shape": "flat_oval"}, "duct_dwelling", 10),
        ({"kind": "duct", "shape": "round", "diameter": 12, "thickness": 0.03}, "duct_round", 12),
    ],
)
def test_each_kind_of_line(line, rule, limit):
    spacings = columns(ruled(line, rule)).spacings
    close(spacings.limit, limit)
    assert names(spacings) == [rule]
    assert spacings.covered.all()


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        ({"kind": "tray", "self_weight": 4, "cables": [1]}, "tray_class_span"),
        (DUCT, "duct_round"),
        ({key: value for key, value in PIPE.items() if key != "schedule"} | {"wall": 0.237}, "sp58_water"),
    ],
)
def test_a_rule_without_a_value(line, rule):
    spacings = columns(ruled(line, rule)).spacings
    assert (spacings.limit.tolist(), spacings.rule.tolist(), spacings.covered.tolist()) == ([np.inf], [-1], [False])


def test_a_rule_without_a_value_beside_one_that_has_it():
    """The sprinkler standard begins at 1 in for steel; a rule for copper or trays is not for the line at all.

    SP-58 is for standard wall. A rule that lacks a value alone is not covered, which is said otherwise.
    """
    thin = PIPE | {"schedule": "10"}
    items = [
        ruled(PIPE | {"size": "3/4"}, "sprinkler_standard", "plumbing_code"),
        ruled(thin, "plumbing_code", "sp58_water", "tray_class_span", "sp58_copper_water"),
        ruled(PIPE, "plumbing_code", "sp58_water"),
        ruled(thin, "sp58_water"),
    ]
    spacings = columns(*items).spacings
    found = [[RULE_NAMES[code] for code in np.flatnonzero(row)] for row in spacings.lacking]
    assert found == [["sprinkler_standard"], ["sp58_water"], [], []]
    assert spacings.covered.tolist() == [True, True, True, False]


def test_a_rule_for_vapour_is_told_where_it_has_a_value():
    items = [ruled(PIPE, "sp58_vapour", "b31_1_gas"), ruled(PIPE, "sp58_water"), ruled(COPPER, "b31_1_gas")]
    assert columns(*items).spacings.vapour.tolist() == [True, False, False]


@pytest.mark.parametrize(
    ("line", "limit"),
    [
        (PIPE | {"size": "1-1/4", "sprinkler": True}, 4),
        (PIPE | {"size": "4", "sprinkler": True}, 5),
        (PIPE | {"size": "1-1/4"}, np.inf),
        (COPPER | {"sprinkler": True}, np.inf),
        (CONDUIT, 3),
        (CONDUIT | {"type": "pvc40"}, 3),
        (DUCT, np.inf),
    ],
)
def test_the_end_of_a_line(line, limit):
    assert columns(ruled(line, "mechanical_code")).spacings.end_limit.tolist() == [limit]


def test_spacing_is_left_unchecked_without_a_rule():
    items = [RUN, ruled(PIPE, "sp58_water"), RISER, TRAPEZE, trapeze_of(), EQUIPMENT]
    assert ["hanger-spacing" in each for each in unchecked(*items)] == [True, False, True, True, False, False]


def test_every_rule_is_listed_for_lines_that_lie():
    spacings = pack(RUN, RISER, run_of(STATED), trapeze_of(TRAY)).lines.spacings
    assert (spacings[0]["sp58_water"], spacings[0]["plumbing_code"]) == (14, 12)
    assert [dict(each) for each in spacings[1:]] == [{}, {}, {"tray_class_span": 12}]


@pytest.mark.parametrize("line", [PIPE | {"size": "any text", "sprinkler": True}, CONDUIT | {"size": "any text"}])
def test_a_size_that_is_none_is_a_flaw_of_the_line_alone(line):
    _, flaws = packed_with_flaws(ruled(line, "sp58_water"))
    assert [flaw.path for flaw in flaws[0]] == ["line/size"]
