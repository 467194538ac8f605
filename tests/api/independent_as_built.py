"""Own comparison of anchors as they were set beside the service's: plain ifs over exact fractions, in, ft*lbf, lbf.

Required is what an item requires, else what the data of its product have: h_nom, torque, hole. Where another product
of the catalogue was set torque and hole are those of that one. A torque may be a tenth
below and not above where no tolerance is stated. No test pulls more than 0.8 A_se f_ya.
"""

from fractions import Fraction

from api.independent_proof import product_of
from api.independent_scalar import POUND, inches, merged, pounds, products

NEWTON_METRE = 1 / (POUND * Fraction(3048, 10_000))
"""In ft*lbf."""
TORQUES = {"ft-lb": 1, "ft-lbf": 1, "in-lb": Fraction(1, 12), "N*m": NEWTON_METRE, "Nm": NEWTON_METRE}
LENGTHS = ("embedment", "hole_diameter", "hole_depth")
SAME = Fraction(1, 1_000_000)


def torque_of(value, si):
    if isinstance(value, str):
        number, unit = value.split(" ")
        return Fraction(number) * TORQUES[unit]
    return Fraction(str(value)) * (NEWTON_METRE if si else 1)


def _read(own, si):
    made = {name: inches(own[name], "mm" if si else "in") for name in LENGTHS if name in own}
    if "torque" in own:
        made["torque"] = torque_of(own["torque"], si)
    return made


def _of_data(family, embedment):
    us = family["units"] == "us"
    unit = 1 if us else Fraction(10, 254)
    made = {}
    if embedment.get("h_nom") is not None:
        made["embedment"] = Fraction(str(embedment["h_nom"])) * unit
    elif family["setting"]["drilling"] == "none" or family["principle"] == "adhesive":
        made["embedment"] = Fraction(str(embedment["h_ef"])) * unit
    if embedment.get("torque"):
        made["torque"] = Fraction(str(embedment["torque"])) * (1 if us else NEWTON_METRE)
    if embedment.get("hole"):
        made["hole_diameter"] = Fraction(str(embedment["hole"]["diameter"])) * unit
        made["hole_depth"] = Fraction(str(embedment["hole"]["depth"])) * unit
    return made


def _by_address(text, known):
    for family, size, embedment in products(known):
        if f"{family['id']}/{size['size']}/{embedment['h_ef']:g}".lower() == text.strip().lower():
            return family, size, embedment
    return None


