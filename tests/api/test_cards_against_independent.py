"""Figures printed on cards against the family files and the plain check; lengths are read by our own code.

Of every product and in both unit systems: what is printed is on the safe side of the data in either unit, and a check
of a load of nothing passes at the least distances as printed and fails 3 in 1,000 below them.
"""

import math
import re

import pytest

from api.independent_scalar import families, inches, products

CARDS, POINTS = "/v1/installation-cards", "/v1/hang-points"
KNOWN = families()
ROWS = {f"{f['id']}/{s['size']}/{e['h_ef']:g}": (f, s, e) for f, s, e in products(KNOWN)}
SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")
EXACT = {"displacement_controlled_expansion", "undercut"}
NEWTON_METRES = 4.4482216152605 * 0.3048
"""Of one ft-lb."""
PITCHES = {"1/4": 20, "3/8": 16, "1/2": 13, "5/8": 11, "3/4": 10, "7/8": 9, "1": 8}
"""Threads an inch, ASME B1.1, coarse; from memory."""
LEAST = {"edge": "c_min", "spacing": "s_min", "thickness": "h_min"}
OF_USE = {"pin-alone", "ceiling-only"}


def anchor_of(address):
    family, size, embedment = ROWS[address]
    unit = "in" if family["units"] == "us" else "mm"
    return {"family": family["id"], "size": size["size"], "h_ef": f"{embedment['h_ef']!r} {unit}"}


@pytest.fixture(scope="module", params=["us", "si"])
def cards(client, request):
    items = [{"id": each, "anchor": anchor_of(each)} for each in ROWS]
    answer = client.post(CARDS, json={"units": request.param, "items": items}).json()
    assert len(answer["cards"]) == len(ROWS)
    return request.param, answer["cards"]


def printed(text):
    """Every length of a text, inches."""
    return [float(inches(each, "in")) for each in re.match(r"(.*?)(?: \(= (.*)\))?$", text).groups() if each]


def test_printed_figures_are_on_the_safe_side(cards):
    """Depths, least distances and engagements never below the data, most ones never above, none by more than 0.1 mm."""
    system, made = cards
    for card in made:
        family, size, embedment = ROWS[card["product"]]
        unit = 1 if family["units"] == "us" else 1 / 25.4
        deep = (0, 0) if family["principle"] in EXACT else (1, 0)
        thread, hole = size.get("thread_engagement", {}), embedment.get("hole", {})
        away = max(2 * hole.get("depth", 0), embedment["s_min"])
        figures = [
            (card["marks"]["h_ef"], embedment["h_ef"], deep),
            (card["marks"].get("h_nom"), embedment.get("h_nom"), deep),
            (card.get("hole", {}).get("depth"), hole.get("depth"), deep),
            (card.get("hole", {}).get("diameter"), hole.get("diameter"), (0, 0)),
            (card.get("thread", {}).get("least"), thread.get("least"), (1, 0)),
            (card.get("thread", {}).get("most"), thread.get("most"), (0, 1)),
            (card.get("new_hole"), away if hole else None, (1, 0)),
            *((card["least"][name], embedment[own], (1, 0)) for name, own in LEAST.items()),
        ]
        for shown, stated, (never_below, never_above) in figures:
            assert (shown is None) is (stated is None), card["product"]
            lengths = [] if shown is None else printed(shown["text"])
            assert len(lengths) == (0 if shown is None else 1 if system == family["units"] else 2)
            for each in lengths:
                gap = each - stated * unit
                assert abs(gap) <= 0.1001 / 25.4
                assert gap > -1e-9 or not never_below, (card["product"], shown)
                assert gap < 1e-9 or not never_above, (card["product"], shown)


