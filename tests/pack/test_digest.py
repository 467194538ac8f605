"""The digest of a request: equal for equal numbers, different for others, whatever else stands in it."""

import numpy as np
import pytest

from hangpoint.core.hang_point.points import Points
from hangpoint.pack.digest import RequestDigest
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.inline import InlineProduct

CATALOGUE = load_catalogue()
HEAD = ("1", "code")


def request_digest(made, texts, unread, head):
    digest = RequestDigest(head, {})
    digest.add(made, texts, unread)
    return digest.hexdigest()


def packed(**changes):
    base = {
        "kind": "concrete",
        "strength": {"f_c": 4000.0},
        "density": "normalweight",
        "thickness": 8.0,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), 20.0),
    }
    item = {
        "id": "a",
        "hangs": {"kind": "weight", "weight": 100.0, "nature": "dead"},
        "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4},
        "base": base | changes,
        "seismic": {"category": "A"},
    }
    flaws = Flaws()
    made = pack_points([item], default={}, index=[0], system="us", catalogue=CATALOGUE, factored=False, flaws=flaws)
    assert not flaws.by_row
    assert isinstance(made.points, Points)
    return made


def test_twelve_digits_count():
    plain = request_digest(packed(), [], [], HEAD)
    assert request_digest(packed(), [], [], HEAD) == plain
    assert request_digest(packed(thickness=8 * (1 + 1e-15)), [], [], HEAD) == plain
    assert request_digest(packed(thickness=8 * (1 - 1e-15)), [], [], HEAD) == plain
    assert request_digest(packed(thickness=8 * (1 + 1e-11)), [], [], HEAD) != plain
    assert request_digest(packed(thickness=8 * (1 - 1e-11)), [], [], HEAD) != plain


@pytest.mark.parametrize(
    "changes",
    [
        {"strength": {"f_c": 4100.0}},
        {"thickness": "8.01 in"},
        {"edges": {"x_minus": 20.0, "x_plus": "none", "y_minus": 20.0, "y_plus": 20.0}},
        {"face": "side"},
        {"supplementary": True},
        {"density": "all_lightweight"},
    ],
)
def test_every_column_counts(changes):
    assert request_digest(packed(**changes), [], [], HEAD) != request_digest(packed(), [], [], HEAD)


def test_two_exchanged_edges_are_another_request():
    one = {"x_minus": 20.0, "x_plus": 30.0, "y_minus": 20.0, "y_plus": 20.0}
    other = {"x_minus": 30.0, "x_plus": 20.0, "y_minus": 20.0, "y_plus": 20.0}
    assert request_digest(packed(edges=one), [], [], HEAD) != request_digest(packed(edges=other), [], [], HEAD)


def test_texts_and_head_count():
    made = packed()
    digests = {
        request_digest(made, texts, [], head)
        for texts, head in [([], HEAD), (["x"], HEAD), ([{"b": 1, "a": 2}], HEAD), ([], ("2", "code"))]
    }
    assert len(digests) == 4
    assert request_digest(made, [{"b": 1, "a": 2}], [], HEAD) == request_digest(made, [{"a": 2, "b": 1}], [], HEAD)


def test_any_json_can_stand_in_what_is_not_valid():
    """Items that are not valid enter as they came: integers beyond 64 bits, and products already read."""
    product = InlineProduct.model_validate(
        {
            "units": "us",
            "principle": "headed_cast_in",
            "basis": "cast_in",
            "size": {"size": "1", "d_a": 1.0, "a_se": 0.6, "f_uta": 6e4, "f_ya": 4e4, "ductile": True}
            | {"head": {"a_brg": 1.0}},
            "embedment": {"h_ef": 4.0, "h_min": 6.0, "c_min": 3.0, "s_min": 4.0},
        }
    )
    made = packed()
    digests = {request_digest(made, [], [{"x": value}], HEAD) for value in (10**30, 10**30 + 1, None, [[]], product)}
    assert len(digests) == 5
    assert np.isfinite(made.points.bases.c_a).all()
