"""Every number of the loads on hangers against a scalar script that shares no formula with it."""

from itertools import groupby

import numpy as np
import pytest

from core.hanger.independent_loads import findings_of, loads_of
from core.hanger.item_columns import NATURES, items_of
from core.hanger.random_items import random_items
from hangpoint.core.hanger.hanger_cases import LIVE
from hangpoint.core.hanger.hangers import hanger_loads
from hangpoint.core.loads.combinations import ALLOWABLE_CASES, CASES
from hangpoint.core.statics.trapeze_bar import TrapezeBar
from hangpoint.core.vocabulary import LoadFinding

EDITIONS = ("asce7_16", "asce7_22")
COUNT = 700


@pytest.fixture(scope="module", params=EDITIONS)
def both(request):
    """Items, what the service says of all at once, and what the script says of each."""
    edition = request.param
    made = random_items(COUNT, seed=EDITIONS.index(edition) + 31)
    return made, hanger_loads(items_of(made), load_standard=edition), [loads_of(item, edition) for item in made]


def hangers(answers):
    return [hanger for answer in answers for hanger in answer["hangers"]]


def close(got, expected, rtol=1e-9):
    """Equal against the size of the whole row, so that a small remainder of large loads isn't held to itself."""
    got, expected = (np.asarray(each, dtype=float).reshape(len(expected), -1) for each in (got, expected))
    assert got.shape == expected.shape
    scale = np.abs(expected).max(axis=1, keepdims=True)
    assert (np.abs(got - expected) <= rtol * scale + 1e-9).all()


def test_weights_of_lines(both):
    _, got, expected = both
    every = np.array([own[:4] for answer in expected for own in answer["weights"]])
    np.testing.assert_allclose(np.stack((got.lines.dead, got.lines.fluid, got.lines.live, got.lines.test)).T, every)
    np.testing.assert_array_equal(got.lines.tested, [own[4] for answer in expected for own in answer["weights"]])


def test_tension_and_shear_by_nature(both):
    _, got, expected = both
    own = hangers(expected)
    close(got.tension, [[hanger["tension"][nature] for nature in NATURES] for hanger in own])
    close(got.shear, [[hanger["shear"][nature] for nature in NATURES] for hanger in own])


def test_sums_by_model(both):
    _, got, expected = both
    close(got.models, [hanger["models"] for hanger in hangers(expected)])


@pytest.mark.parametrize("which", ["strength", "allowable"])
def test_every_case_of_every_hanger(both, which):
    """Which combinations a hanger has, and tension and shear in each.

    A load that is none but for rounding may have its combination on one side alone.
    """
    _, got, expected = both
    own = getattr(got, which)
    table = [case.name for case in (ALLOWABLE_CASES if which == "allowable" else CASES)]
    rows = zip(own.axis.point_of_case, own.axis.load_case, own.tension, own.shear, strict=True)
    found = {
        point: {table[case]: (pull, slide) for _, case, pull, slide in each}
        for point, each in groupby(rows, key=lambda row: row[0])
    }
    for point, hanger in enumerate(hangers(expected)):
        cases = sorted(set(hanger[which]) & set(found[point]))
        assert len(cases) == len(found[point]) or 0 < np.abs(got.tension[point, LIVE]) < 1e-9
        assert len(cases) == len(hanger[which]) or 0 < np.abs(hanger["tension"]["live"]) < 1e-9
        ours, theirs = (np.array([each[name] for name in cases]) for each in (found[point], hanger[which]))
        np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-9 * np.abs(theirs).max() + 1e-9)


