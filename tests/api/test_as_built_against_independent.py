"""As-built lists of random anchors against a comparison of our own code, and their files cell by cell."""

import csv
import io
import math
import random

import openpyxl
import pytest

from api.independent_as_built import NEWTON_METRE, as_built
from api.independent_scalar import POUND, families, products, unguarded

PATH = "/v1/as-built-lists"
KNOWN = families()
PRODUCTS = products(KNOWN)
WORDS = ("crew 4", "=1+1", "@x", "-2", "+A1", "Üblich 3", "a;b")
QUANTITIES = {"length": 1 / 25.4, "torque": float(NEWTON_METRE), "force": float(1000 / POUND)}


def about(r, value, unit):
    """A value, or one a little or far off, in its unit."""
    own = value * r.choice((1, 1, 1, 1, 1.0000001, 0.95, 0.9, 0.85, 1.02, 1.3))
    return f"{own:.6f} {unit}"


def values_of(r, family, embedment, names):
    unit, turn = ("in", "ft-lb") if family["units"] == "us" else ("mm", "N*m")
    hole = embedment.get("hole") or {"diameter": embedment["h_ef"] / 4, "depth": embedment["h_ef"]}
    data = {
        "embedment": (embedment.get("h_nom") or embedment["h_ef"], unit),
        "torque": (embedment.get("torque") or 20, turn),
        "hole_diameter": (hole["diameter"], unit),
        "hole_depth": (hole["depth"], unit),
    }
    return {name: about(r, *data[name]) for name in data if r.random() < names}


def item_of(r, at):
    family, size, embedment = r.choice(PRODUCTS)
    unit = "in" if family["units"] == "us" else "mm"
    made = {"id": f"{r.choice('P=@-+é')}{at}"}
    made["anchor"] = {"family": family["id"], "size": size["size"], "h_ef": f"{embedment['h_ef']} {unit}"}
    own = values_of(r, family, embedment, 0.85)
    address = f"{family['id']}/{size['size']}/{embedment['h_ef']:g}"
    set_family, set_size, set_depth = r.choice(PRODUCTS)
    other = "/".join((set_family["id"], set_size["size"], f"{set_depth['h_ef']:g}"))
    texts = {
        "product": r.choice((address, address, address.upper(), "another/3/8/2", other)),
        "date": r.choice(("2031-04-02", "2031-05-01")),
        "installer": r.choice(WORDS),
        "inspector": r.choice(WORDS),
        "batch": r.choice(WORDS),
        "expiry": r.choice(("2031-04-01", "2031-04-02", "2031-12-31")),
    }
    own |= {name: text for name, text in texts.items() if r.random() < 0.85}
    if r.random() < 0.1:
        own["deviation"] = r.choice(WORDS)
    if r.random() < 0.5:
        own["test"] = {"load": r.choice(("1800 lb", "9 kN", "500 lb")), "hold_seconds": r.choice((10, 15, 60))}
        own["test"]["held"] = r.random() < 0.9
        own["test"].pop(r.choice(("load", "hold_seconds", "held", "none")), None)
    if r.random() < 0.95:
        made["set"] = own
    if r.random() < 0.5:
        asked = values_of(r, family, embedment, 0.3)
        if r.random() < 0.6:
            asked |= {"test_load": r.choice(("1800 lb", "8 kN")), "hold_seconds": 15}
        made["required"] = asked
    for name in ("trade", "area"):
        if r.random() < 0.5:
            made[name] = r.choice(WORDS)
    return made


def near(one, other):
    return math.isclose(one, other, rel_tol=1e-9)


def list_of(seed, count):
    r = random.Random(seed)
    body = {"units": r.choice(("us", "si")), "items": [item_of(r, at) for at in range(count)]}
    if r.random() < 0.5:
        body["torque_tolerance"] = r.choice((0, 0.05, 0.2))
    if r.random() < 0.5:
        body["defaults"] = {"set": {"inspector": "=SUM(A1)", "date": "2031-04-02"}}
    return body


@pytest.mark.parametrize("seed", range(30))
def test_a_random_list_by_our_own_comparison(client, seed):
    body = list_of(seed, (1, 20, 90)[seed % 3])
    response = client.post(PATH, json=body)
    assert response.status_code == 200, response.text[:600]
    si = body["units"] == "si"
    for item, own in zip(response.json()["items"], body["items"], strict=True):
        status, found, lacking, alone = as_built(
            own, body.get("defaults", {}), KNOWN, si=si, tolerance=body.get("torque_tolerance")
        )
        told = {each["code"]: each for each in item["deviations"]}
        assert told.keys() == found.keys(), (told.keys() ^ found.keys(), found, item, own)
        assert (item["status"], set(item["not_recorded"]), set(item["not_compared"])) == (status, lacking, alone)
        for code, figures in found.items():
            if figures:
                unit = QUANTITIES[told[code]["quantity"]] if si else 1
                assert near(told[code]["value"] * unit, figures[0])
                assert near(told[code]["limit"] * unit, figures[1])
            else:
                assert "value" not in told[code]


KINDS = {"embedment": "length", "torque": "torque", "hole_diameter": "length", "hole_depth": "length"}


@pytest.mark.parametrize("seed", range(6))
def test_the_files_of_a_list_say_what_its_answer_says(client, seed):
    body = list_of(seed, 40)
    body["items"][7]["set"] = {"date": "2031-02-30"}
    answer = client.post(PATH, json=body).json()
    text = client.post(f"{PATH}?format=csv", json=body).text
    book = openpyxl.load_workbook(io.BytesIO(client.post(f"{PATH}?format=xlsx", json=body).content))
    assert not [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    sheet = book["As built"].iter_rows(values_only=True)
    titles = next(sheet)
    rows = csv.DictReader(io.StringIO(text, newline=""))
    for item, row, cells in zip(answer["items"], rows, sheet, strict=True):
        own, required, test = item.get("set", {}), item.get("required", {}), item.get("set", {}).get("test", {})
        expected = {name: item.get(name) for name in ("id", "status", "trade", "area")}
        expected |= {name: own.get(name) for name in ("date", "installer", "inspector", "batch", "expiry")}
        expected |= {"product_required": required.get("product"), "product_set": own.get("product")}
        expected |= {"remark": own.get("deviation"), "hold_seconds": test.get("hold_seconds"), "row": item["index"] + 1}
        expected |= {"held": {None: None, True: "yes", False: "no"}[test.get("held")]}
        length, torque, force = (f" [{answer['units'][kind]}]" for kind in ("length", "torque", "force"))
        expected |= {f"embedment_required{length}": required.get("embedment")}
        expected |= {f"embedment_set{length}": own.get("embedment"), f"torque_set{torque}": own.get("torque")}
        expected |= {f"{name}{torque}": required.get(name) for name in ("torque_least", "torque_most")}
        expected |= {f"{name}{length}": own.get(name) for name in ("hole_diameter", "hole_depth")}
        expected |= {f"test_load_required{force}": required.get("test_load"), f"test_load{force}": test.get("load")}
        for name in ("deviations", "not_recorded", "not_compared"):
            codes = [each["code"] if name == "deviations" else each for each in item.get(name, ())]
            expected[name] = ";".join(codes) or None
        of_book = dict(zip(titles, cells, strict=True))
        for name, value in expected.items():
            cell = of_book[name.replace("_", " ")]
            if isinstance(value, int | float):
                assert type(cell) in (int, float)
                assert math.isclose(cell, value, rel_tol=1e-14)
                assert float(row[name]) == value
            else:
                assert cell == value
                assert unguarded(row[name]) == (value or "")
