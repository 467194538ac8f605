"""The digest of a request: equal for equal numbers, different for others, whatever else stands in it."""

import numpy as np
import pytest

from hangpoint.core.hang_point.points import Points
from hangpoint.pack.digest import RequestDigest, merged
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.inline import InlineProduct

CATALOGUE = load_catalogue()
HEAD = ("1", "code")


ITEM = {"id": "a"}


def request_digest(made, unread=(), head=HEAD, default=None):
    digest = RequestDigest(head)
    digest.add(made, unread, default=default or {})
    return digest.hexdigest()


def packed(texts=ITEM, default=None, **changes):
    base = {
        "kind": "concrete",
        "strength": {"f_c": 4000.0},
        "density": "normalweight",
        "thickness": 8.0,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), 20.0),
    }
    item = texts | {
        "hangs": {"kind": "weight", "weight": 100.0, "nature": "dead"},
        "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4},
        "base": base | changes,
        "seismic": {"category": "A"},
    }
    flaws = Flaws()
    made = pack_points(
        [item],
        default=default or {},
        index=[0],
        system="us",
        catalogue=CATALOGUE,
        factored=False,
        flaws=flaws,
    )
    assert not flaws.by_row
    assert isinstance(made.points, Points)
    return made


def test_twelve_digits_count():
    plain = request_digest(packed())
    assert request_digest(packed()) == plain
    assert request_digest(packed(thickness=8 * (1 + 1e-15))) == plain
    assert request_digest(packed(thickness=8 * (1 - 1e-15))) == plain
    assert request_digest(packed(thickness=8 * (1 + 1e-11))) != plain
    assert request_digest(packed(thickness=8 * (1 - 1e-11))) != plain


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
    assert request_digest(packed(**changes)) != request_digest(packed())


def test_two_exchanged_edges_are_another_request():
    one = {"x_minus": 20.0, "x_plus": 30.0, "y_minus": 20.0, "y_plus": 20.0}
    other = {"x_minus": 30.0, "x_plus": 20.0, "y_minus": 20.0, "y_plus": 20.0}
    assert request_digest(packed(edges=one)) != request_digest(packed(edges=other))


def test_texts_and_head_count():
    made = packed()
    digests = {
        request_digest(packed(ITEM | texts), head=head)
        for texts, head in [({}, HEAD), ({"trade": "x"}, HEAD), ({"at": {"level": "x"}}, HEAD), ({}, ("2", "code"))]
    }
    assert len(digests) == 4
    unread = [{"b": 1, "a": 2}], [{"a": 2, "b": 1}]
    assert request_digest(made, unread=unread[0]) == request_digest(made, unread=unread[1])


@pytest.mark.parametrize(
    ("item", "default"),
    [
        ({"trade": "x"}, {}),
        ({}, {"trade": "x"}),
        ({"trade": "x"}, {"trade": "y"}),
    ],
)
def test_texts_are_those_after_defaults(item, default):
    made = packed(ITEM | item, default)
    assert request_digest(made) == request_digest(packed(ITEM | {"trade": "x"}))
    assert request_digest(made) != request_digest(packed())


@pytest.mark.parametrize(
    ("item", "expected"),
    [
        ({}, {"hangs": {"kind": "pipe", "size": "4"}, "anchor": {"product": 1}, "tags": ["a"]}),
        ({"hangs": {"kind": "pipe", "a": 1}}, {"hangs": {"kind": "pipe", "size": "4", "a": 1}}),
        ({"hangs": {"a": 1}}, {"hangs": {"kind": "pipe", "size": "4", "a": 1}}),
        ({"hangs": {"kind": "weight"}}, {"hangs": {"kind": "weight"}}),
        ({"hangs": 5}, {"hangs": 5}),
        ({"anchor": {"size": "4"}}, {"anchor": {"size": "4"}}),
        ({"tags": []}, {"tags": []}),
    ],
)
def test_an_invalid_item_is_merged_by_the_same_rules(item, expected):
    default = {"hangs": {"kind": "pipe", "size": "4"}, "anchor": {"product": 1}, "tags": ["a"]}
    assert merged(item, default) == default | expected
    assert merged("no object", default) == "no object"


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
    digests = {request_digest(made, unread=[{"x": value}]) for value in (10**30, 10**30 + 1, None, [[]], product)}
    assert len(digests) == 5
    assert np.isfinite(made.points.bases.c_a).all()
