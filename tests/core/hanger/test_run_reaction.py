"""Reaction of a hanger: which model is taken, and what goes to which nature."""

import numpy as np
import pytest

from hangpoint.core.hanger.run_reaction import BY_MODEL, MODELS, run_reaction

TRIBUTARY, CONTINUOUS = BY_MODEL.index("tributary"), BY_MODEL.index("continuous")


def _react(rows, loads=(), w_dead=3.0, w_fluid=2.0):
    """``rows``: (spans, support, model, missing); ``loads``: (row, position, weight, nature)."""
    spans = np.zeros((len(rows), 6))
    for i, row in enumerate(rows):
        spans[i, : len(row[0])] = row[0]
    return run_reaction(
        w_dead=np.full(len(rows), w_dead),
        w_fluid=np.full(len(rows), w_fluid),
        w_test=np.zeros(len(rows)),
        spans=spans,
        span_count=np.array([len(row[0]) for row in rows], dtype=np.intp),
        support=np.array([row[1] for row in rows], dtype=np.intp),
        missing=np.array([row[3] if len(row) > 3 else -1 for row in rows], dtype=np.intp),
        model=np.array([MODELS.index(row[2]) for row in rows], dtype=np.int8),
        load_run=np.array([load[0] for load in loads], dtype=np.intp),
        load_position=np.array([load[1] for load in loads], dtype=float),
        load_weight=np.array([load[2] for load in loads], dtype=float),
        load_contents=np.array([load[3] == "contents" for load in loads], dtype=bool),
        load_live=np.array([load[3] == "live" for load in loads], dtype=bool),
    )


def test_the_larger_of_two_models():
    """Two equal spans: 3/8, 10/8 by the continuous beam, 1/2, 1 by hinged spans; the larger is taken at each."""
    got = _react([([10.0, 10.0], 0, "larger"), ([10.0, 10.0], 1, "larger")])
    np.testing.assert_allclose(got.r_dead, [3.0 * 5.0, 3.0 * 12.5])
    np.testing.assert_allclose(got.r_contents, [2.0 * 5.0, 2.0 * 12.5])
    np.testing.assert_array_equal(got.r_live, [0.0, 0.0])


def test_a_named_model_is_taken():
    rows = [([10.0, 10.0], support, model) for model in ("tributary", "continuous") for support in (0, 1)]
    got = _react(rows)
    np.testing.assert_allclose(got.r_dead + got.r_contents, [25.0, 50.0, 18.75, 62.5])


def test_the_larger_is_taken_for_each_nature():
    """At the end support hinged spans give more, dead and live alike. With a live load in the last of three spans the
    continuous beam gives more live load at the first support and less dead load: each larger part is taken, so no
    factors find a larger sum in one model.
    """
    got = _react([([10.0, 10.0, 10.0], 0, "larger")], [(0, 25.0, 100.0, "live")])
    assert got.p_live[0, CONTINUOUS] > got.p_live[0, TRIBUTARY] == 0.0
    assert got.r_dead[0] == got.dead[0, TRIBUTARY] > got.dead[0, CONTINUOUS]
    assert got.r_live[0] == got.p_live[0, CONTINUOUS]
    got = _react([([10.0, 10.0], 0, "larger")], [(0, 4.0, 100.0, "dead"), (0, 4.0, 50.0, "live")])
    assert got.total[0, TRIBUTARY] > got.total[0, CONTINUOUS]
    np.testing.assert_allclose(got.r_dead[0], 15.0 + 60.0)
    np.testing.assert_allclose(got.r_live[0], 30.0)


def test_live_point_loads_count_only_where_they_add():
    """Three spans, load in the last: by three moments it relieves support 1 (dead counts so, live does not)."""
    rows = [([10.0, 10.0, 10.0], 1, "continuous")] * 2
    got = _react(rows, [(0, 25.0, 100.0, "dead"), (1, 25.0, 100.0, "live")])
    assert got.p_dead[0, CONTINUOUS] < 0.0
    assert got.p_live[1, CONTINUOUS] == 0.0
    assert got.r_live[1] == 0.0
    assert got.r_dead[0] == pytest.approx(3.0 * 11.0 + got.p_dead[0, CONTINUOUS])


def test_contents_of_a_point_load_may_be_absent():
    """Three spans, 100 lb in the middle of the last: by three moments M_1 = P L/40, M_2 = -P L/10, so R_1 = -0.15 P and
    R_3 = 0.4 P. As dead load the 15 lb come off support 1, as contents they don't, and at support 3 both pull.
    """
    spans = [10.0, 10.0, 10.0]
    rows = [(spans, 1, "continuous"), (spans, 3, "continuous")] * 2
    natures = ["dead", "dead", "contents", "contents"]
    got = _react(rows, [(row, 25.0, 100.0, nature) for row, nature in enumerate(natures)])
    np.testing.assert_allclose(got.r_dead, [3.0 * 11.0 - 15.0, 3.0 * 4.0 + 40.0, 3.0 * 11.0, 3.0 * 4.0])
    np.testing.assert_allclose(got.r_contents, [2.0 * 11.0, 2.0 * 4.0, 2.0 * 11.0, 2.0 * 4.0 + 40.0])
    np.testing.assert_allclose(got.r_test, [0.0, 0.0, 0.0, 40.0])


def test_point_loads_go_to_their_own_run():
    got = _react([([10.0], 0, "tributary"), ([10.0], 1, "tributary")], [(1, 2.5, 40.0, "dead"), (1, 10.0, 4.0, "dead")])
    np.testing.assert_allclose(got.p_dead[:, TRIBUTARY], [0.0, 14.0])


def test_loss_of_the_neighbour():
    """Reading 33 by statics: equal hinged spans, the neighbour of the lost hanger takes 1.5 w L."""
    spans = [10.0] * 5
    got = _react([(spans, 2, "tributary", 3), (spans, 2, "tributary", -1)])
    np.testing.assert_allclose(got.total[:, TRIBUTARY], [75.0, 50.0])
    loaded = _react([(spans, 2, "tributary", 3)], [(0, 30.0, 8.0, "dead")])
    np.testing.assert_allclose(
        loaded.p_dead[:, TRIBUTARY], [4.0]
    )  # over the lost hanger, in the middle of the joined span


def test_nothing_hangs():
    got = _react([])
    assert got.r_dead.shape == (0,)
    assert got.r_live.dtype == np.float64
