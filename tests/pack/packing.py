"""Items packed as the service packs them: their columns, and the flaws that were found."""

from pydantic import TypeAdapter

from hangpoint.api.schemas.request import Item
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue

ADAPTER = TypeAdapter(Item)
CATALOGUE = load_catalogue()


def packed(*items, default=None, system="us", factored=False):
    """The columns of items that pass the schema, and the flaws by row."""
    flaws = Flaws()
    for each in items:
        ADAPTER.validate_python(each)
    made = pack_points(
        items,
        default=default or {},
        index=range(len(items)),
        system=system,
        catalogue=CATALOGUE,
        factored=factored,
        flaws=flaws,
    )
    return made, flaws.by_row


def sound(*items, **options):
    made, flaws = packed(*items, **options)
    assert not flaws, flaws
    return made


def flawed(one, **options):
    """Place, slug and code of every flaw of an item."""
    _, flaws = packed(one, **options)
    return [(flaw.path, flaw.slug, flaw.code) for flaw in flaws.get(0, [])]


def codes(made):
    return [set(made.assumptions.codes(bits)) for bits in made.assumptions.of_points()]
