"""What a take-off rests on: the defaults that had a say in it, and what is in no count."""

from hangpoint.core.vocabulary import TakeOffAssumption, TakeOffNotCounted
from hangpoint.pack.take_off.counts import Counts
from hangpoint.pack.take_off.items import TakeOffItems
from hangpoint.pack.take_off.rates import Rates

_ALWAYS = frozenset({TakeOffNotCounted.HANGERS, TakeOffNotCounted.LABOUR, TakeOffNotCounted.RESERVE})


def assumptions_of(items: TakeOffItems, counts: Counts, rates: Rates) -> set[TakeOffAssumption]:
    """The defaults taken, without those of what the job has none of."""
    own = items.products
    rods, glued, holes = bool(counts.bars), any(each.adhesive for each in own), any(each.drilled for each in own)
    ended = bool(items.n_rod.any())
    any_item = items.count > 0
    used = {
        TakeOffAssumption.WASTE_ANCHORS: any_item,
        TakeOffAssumption.WASTE_RODS: rods,
        TakeOffAssumption.STOCK_LENGTH: rods,
        TakeOffAssumption.KERF: rods,
        TakeOffAssumption.SHORTEST: bool(counts.pieces.short.any()),
        TakeOffAssumption.WASTE_HARDWARE: ended or glued,
        TakeOffAssumption.PACKS: ended or glued,
        TakeOffAssumption.WASTE_ADHESIVE: glued,
        TakeOffAssumption.WASTE_CHARGES: any(each.charge is not None for each in own),
        TakeOffAssumption.CREWS: any_item,
    }
    found = {member for member in rates.assumed if used[member]} | items.assumed
    if holes:
        found.add(TakeOffAssumption.DUST)
    if glued:
        found.add(TakeOffAssumption.RING)
    if any_item:
        found |= {TakeOffAssumption.AS_STATED, TakeOffAssumption.OWN_HARDWARE}
    if any(each.drilled and not each.bit_life_stated for each in own):
        found.add(TakeOffAssumption.BIT_LIFE)
    if any(each.adhesive and not each.cartridge_stated for each in own):
        found.add(TakeOffAssumption.CARTRIDGE)
    return found


def not_counted_of(items: TakeOffItems, *, invalid: bool) -> set[TakeOffNotCounted]:
    """What is in no count, of any item and of every job; ``invalid`` where there are invalid items."""
    return {note for own in items.notes for note in own} | _ALWAYS | ({TakeOffNotCounted.INVALID} if invalid else set())
