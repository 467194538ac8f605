"""Strengths in decks: every rule broken by one example, and the columns that the data become."""

import numpy as np
import pytest

from hangpoint.core.errors import CatalogueError
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.deck import DeckData
from hangpoint.product.deck_table import deck_row
from hangpoint.product.product_row import NEWTONS_PER_POUND
from hangpoint.product.table import concatenate

WEDGE, INSERT = "wedge-expansion-zinc", "cast-in-insert-deck-zinc"
ROW = "sizes/1/embedments/1"
WHOLE = {"flute": "lower", "n_cr": 900, "f_c_ref": 3000, "exponent": 0.5, "flute_width": 4.5, "offset": 1, "cover": 3}


def deck(number, **values):
    """Change the deck entry of that number: lower and upper flute of 3/8 in, 2-1/2 in deep."""

    def change(family):
        family["sizes"][1]["embedments"][1]["deck"][number].update(values)

    return change


def without_decks(family):
    for size in family["sizes"]:
        for row in size["embedments"]:
            row.pop("deck", None)


def bonded(family):
    family["sizes"][0]["embedments"][0]["deck"] = [WHOLE | {"s_min": 60, "c_min": 9}]


def weaker(family):
    family["sizes"][2]["embedments"][1]["deck"][0].update(n_cr=1449, n_eq=1449)


RULES = [
    ("flute twice", WEDGE, deck(1, flute="lower"), f"{ROW}/deck/1/flute", "is there twice"),
    ("crack that strengthens", WEDGE, deck(0, n_uncr=1450), f"{ROW}/deck/0/n_cr", "a crack weakens"),
    ("earthquake that strengthens", WEDGE, deck(0, n_eq=1451), f"{ROW}/deck/0/n_eq", "17.10.3"),
    ("shear by earthquake alone", WEDGE, deck(0, v_sa=None), f"{ROW}/deck/0/v_sa_eq", "needs a v_sa"),
    ("shear that earthquake raises", WEDGE, deck(0, v_sa_eq=2141), f"{ROW}/deck/0/v_sa_eq", "not below"),
    ("beside the flute", WEDGE, deck(0, offset=2.25), f"{ROW}/deck/0/offset", "leaves the flute"),
    ("no cover", WEDGE, deck(1, cover=3.8), f"{ROW}/deck/1/cover", "below 3.875"),
    ("near in the flute", WEDGE, deck(0, s_min=7.4), f"{ROW}/deck/0/s_min", "below 7.5"),
    ("near in a wide flute", WEDGE, deck(0, flute_width=6.0), f"{ROW}/deck/0/s_min", "below 9"),
    ("adhesive", "adhesive-slow-rod-36", bonded, "sizes/0/embedments/0/deck/0", "those of tests"),
    ("not made for decks", WEDGE, lambda f: f["traits"].update(bases=["concrete"]), "traits/bases", "add it"),
    ("made for decks untested", WEDGE, without_decks, "traits/bases", "one embedment at least"),
    ("weaker though deeper", WEDGE, weaker, "sizes/2/embedments/1/deck/0/n_cr", "below the 1450"),
]


@pytest.mark.parametrize(("family", "change", "place", "why"), [rule[1:] for rule in RULES], ids=[r[0] for r in RULES])
def test_a_broken_rule_names_place_and_reason(document, save, family, change, place, why):
    content = document(family)
    change(content)
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([save(content)])
    assert f"#/{place}: " in str(caught.value)
    assert why in str(caught.value)


def test_the_rules_are_at_their_limits(document, save):
    """3 h_ef = 7.5 in against 1.5 x 4.5 = 6.75; depth of hole and two diameters 3.125 + .75 = 3.875 in."""
    content = document(WEDGE)
    deck(0, s_min=7.5)(content)
    deck(1, cover=3.875)(content)
    assert load_catalogue([save(content)]).families[WEDGE].sizes[1].embedments[1].deck[1].cover == 3.875


def test_columns():
    catalogue = load_catalogue()
    at = catalogue.row(WEDGE, "3/8", 2.5)
    table = catalogue.table
    lower, upper = int(table.deck_lower[at]), int(table.deck_upper[at])
    assert (table.deck.n_cr[lower], table.deck.n_cr[upper]) == (1450.0, 1960.0)
    assert (table.deck.f_c_ref[lower], table.deck.exponent[lower], table.deck.offset[lower]) == (3000.0, 0.5, 1.0)
    assert table.hole_depth[at] == 3.125
    none = catalogue.row("drop-in-zinc", "3/8", 1.625)
    assert (table.deck_lower[none], table.deck_upper[none]) == (-1, -1)
    insert = catalogue.row(INSERT, "3/8", 1.5)
    assert table.deck.v_sa[table.deck_lower[insert]] == 0.0


def test_joined_tables_keep_their_rows():
    table = load_catalogue().table
    joined = concatenate([table, table])
    own = np.flatnonzero(table.deck_lower >= 0)
    for half in (own, own + len(table)):
        np.testing.assert_array_equal(joined.deck.n_cr[joined.deck_lower[half]], table.deck.n_cr[table.deck_lower[own]])


def test_units():
    """4 kN is 899.24 lb by the exact pound, 101.6 mm is 4 in; 21 MPa is 3,045.8 psi."""
    lengths = {"flute_width": 101.6, "offset": 20.0, "cover": 80.0, "s_min": 300.0, "c_min": 200.0}
    data = DeckData(flute="lower", n_cr=4.0, f_c_ref=21.0, exponent=0.5, **lengths)
    row = deck_row(data, length=1 / 25.4, stress=145.0377377, force=1000 / NEWTONS_PER_POUND)
    assert row["n_cr"] == pytest.approx(899.236, abs=1e-3)
    assert row["flute_width"] == pytest.approx(4.0)
    assert row["f_c_ref"] == pytest.approx(3045.79, abs=0.01)
    assert row["exponent"] == 0.5
    assert row["n_uncr"] == row["sheet"] == 0.0
