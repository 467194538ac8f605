"""Own take-off beside the service's: plain loops over exact fractions, from request and catalogue files alone.

What is common practice and no data is that of the guide: 5 % more anchors, holes, hardware, charges, 3 % more bars,
15 % more adhesive; bars of 10 ft, kerf 1/8 in, no piece under 6 in; packs of 100 nuts and washers, 25 couplings,
10 nozzles; 200 holes a bit and 17 in3 a cartridge where the product says nothing.
"""

import math
from collections import defaultdict
from fractions import Fraction

from api.independent_scalar import inches, merged

WASTE = {"anchors": "0.05", "rods": "0.03", "hardware": "0.05", "adhesive": "0.15", "charges": "0.05"}
PACKS = {"nuts": 100, "washers": 100, "couplings": 25, "nozzles": 10, "rods": 1}
DRILLED_FOR = {
    "torque_controlled_expansion",
    "displacement_controlled_expansion",
    "undercut",
    "screw",
    "adhesive",
    "hammer_set_pin",
}
EXACT = {"displacement_controlled_expansion", "undercut"}


class Product:
    """Family, size and embedment as one thing on the shelf."""

    def __init__(self, family, size, embedment, *, inline=False):
        unit = Fraction(1) if family["units"] == "us" else Fraction(10, 254)
        shelf = family.get("commercial", {})
        hole = embedment.get("hole")
        wants_hole = family["principle"] in DRILLED_FOR if inline else family["setting"]["drilling"] != "none"
        self.key = (family["id"], size["size"], str(embedment["h_ef"]), str(hole) if inline else "")
        self.principle = family["principle"]
        self.inline = inline
        self.drilled = wants_hole and hole is not None
        self.hole = (hole["diameter"], hole["depth"]) if hole else None
        self.hole_depth = Fraction(str(hole["depth"])) * unit if hole else Fraction(0)
        self.hole_diameter = float(Fraction(str(hole["diameter"])) * unit) if hole else 0.0
        self.d_a = float(Fraction(str(size["d_a"])) * unit)
        self.a_se = float(Fraction(str(size["a_se"])) * unit**2)
        self.thread = size.get("thread")
        self.inside = family["traits"].get("internally_threaded", False)
        self.adhesive = self.principle == "adhesive" and hole is not None
        self.pack = shelf.get("pack", 1)
        self.minutes = Fraction(str(size.get("minutes") or shelf.get("minutes") or 0))
        self.cost = Fraction(str(size.get("cost_index") or shelf.get("cost_index") or 0))
        self.bit = shelf.get("bit") or "bit"
        self.bit_life = shelf.get("bit_life") or 200
        cartridge = shelf.get("cartridge", {"volume": 17.0, "pack": 1, "name": "cartridge"})
        volume = Fraction(str(cartridge["volume"]))
        self.cartridge = volume if family["units"] == "us" or not shelf.get("cartridge") else volume * unit**3 * 1000
        self.cartridge_pack = cartridge.get("pack", 1)
        self.charge = shelf.get("charge")
        self.tool = None if inline else family["traits"].get("setting_tool")
        self.torque = embedment.get("torque")

    def ring(self):
        """Adhesive of one hole, in3: round a thread of pitch diameter d - 2/3 (d - d_s), d_s of the stress area."""
        d_s = math.sqrt(4 * self.a_se / math.pi)
        d_m = min(self.d_a, self.d_a - 2 / 3 * (self.d_a - d_s))
        return math.pi / 4 * (self.hole_diameter**2 - d_m**2) * float(self.hole_depth)


def take_off(request, known, bad):
    """The counts of a request whose items at the places ``bad`` are invalid; lengths in inches, volumes in in3."""
    si = request["units"] == "si"
    far, near = ("m", "mm") if si else ("ft", "in")
    stock = request.get("stock", {})
    bar = inches(stock.get("rod_length", "10 ft"), far)
    least = inches(stock["shortest_piece"], far) if "shortest_piece" in stock else min(Fraction(6), bar / 2)
    rates = {
        "waste": {name: Fraction(str(request.get("waste", {}).get(name, share))) for name, share in WASTE.items()},
        "packs": PACKS | stock.get("packs", {}),
        "bar": bar,
        "kerf": inches(stock.get("kerf", "1/8 in"), near),
        "crews": request.get("crews", 1),
    }
    rows, seen = [], set()
    for at, own in enumerate(request["items"]):
        if at not in bad:
            rows.append(_item(merged(request.get("defaults", {}), own), known, bar, least, far, near, seen))
    return {"rows": rows, "rates": rates, "lines": _lines(rows, rates), "pieces": _pieces(rows)}


def _product(anchor, known, near):
    if "product" in anchor:
        own = anchor["product"]
        family = {"id": "inline", "units": own["units"], "principle": own["principle"], "traits": own.get("traits", {})}
        return Product(family, own["size"], own["embedment"], inline=True)
    family = known[anchor["family"]]
    unit = 1 if family["units"] == "us" else Fraction(10, 254)
    h_ef = inches(anchor["h_ef"], near)
    for size in family["sizes"]:
        for embedment in size["embedments"]:
            if size["size"] == anchor["size"] and abs(Fraction(str(embedment["h_ef"])) * unit - h_ef) < 1e-5:
                return Product(family, size, embedment)
    raise LookupError(anchor)