def as_built(item, defaults, known, *, si, tolerance):
    """Status, codes of deviations with value and limit where they have them, not recorded, not compared."""
    item = merged(defaults, item)
    family, size, embedment = product_of(item["anchor"], known, "mm" if si else "in")
    us = family["units"] == "us"
    data, stated = _of_data(family, embedment), _read(item.get("required", {}), si)
    own = item.get("set", {})
    address = f"{family['id']}/{size['size']}/{embedment['h_ef']:g}"
    differs = "product" in own and own["product"].strip().lower() != address.lower()
    setter = (family, size, embedment)
    site, exact_depth = data, None
    other = _by_address(own["product"], known) if differs else None
    if other:
        setter, site = other, _of_data(other[0], other[2])
        exact_depth = site.get("embedment")
    asked = {name: value for name, value in data.items() if name == "embedment"}
    asked |= {name: value for name, value in site.items() if name != "embedment"}
    required = asked | stated
    exact = setter[0]["principle"] in ("displacement_controlled_expansion", "undercut")
    glued = setter[0]["principle"] == "adhesive"
    was, test = _read(own, si), own.get("test", {})
    h_ef = Fraction(str(embedment["h_ef"])) * (1 if us else Fraction(10, 254))
    force = "kN" if si else "lbf"
    found = {}

    if differs:
        found["product-differs"] = None
    if "embedment" in was:
        least = required.get("embedment", h_ef)
        if was["embedment"] < least * (1 - SAME):
            found["embedment-short"] = (was["embedment"], least)
        most = was.get("hole_depth", required.get("hole_depth"))
        deepest = exact_depth if other else required.get("embedment")
        if exact and deepest is not None:
            most = deepest
        if most is not None and was["embedment"] * (1 - SAME) > most:
            found["embedment-too-deep"] = (was["embedment"], most)
    if "torque" in was and "torque" in required:
        below, above = (Fraction(1, 10), Fraction(0)) if tolerance is None else 2 * (Fraction(str(tolerance)),)
        least, most = required["torque"] * (1 - below), required["torque"] * (1 + above)
        if was["torque"] < least * (1 - SAME):
            found["torque-low"] = (was["torque"], least)
        if was["torque"] > most * (1 + SAME):
            found["torque-high"] = (was["torque"], most)
    if "hole_diameter" in was and "hole_diameter" in required:
        bit, asked = was["hole_diameter"], required["hole_diameter"]
        if abs(bit - asked) > asked * SAME:
            found["hole-diameter-differs"] = (bit, asked)
    if "hole_depth" in was and "hole_depth" in required:
        depth, asked = was["hole_depth"], required["hole_depth"]
        if depth < asked * (1 - SAME):
            found["hole-too-shallow"] = (depth, asked)
        if exact and depth > asked * (1 + SAME):
            found["hole-too-deep"] = (depth, asked)
    if "date" in own and "expiry" in own and own["date"] > own["expiry"]:
        found["expired"] = None
    wanted = item.get("required", {})
    if "load" in test:
        load = pounds(test["load"], force)
        if "test_load" in wanted and load < pounds(wanted["test_load"], force) * (1 - SAME):
            found["test-load-low"] = (load, pounds(wanted["test_load"], force))
        cap = Fraction("0.8") * Fraction(str(setter[1]["a_se"])) * Fraction(str(setter[1]["f_ya"]))
        cap /= 1 if setter[0]["units"] == "us" else POUND
        if load > cap * (1 + SAME):
            found["test-load-high"] = (load, cap)
    if "hold_seconds" in wanted and test.get("hold_seconds", wanted["hold_seconds"]) < wanted["hold_seconds"]:
        found["test-held-too-short"] = None
    if test.get("held") is False:
        found["test-not-held"] = None
    needed = family["principle"] in ("displacement_controlled_expansion", "undercut")
    found |= dict.fromkeys(_beside_data(stated, data, h_ef, exact=needed))
    if "deviation" in own:
        found["deviation-noted"] = None

    lacking = {name for name in ("product", "date", "installer", "embedment") if name not in own}
    if "torque" in required and "torque" not in own:
        lacking.add("torque")
    if glued:
        lacking |= {"batch", "expiry"} - own.keys()
    if glued or exact:
        lacking |= {name for name in ("hole_diameter", "hole_depth") if name in required and name not in own}
    untested = ("test_load" in wanted or test) and not {"load", "held"} <= test.keys()
    if untested or ("hold_seconds" in wanted and "hold_seconds" not in test):
        lacking.add("test")
    alone = was.keys() - required.keys()
    status = "deviates" if found else "incomplete" if lacking or alone else "conforms"
    return status, found, lacking, alone


def _beside_data(stated, data, h_ef, *, exact):
    """Where what is required is not what the data of the product require."""
    least = max(data.get("embedment", h_ef), h_ef)
    low = "embedment" in stated and stated["embedment"] < least * (1 - SAME)
    both = stated.keys() & data.keys()
    under = {name for name in both if stated[name] < data[name] * (1 - SAME)}
    over = {name for name in both if data[name] < stated[name] * (1 - SAME)}
    if low or "torque" in under:
        yield "required-below-product"
    other = "torque" in over or "hole_diameter" in under | over or "hole_depth" in under
    if other or (exact and over & {"hole_depth", "embedment"}):
        yield "required-beyond-product"
