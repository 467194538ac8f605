"""What the base is, where it stands, and what the anchor meets there, as columns. Units: in, lbf."""

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.quantity import Bools, Codes, Floats

BASE_KINDS = ("concrete", "masonry", "hollow_core", "deck", "steel", "wood", "unknown")
CONCRETE, MASONRY, HOLLOW_CORE, DECK, STEEL, WOOD, UNKNOWN = range(len(BASE_KINDS))
PARTS = ("slab", "beam", "joist", "wall", "column", "topping")
SLAB, BEAM, JOIST, WALL, COLUMN, TOPPING = range(len(PARTS))
SILENT = -1
"""Code of what the request does not state."""
NOT_TENSIONED, TENSIONED, TENSIONED_UNKNOWN = 0, 1, 2
TENSIONED_WORDS = ("no", "yes", "unknown")
LOWER, UPPER = 0, 1

EXPOSURES = ("dry", "damp", "outdoor", "chlorides", "pool", "treated_wood", "food")
DRY, DAMP, OUTDOOR, CHLORIDES, POOL, TREATED_WOOD, FOOD = range(len(EXPOSURES))
METALS = ("carbon", "galvanised", "stainless", "copper", "aluminium")
CARBON_METAL, GALVANISED_METAL, STAINLESS_METAL, COPPER_METAL, ALUMINIUM_METAL = range(len(METALS))

CARBON_STEEL, STAINLESS_304, STAINLESS_316, HIGH_ALLOY = 0, 1, 2, 3
"""Steels of a product."""
NO_COATING, ZINC, ZINC_MECHANICAL, HOT_DIP = 0, 1, 2, 3
"""Coatings of a product."""


@frozen
class DeckTests(Columns):
    """Limits of the tests of a product in a flute of a deck; zeros without tests, in.

    ``tested``: the product's data have strengths in that flute, which then stand in its columns. ``sheet_min`` is 0
    where the tests name none.
    """

    tested: Bools
    width_min: Floats
    offset_max: Floats
    cover_min: Floats
    sheet_min: Floats


@frozen
class Decks(DeckTests):
    """The flute of a filled steel deck that an anchor is in, and the limits of its tests; zeros elsewhere, in.

    ``all_lightweight``: the fill is all-lightweight. ``offset`` is the largest of any anchor from the centre of the
    flute. ``sheet`` is 0 where it isn't stated.
    """

    in_deck: Bools
    all_lightweight: Bools
    flute: Codes
    width: Floats
    offset: Floats
    cover: Floats
    sheet: Floats


@frozen
class Surroundings(Columns):
    """What carries the anchor, by the lists above; `SILENT` where the request doesn't say.

    ``age`` days, below 0 where not stated. ``clear_cover`` to the nearest bar and ``tendon_depth`` to the nearest
    tendon or strand, in from the face drilled, 0 where not stated. ``drilled`` is the depth of the hole, in, 0 without
    one. ``point_limit`` is the most service load that the structural notes allow at the point, lbf, infinite without.
    """

    kind: Codes
    part: Codes
    post_tensioned: Codes
    scanned: Bools
    existing: Bools
    f_c_stated: Bools
    age: Floats
    clear_cover: Floats
    tendon_depth: Floats
    drilled: Floats
    point_limit: Floats

    @property
    def anchored(self) -> Bools:
        """(points,) the base is one that anchors are checked in."""
        return self.kind <= DECK


@frozen
class Environments(Columns):
    """Where the anchor lives, what touches it and what it is made of, by the lists above.

    ``steel`` and ``coating`` of the product are `SILENT` where its data don't say; ``follow_up``: it tightens itself
    under load, bears in an undercut, or is cast in. ``fire_rating`` hours, 0 where none is asked for.
    """

    exposure: Codes
    attached: Codes
    rod: Codes
    vibration: Bools
    fire_rating: Floats
    steel: Codes
    coating: Codes
    follow_up: Bools
