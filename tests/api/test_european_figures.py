"""Products with figures for EN 1992-4 where chapter 17 is asked: refused by name, listed and taken off as others."""

import pytest

from api.bodies import GONE, batch, change, item, single
from api.choosing_bodies import SELECTIONS, anchor_of, point, reasons, request
from hangpoint.product.catalogue import load_catalogue

CATALOGUE = load_catalogue()
ADDRESSES = [
    address
    for address, family in zip(CATALOGUE.addresses, CATALOGUE.table.family_index, strict=True)
    if list(CATALOGUE.families.values())[family].basis == "en"
]
CODE, TEXT = "family-of-another-code", "by European assessment, for en1992_4"
INLINE = {
    "units": "si",
    "principle": "undercut",
    "basis": "en",
    "traits": {"tension_overhead": True, "sustained_tension": True},
    "size": {"size": "M10", "d_a": 18, "a_se": 58, "f_uta": 800, "f_ya": 640, "ductile": True},
    "embedment": {
        "h_ef": 80,
        "h_min": 160,
        "c_min": 80,
        "s_min": 90,
        "en": {"n_rk_p_cr": 22, "psi_c_exponent": 0.5, "gamma_inst": 1.0, "c_cr_sp": 130, "k8": 2.0},
    },
}


def test_there_are_some():
    assert len(ADDRESSES) == 57
    assert all(address.startswith("en-") for address in ADDRESSES)


@pytest.mark.parametrize("combinations", ["strength", "allowable"])
def test_every_one_is_refused_by_chapter_17(client, combinations):
    bodies = [item(anchor=anchor_of(address), base__thickness="12 in") for address in ADDRESSES]
    answer = client.post("/v1/hang-points", json=batch(*bodies, combinations=combinations)).json()
    assert answer["summary"]["refused"] == len(ADDRESSES)
    assert {own["reason"]["code"] for own in answer["items"]} == {CODE}
    assert all(TEXT in own["reason"]["text"] for own in answer["items"])


def test_in_masonry_too(client):
    """No table is its way: that it has none is not the reason."""
    wall = {"kind": "masonry", "face": "side", "thickness": "8 in", "edges": item()["base"]["edges"]}
    wall["masonry"] = {"units": "grouted", "material": "concrete", "location": "face", "f_m": "1500 psi"}
    load = {"kind": "forces", "components": [{"nature": "dead", "tension": "50 lbf"}]}
    own = item(anchor=anchor_of(ADDRESSES[0])) | {"base": wall, "hangs": load}
    answer = client.post("/v1/hang-points", json=batch(own, combinations="allowable")).json()["items"][0]
    assert (answer["status"], answer["reason"]["code"]) == ("refused", CODE)


def test_under_their_own_code_none_is_refused_for_its_figures(client):
    """The drop-in is for uncracked concrete, one adhesive not for overhead; how the other is set isn't said."""
    base = {"base__strength": {"class": "C25/30"}, "base__thickness": "12 in"}
    bodies = [single(anchor=anchor_of(own), **base, seismic=GONE) for own in ADDRESSES]
    found = {}
    for address, body in zip(ADDRESSES, bodies, strict=True):
        answer = client.post("/v1/hang-point", json=body | {"design_code": "en1992_4"}).json()["items"][0]
        if answer["status"] == "refused":
            found.setdefault(answer["reason"]["code"], set()).add(address.split("/")[0])
    assert found == {
        "not-assessed-in-state": {"en-drop-in-zinc", "en-adhesive-fast-rod-stainless"},
        "not-assessed-upward": {"en-adhesive-fast-rod-stainless"},
        "bond-not-confirmed": {"en-adhesive-slow-rod-zinc"},
    }


def test_a_product_of_the_request(client):
    body = single(anchor={"product": INLINE})
    answer = client.post("/v1/hang-point", json=body).json()
    assert answer["items"][0]["reason"]["code"] == CODE
    for path, value, says in (
        ("embedment.category", 1, "state en.gamma_inst"),
        ("embedment.en.k8", 0.5, "greater than or equal to 1"),
        ("principle", "adhesive", "needs its bond resistances"),
        ("principle", "hammer_set_pin", "does not go with the basis en"),
    ):
        wrong = single(anchor={"product": change(INLINE, {path: value})})
        response = client.post("/v1/hang-point", json=wrong)
        assert response.status_code == 422
        assert says in response.text, path


def test_a_choice_by_chapter_17_rejects_them_for_it(client):
    answer = client.post(SELECTIONS, json=request(point(), want={"rod_thread": "any"})).json()["items"][0]
    found = reasons(answer)
    assert {found[address]["code"] for address in ADDRESSES if "headed-stud" not in address} == {CODE}
    assert not [each for each in answer["ranked"] if each["product"] in ADDRESSES]
    assert answer["ranked"]


def test_a_take_off_counts_them(client):
    bodies = [item(anchor=anchor_of(address)) for address in ADDRESSES]
    body = {"units": "us", "items": batch(*bodies)["items"]}
    response = client.post("/v1/take-offs", json=body)
    assert response.status_code == 200, response.text[:400]
    text = response.text
    assert all(address in text for address in ADDRESSES)


def test_the_list_of_families_filters_them(client):
    found = client.get("/v1/families?basis=en").json()["families"]
    assert [family["id"] for family in found] == sorted({address.split("/")[0] for address in ADDRESSES})
    assert sum(len(family["products"]) for family in found) == len(ADDRESSES)
    whole = client.get("/v1/families/en-undercut-zinc").json()
    assert whole["sizes"][0]["embedments"][0]["en"]["n_rk_p_cr"] == 22