@pytest.mark.parametrize("which", ["strength", "allowable"])
def test_worst_cases(both, which):
    _, got, expected = both
    own = getattr(got, which)
    table = [case.name for case in (ALLOWABLE_CASES if which == "allowable" else CASES)]
    theirs = hangers(expected)
    close(own.worst, [hanger[f"worst_{which}"] for hanger in theirs])
    close(own.worst_shear, [hanger[f"worst_shear_{which}"] for hanger in theirs])
    for place, hanger in enumerate(theirs):
        pull, slide = (hanger[which][table[case[place]]][i] for i, case in enumerate((own.case, own.shear_case)))
        assert pull == pytest.approx(hanger[f"worst_{which}"], rel=1e-9, abs=1e-9)
        assert slide == pytest.approx(hanger[f"worst_shear_{which}"], rel=1e-9, abs=1e-9)


def test_sprinkler_rule(both):
    _, got, expected = both
    theirs = hangers(expected)
    np.testing.assert_array_equal(got.loads.sprinkler, [hanger["rule"] is not None for hanger in theirs])
    at = got.loads.sprinkler
    rules = np.array([hanger["rule"] for hanger in theirs if hanger["rule"]])
    np.testing.assert_allclose(np.stack((got.loads.components, got.loads.structure)).T[at], rules, rtol=1e-9)


def test_rods(both):
    _, got, expected = both
    theirs = hangers(expected)
    np.testing.assert_array_equal(got.rods.applies, ["utilisation" in hanger for hanger in theirs])
    at = got.rods.applies
    ours = np.stack((got.rods.strength, got.rods.demand, got.rods.utilisation)).T[at]
    checked = [(h["rod"][0], h["demand"], h["utilisation"]) for h in theirs if "utilisation" in h]
    np.testing.assert_allclose(ours, checked, rtol=1e-9, atol=1e-9)


def test_bars(both):
    """The deflection to 1e-6, as the service says of it."""
    _, got, expected = both
    (section,) = (section for section in got.sections if isinstance(section.record, TrapezeBar))
    own = section.record
    theirs = [(at, number, bar) for at, answer in enumerate(expected) for number, bar in answer["bars"]]
    np.testing.assert_array_equal(np.stack((section.item, section.part)).T, [bar[:2] for bar in theirs])
    for name, key, rtol in (
        ("demand", "moment", 1e-9),
        ("sigma", "stress", 1e-9),
        ("utilisation", "utilisation", 1e-9),
        ("deflection", "deflection", 1e-6),
        ("deflection_limit", "limit", 1e-9),
    ):
        np.testing.assert_allclose(getattr(own, name), [bar[2][key] for bar in theirs], rtol=rtol)


def test_seismic_forces_and_braces(both):
    _, got, expected = both
    own = got.seismic
    theirs = [answer["seismic"] for answer in expected if answer["seismic"]]
    for name in ("w_p", "f_p", "f_p_anchorage", "e_v"):
        np.testing.assert_allclose(getattr(own, name), [each[name] for each in theirs], rtol=1e-9)
    braces = [each["brace"] for each in theirs if each["brace"]]
    for got_column, key in (
        (own.brace.f_axial, "axial"),
        (own.brace.v, "v"),
        (own.brace.c_rod, "c_rod"),
        (own.anchor.v, "anchor_v"),
        (own.anchor.f_horizontal, "anchor_shear"),
    ):
        np.testing.assert_allclose(got_column, [each[key] for each in braces], rtol=1e-9, atol=1e-6)


def test_findings(both):
    """All of them wherever they hold and nowhere else, with value and limit."""
    made, got, expected = both
    ours, theirs = {}, {}
    for rows in got.findings:
        for item, part, value, limit in zip(rows.item, rows.part, rows.value, rows.limit, strict=True):
            key = (int(item), rows.finding.value.code, int(part), rows.of, rows.name)
            assert key not in ours
            ours[key] = (value, limit)
    for at, (item, answer) in enumerate(zip(made, expected, strict=True)):
        for code, part, of, value, limit, name in findings_of(item, answer):
            theirs[at, code, part, of, name] = (value, limit)
    assert set(ours) == set(theirs)
    assert {key[1] for key in theirs} == {finding.value.code for finding in LoadFinding}
    np.testing.assert_allclose([ours[key] for key in theirs], list(theirs.values()), rtol=1e-6, atol=1e-6)