def test_torques_turns_and_temperatures(cards):
    """A converted torque is at most 1 % below that of the data and never above; turns stay between the engagements."""
    _, made = cards
    for card in made:
        family, size, embedment = ROWS[card["product"]]
        us = family["units"] == "us"
        if embedment.get("torque") is None:
            assert "torque" not in card
        else:
            own, other = map(float, re.findall(r"([\d.]+) (?:ft-lb|N·m)", card["torque"]["text"]))
            exact = own * NEWTON_METRES if us else own / NEWTON_METRES
            assert own == embedment["torque"]
            assert 0.99 * exact < other <= exact * (1 + 1e-9)
        if size.get("thread_engagement") and size["thread"] in PITCHES:
            reach, pitch = size["thread_engagement"], 1 / PITCHES[size["thread"]]
            turns = card["thread"]["turns_least"], card["thread"]["turns_most"]
            assert reach["least"] - 1e-9 <= turns[0] * pitch <= turns[1] * pitch <= reach["most"] + 1e-9
        for text in card.get("adhesive", {}).get("conditions", ()):
            for fahrenheit, celsius in of_degrees(text, us=us):
                assert math.isclose(celsius * 1.8 + 32, fahrenheit, abs_tol=1.8)
                assert celsius * 1.8 + 32 <= fahrenheit + 1e-9 if us else fahrenheit <= celsius * 1.8 + 32 + 1e-9


def of_degrees(text, *, us):
    """Pairs of degrees Fahrenheit and Celsius."""
    found = [(float(a), float(b)) for a, b in re.findall(r"(-?[\d.]+) °[FC] \((-?[\d.]+) °[FC]\)", text)]
    assert len(found) == 2
    return found if us else [(b, a) for a, b in found]


def at_least(card, name, length):
    """A point at a least distance of a card, all else far off."""
    family = ROWS[card["product"]][0]
    base = {"kind": "concrete", "density": "normalweight", "thickness": "120 in", "face": "soffit"}
    base |= {"edges": dict.fromkeys(SIDES, "none"), "state": "uncracked", "state_decided_by": "engineer of record"}
    own = anchor_of(card["product"])
    if family["principle"] == "adhesive" or not family["traits"]["tension_overhead"]:
        base["face"] = "top"
        own["adhesive"] = {"certified_installer": True, "continuous_inspection": True, "concrete_age": 60}
        own["adhesive"] |= {"hole": "dry", "temperature": "a"}
    if family["principle"] != "adhesive":
        own.pop("adhesive", None)
    european = family["basis"] == "en"
    base["strength"] = {"class": "C20/25"} if european else {"f_c": "4000 psi"}
    if name == "edge":
        base["edges"]["x_plus"] = length
    elif name == "thickness":
        base["thickness"] = length
    else:
        own["layout"] = {"pattern": "row", "count": 2, "spacing": length}
    loads = {"kind": "forces", "components": [{"nature": "dead", "tension": "0.01 lbf"}]}
    return {"anchor": own, "base": base, "hangs": loads} | ({} if european else {"seismic": {"category": "A"}})


def code_of(card):
    basis = ROWS[card["product"]][0]["basis"]
    return {"en": {"design_code": "en1992_4"}, "allowable_table": {"combinations": "allowable"}}.get(basis, {})


def test_the_check_agrees_with_the_least_distances(client, cards):
    _, made = cards
    for top in ({}, {"design_code": "en1992_4"}, {"combinations": "allowable"}):
        asked = []
        for card in (each for each in made if code_of(each) == top):
            for name, shown in card["least"].items():
                lengths = [(f"{each:.12f} in", True) for each in printed(shown["text"])]
                lengths.append((f"{min(printed(shown['text'])) * 0.997:.12f} in", False))
                asked += [(name, holds, at_least(card, name, length)) for length, holds in lengths]
        items = [{"id": str(at), **item} for at, (_, _, item) in enumerate(asked)]
        results = client.post(POINTS, json={"units": "us", "neighbours": "off", **top, "items": items}).json()["items"]
        refused = 0
        for (name, holds, item), result in zip(asked, results, strict=True):
            if result["status"] == "refused":
                refused += 1
                continue
            codes = {each["code"] for each in result["findings"] if each["severity"] == "violation"} - OF_USE
            assert bool(codes) is not holds, (item["anchor"], name, codes)
            assert holds or any(name in each for each in codes)
        assert refused <= len(asked) / 8