def _item(item, known, bar, least, far, near, seen):
    product = _product(item["anchor"], known, near)
    quantity, layout = item.get("quantity", 1), len(item["anchor"].get("layout", [None]))
    rod = item.get("rod", {})
    number = rod.get("number", 1) if "size" in rod else 0
    length = inches(rod["length"], far) if "length" in rod else Fraction(0)
    ends = rod.get("ends", {})
    fits = "size" in rod and rod["size"] == product.thread and number == layout
    joint = 0 if "size" not in rod else ends.get("couplings", int(fits and not product.inside))
    pieces = _cut(length, bar, least)
    place = item.get("at", {})
    where = [place.get("level"), item.get("base", {}).get("member")]
    where += [inches(place[axis], far) if axis in place else None for axis in "xyz"]
    same = (
        item.get("alternative_of"),
        *where,
        product.key,
        layout,
        quantity,
        rod.get("size"),
        rod.get("material", "unknown"),
        number,
        length,
        ends.get("nuts", 2),
        ends.get("washers", 2),
        joint,
    )
    if "alternative_of" in item:
        if same in seen:
            quantity = 0
        seen.add(same)
    anchors, rods = quantity * layout, quantity * number
    return {
        "id": item["id"],
        "level": place.get("level"),
        "trade": item.get("trade"),
        "area": item.get("area"),
        "tags": list(dict.fromkeys(item.get("tags", ()))),
        "product": product,
        "rod": (rod.get("size"), rod.get("material", "unknown")) if "size" in rod else None,
        "pieces": pieces,
        "points": quantity,
        "anchors": anchors,
        "rods": rods,
        "rod_length": rods * length,
        "holes": anchors if product.drilled else 0,
        "drilled_length": anchors * product.hole_depth if product.drilled else Fraction(0),
        "adhesive_volume": anchors * product.ring() if product.adhesive else 0.0,
        "minutes": anchors * product.minutes,
        "cost_index": anchors * product.cost,
        "nuts": rods * ends.get("nuts", 2),
        "washers": rods * ends.get("washers", 2),
        "couplings": rods * (joint + max(0, len(pieces) - 1)),
        "open": number > 0 and "couplings" not in ends and not fits,
    }


def _cut(length, bar, least):
    """The pieces of one rod, in words of the guide: whole bars and the rest, none under the shortest."""
    pieces = []
    while length >= bar:
        pieces.append(bar)
        length -= bar
    if length and pieces and length < least:
        half = (pieces.pop() + length) / 2
        pieces += [half, half]
    elif length:
        pieces.append(length)
    return pieces


def _pieces(rows):
    made = defaultdict(lambda: defaultdict(int))
    for row in rows:
        for piece in row["pieces"]:
            if row["rods"]:
                made[row["rod"]][piece] += row["rods"]
    return made


def _up(number):
    """The next whole number; a volume is no fraction."""
    return math.ceil(number if isinstance(number, Fraction | int) else number - 1e-9)


def _line(net, waste, pack):
    gross = _up(net * (1 + waste))
    packs = _up(Fraction(gross) / pack)
    return {"net": _up(net), "gross": gross, "packs": packs, "left_over": packs * pack - gross}


def _lines(rows, rates):
    """Every line by kind and what it is of, but bars of rod and tools."""
    waste, packs = rates["waste"], rates["packs"]
    used = defaultdict(Fraction)
    volume, facts = defaultdict(float), {}
    for row in rows:
        own = row["product"]
        facts[own.key] = own
        used["anchor", own.key] += row["anchors"]
        if own.drilled:
            hole = (own.bit, own.hole[0], own.hole[1] if own.principle in EXACT else None, own.key[0] == "inline")
            used["bit", hole] += Fraction(row["anchors"], own.bit_life)
        if own.charge:
            used["charge", own.key[0]] += Fraction(row["anchors"], own.charge["fastenings"])
        if own.adhesive:
            volume[own.key[0]] += row["adhesive_volume"]
        for name in ("nut", "washer", "coupling"):
            if row["rod"]:
                used[name, row["rod"][0]] += row[{"nut": "nuts", "washer": "washers", "coupling": "couplings"}[name]]
    made = {}
    for (kind, of), net in used.items():
        if not net:
            continue
        if kind == "anchor":
            made[kind, of] = _line(net, waste["anchors"], facts[of].pack)
        elif kind == "bit":
            made[kind, of] = _line(net, waste["anchors"], 1)
        elif kind == "charge":
            charge = next(own.charge for own in facts.values() if own.key[0] == of)
            made[kind, of] = _line(net, waste["charges"], charge["pack"])
        else:
            made[kind, of] = _line(net, waste["hardware"], packs[f"{kind}s"])
    cartridges = 0
    for family, net in volume.items():
        if net:
            own = next(each for each in facts.values() if each.key[0] == family)
            gross = net * float(1 + waste["adhesive"])
            number = math.ceil(gross / float(own.cartridge) - 1e-9)
            made["adhesive", family] = {"net": net, "gross": gross, "packs": number}
            made["cartridge", family] = _line(number, 0, own.cartridge_pack)
            cartridges += number
    if cartridges:
        made["nozzle", None] = _line(cartridges, waste["hardware"], packs["nozzles"])
    return made
