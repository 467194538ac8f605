"""What substitutions and installation cards say of special inspection: the same of every kind of anchor."""

import pytest

from hangpoint.pack.selection.candidates import Shelf
from hangpoint.pack.selection.equals import changed_facts, named_in_catalogue
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.guidance.card_texts import inspection

CATALOGUE = load_catalogue()
SHELF = Shelf(CATALOGUE)
FIRST = {family: row for row, family in reversed(list(enumerate(label.family.id for label in SHELF.labels)))}
OTHERS = {"periodic": "wedge-expansion-zinc", "by_engineer": "driven-pin-powder-zinc"}
"""A family of another inspection, beside which a substitution says what changes."""

BY_ENGINEER = {
    "driven-pin-powder-zinc",
    "driven-pin-gas-zinc",
    "driven-pin-battery-zinc",
    "ceiling-pin-clip-zinc",
    "hammer-set-pin-zinc",
}


def said_of(family, beside):
    """What a substitution says that the inspection becomes; None where nothing changes."""
    before, after = (named_in_catalogue(SHELF, FIRST[name]) for name in (beside, family))
    changes = {each["what"]: each for each in changed_facts(before, after, "us", least=({}, {}))}
    return changes.get("special inspection", {}).get("substitute")


@pytest.mark.parametrize("family", sorted(FIRST))
def test_substitutions_and_cards_agree(family):
    principle = CATALOGUE.families[family].principle
    kinds = {face: inspection(principle=principle, face=face).kind for face in ("soffit", "side", "top")}
    assert (kinds["soffit"] == "by_engineer") == (family in BY_ENGINEER)
    text = said_of(family, OTHERS["periodic" if kinds["soffit"] == "by_engineer" else "by_engineer"])
    if principle == "adhesive":
        assert kinds == {"soffit": "continuous", "side": "continuous", "top": "periodic"}
        assert text == "continuous where it is set sideways or upward and tension stays, else periodic"
    else:
        (kind,) = set(kinds.values())
        assert text.startswith({"periodic": "periodic", "by_engineer": "by the engineer"}[kind])


def test_pins_beside_pins_need_the_same():
    """No change is told among pins, nor among drilled anchors that are inspected at intervals."""
    assert said_of("hammer-set-pin-zinc", "driven-pin-gas-zinc") is None
    assert said_of("large-screw-hex-zinc", "wedge-expansion-zinc") is None
