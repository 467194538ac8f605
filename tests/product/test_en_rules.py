"""Figures for EN 1992-4: every rule has an example that breaks it and nothing else; place and reason are told."""

import json
import re

import jsonschema
import pytest
from pydantic import ValidationError

from hangpoint.core.errors import CatalogueError
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.check import defects
from hangpoint.product.family import family_json_schema
from hangpoint.product.inline import InlineProduct

WEDGE, STUD, DROP_IN = "en-wedge-expansion-zinc", "en-headed-stud", "en-drop-in-zinc"
SCREW, UNDERCUT, SLOW = "en-screw-zinc", "en-undercut-zinc", "en-adhesive-slow-rod-zinc"
FAST = "en-adhesive-fast-rod-stainless"
ACI = "wedge-expansion-zinc"
ROW = "sizes/1/embedments/1"
FIRST = "sizes/0/embedments/0"


def row(family):
    return family["sizes"][1]["embedments"][1]


def en(**values):
    """Set members of the figures; None removes them."""

    def change(family):
        own = row(family)["en"]
        own.update(values)
        for name in [name for name, value in own.items() if value is None]:
            del own[name]

    return change


C1 = {"n_rk_s_eq": 28.0, "n_rk_p_eq": 8.0, "v0_rk_s_eq": 11.5}
"""Of the row, invented: not above its static 28, 10.5 and 17 kN."""
EN_BOND = {"temperature": "a", "long_term": 24, "short_term": 40, "hole": "dry", "gamma_inst": 1.0, "tau_rk_ucr": 15.0}


def bond(at=0, **values):
    """Set members of a condition; None removes them."""

    def change(family):
        own = row(family)["en"]["bond"][at]
        own.update(values)
        for name in [name for name, value in own.items() if value is None]:
            del own[name]

    return change


def all_bonds(**values):
    def change(family):
        for each in row(family)["en"]["bond"]:
            each.update(values)

    return change


def c1_of_bond(**values):
    def change(family):
        row(family)["en"]["c1"].update(values)

    return change


def without_tau_c1(family):
    for each in row(family)["en"]["bond"]:
        del each["tau_rk_c1"]


DEEPER = "sizes/0/embedments/1/en"


def c1(**values):
    """Figures of C1 for the row; None leaves one out."""
    return en(c1={name: value for name, value in (C1 | values).items() if value is not None})


def c2(**values):
    return en(c1=C1, c2={name: value for name, value in (C1 | values).items() if value is not None})


def deeper(**values):
    """Figures of C1 for the second embedment of the first size; those of C2 go, which would be above them."""

    def change(family):
        own = family["sizes"][0]["embedments"][1]["en"]
        own["c1"] |= values
        own.pop("c2")

    return change


def unassessed(family):
    family["sizes"][0]["embedments"][0]["en"].pop("n_rk_p_ucr")


def own(**values):
    return lambda family: row(family).update(values)


def size(**values):
    return lambda family: family["sizes"][1].update(values)


def traits(**values):
    return lambda family: family["traits"].update(values)


RANGES = [
    ("unknown", WEDGE, en(k9=1.7), f"{ROW}/en/k9", "not known"),
    ("word", WEDGE, en(n_rk_p_cr="cone"), f"{ROW}/en/n_rk_p_cr", "not_governing"),
    ("exponent", WEDGE, en(psi_c_exponent=1.1), f"{ROW}/en/psi_c_exponent", "less than or equal to 1"),
    ("gamma_inst below", WEDGE, en(gamma_inst=0.9), f"{ROW}/en/gamma_inst", "greater than or equal to 1"),
    ("gamma_inst above", WEDGE, en(gamma_inst=2.1), f"{ROW}/en/gamma_inst", "less than or equal to 2"),
    ("k7 below", WEDGE, en(k7=0.4), f"{ROW}/en/k7", "greater than or equal to 0.5"),
    ("k7 above", WEDGE, en(k7=1.1), f"{ROW}/en/k7", "less than or equal to 1"),
    ("gamma_ms_n", WEDGE, en(gamma_ms_n=0.9), f"{ROW}/en/gamma_ms_n", "greater than or equal to 1"),
    ("gamma_ms_v", WEDGE, en(gamma_ms_v=3.1), f"{ROW}/en/gamma_ms_v", "less than or equal to 3"),
    ("k of lbf and in", WEDGE, en(k_cr_n=17), f"{ROW}/en/k_cr_n", "less than or equal to 14"),
    ("k8", WEDGE, en(k8=0.9), f"{ROW}/en/k8", "greater than or equal to 1"),
    ("k8 silent", WEDGE, en(k8=None), f"{ROW}/en/k8", "k8 is required"),
    ("negative force", WEDGE, en(v0_rk_s=-1), f"{ROW}/en/v0_rk_s", "greater than or equal to 0.001"),
]
FOREIGN = {
    "k_cr": (7.0, "en.k_cr_n"),
    "k_uncr": (10.0, "en.k_ucr_n"),
    "n_p_cr": (9.0, "en.n_rk_p_cr"),
    "n_p_uncr": ("not_governing", "en.n_rk_p_ucr"),
    "n_p_eq": (9.0, "en.c1.n_rk_p_eq"),
    "n_exponent": (0.5, "en.psi_c_exponent"),
    "f_c_ref": (20, "C20/25"),
    "category": (1, "en.gamma_inst"),
    "c_ac": (130, "en.c_cr_sp"),
    "v_sa": (17.0, "en.v0_rk_s"),
    "v_sa_eq": (12.0, "en.c1.v0_rk_s_eq"),
    "seismic": (True, "en.c1"),
    "lightweight": ("tested", "normalweight"),
    "distance_sleeve": (True, "en.l_f"),
    "thickness_tested": (True, "h_min"),
    "spacing_tested": (True, "c_min and s_min"),
}
"""What is for chapter 17 only, and what the flaw says of it."""
BOND = {
    "temperature": "a",
    "long_term": 50,
    "short_term": 80,
    "hole": "dry",
    "category": 1,
    "tau_cr": 5,
    "tau_uncr": 9,
}
DECK = {
    "flute": "lower",
    "n_cr": 3,
    "f_c_ref": 20,
    "exponent": 0.5,
    "flute_width": 110,
    "offset": 25,
    "cover": 80,
    "s_min": 300,
    "c_min": 100,
}
TABLE = {
    "title": "Tension",
    "direction": "tension",
    "base": "concrete",
    "f_c": 20,
    "state": "uncracked",
    "safety_factor": 4,
    "rows": [
        {"size": "M8", "h_ef": 40, "mean_ultimate": 8, "allowable": 2, "edge": {"least": 95}, "spacing": {"least": 80}}
    ],
}
ROWS = [
    *((name, WEDGE, own(**{name: value}), f"{ROW}/{name}", says) for name, (value, says) in FOREIGN.items()),
    ("bond", WEDGE, own(bond=[BOND]), f"{ROW}/bond", "goes with the basis adhesive"),
    ("deck", WEDGE, own(deck=[DECK]), f"{ROW}/deck/0", "has none (reading 37)"),
    ("weld", STUD, size(head={"a_brg": 603.2, "welded_stud": True}), "sizes/1/head/welded_stud", "en.v0_rk_s"),
    ("en missing", WEDGE, lambda f: row(f).pop("en"), f"{ROW}/en", "are required: state en"),
    ("en of another basis", ACI, own(en={"k8": 1.0}), f"{ROW}/en", "not with qualified; remove them"),
    ("nothing assessed", DROP_IN, unassessed, f"{FIRST}/en/n_rk_p_ucr", "n_rk_p_cr or n_rk_p_ucr"),
    ("gamma_inst silent", WEDGE, en(gamma_inst=None), f"{ROW}/en/gamma_inst", "Table 4.1"),
    ("c_cr_sp silent", WEDGE, en(c_cr_sp=None), f"{ROW}/en/c_cr_sp", "7.2.1.7"),
    ("exponent silent", WEDGE, en(psi_c_exponent=None), f"{ROW}/en/psi_c_exponent", "n_rk_p_cr is a number"),
    ("headed n_rk_p", STUD, en(n_rk_p_cr=9.0), f"{ROW}/en/n_rk_p_cr", "calculated"),
    ("headed word", STUD, en(n_rk_p_ucr="not_governing"), f"{ROW}/en/n_rk_p_ucr", "calculated"),
    ("headed psi_c", STUD, en(psi_c_exponent=0.5), f"{ROW}/en/psi_c_exponent", "calculated"),
    ("headed gamma_inst", STUD, en(gamma_inst=1.2), f"{ROW}/en/gamma_inst", "calculated"),
    ("headed n0_rk_sp", STUD, en(n0_rk_sp=30.0), f"{ROW}/en/n0_rk_sp", "calculated"),
    ("head missing", STUD, lambda f: f["sizes"][1].pop("head"), "sizes/1/head", "7.11"),
    ("head on a wedge", WEDGE, size(head={"a_brg": 90.0}), "sizes/1/head", "remove it"),
    ("crack strengthens", WEDGE, en(n_rk_p_cr=17.5), f"{ROW}/en/n_rk_p_cr", "not below n_rk_p_ucr"),
    ("k order", WEDGE, en(k_cr_n=9.0, k_ucr_n=8.9), f"{ROW}/en/k_cr_n", "9 exceeds k_ucr,N 8.9"),
    ("k_cr over the silent one", WEDGE, en(k_cr_n=11.1), f"{ROW}/en/k_cr_n", "11.1 exceeds k_ucr,N 11"),
    ("k_ucr under the silent one", WEDGE, en(k_ucr_n=7.6), f"{ROW}/en/k_ucr_n", "7.7 exceeds k_ucr,N 7.6"),
    ("k_ucr of a stud", STUD, en(k_ucr_n=8.8), f"{ROW}/en/k_ucr_n", "8.9 exceeds k_ucr,N 8.8"),
    ("c_cr_sp below c_min", WEDGE, en(c_cr_sp=49), f"{ROW}/en/c_cr_sp", "below c_min 50"),
    ("l_f", WEDGE, en(l_f=65.1), f"{ROW}/en/l_f", "more than h_ef 65"),
    ("n_rk_s in N", WEDGE, en(n_rk_s=28000), f"{ROW}/en/n_rk_s", "check value and unit"),
    ("n_rk_s small", WEDGE, en(n_rk_s=2.8), f"{ROW}/en/n_rk_s", "here 14.3 to 42.9"),
    ("shallow", WEDGE, own(h_ef=39.9), f"{ROW}/h_ef", "40 mm"),
    ("steel of 1000", SCREW, size(f_uta=1001), "sizes/1/f_uta", "most that EN 1992-4 covers"),
    ("h_min", STUD, own(h_min=125), f"{ROW}/h_min", "not above h_ef"),
    ("adhesive", WEDGE, lambda f: f.update(principle="adhesive"), f"{FIRST}/en/bond", "needs its bond resistances"),
    ("pin", WEDGE, lambda f: f.update(principle="hammer_set_pin"), "principle", "does not go with the basis en"),
    ("hook", STUD, lambda f: f.update(principle="hooked_cast_in"), "principle", "does not go with the basis en"),
    ("table", DROP_IN, lambda f: f.update(tables=[TABLE]), "tables", "give them a family of their own"),
    ("masonry", WEDGE, traits(bases=["concrete", "masonry"]), "traits/bases/1", "EN 1992-4 is for concrete"),
]
BONDED = [
    ("bond of a wedge", WEDGE, en(bond=[EN_BOND]), f"{ROW}/en/bond", "are of bonded fasteners"),
    ("psi0_sus of a wedge", WEDGE, en(psi0_sus=0.7), f"{ROW}/en/psi0_sus", "is of bonded fasteners"),
    ("no bond", SLOW, en(bond=None), f"{ROW}/en/bond", "one condition at least"),
    ("pull-out beside bond", SLOW, en(n_rk_p_ucr=20.0), f"{ROW}/en/n_rk_p_ucr", "state it in its bond"),
    ("gamma_inst beside bond", SLOW, en(gamma_inst=1.2), f"{ROW}/en/gamma_inst", "state it in its bond"),
    ("no c_cr_sp of bond", SLOW, en(c_cr_sp=None), f"{ROW}/en/c_cr_sp", "of splitting"),
    ("too deep", SLOW, own(h_ef=200.1, h_nom=210, h_min=300), f"{ROW}/h_ef", "4 d <= h_ef <= 20 d"),
    ("tau in psi", SLOW, bond(tau_rk_ucr=1450.0), f"{ROW}/en/bond/0/tau_rk_ucr", "check value and unit"),
    ("tau_rk_cr above", SLOW, bond(tau_rk_cr=15.1), f"{ROW}/en/bond/0/tau_rk_cr", "more than tau_rk_ucr, 15"),
    ("tau_rk_c1 above", SLOW, bond(tau_rk_c1=7.6), f"{ROW}/en/bond/0/tau_rk_c1", "more than tau_rk_cr, 7.5"),
    ("tau_rk_c1 uncracked", SLOW, bond(tau_rk_cr=None), f"{ROW}/en/bond/0/tau_rk_c1", "which is absent"),
    ("tau_rk_c2 alone", SLOW, bond(tau_rk_c2=5.0), f"{ROW}/en/bond/0/tau_rk_c2", "state c2 as well"),
    ("wet above dry", SLOW, bond(1, tau_rk_ucr=15.1), f"{ROW}/en/bond/1/tau_rk_ucr", "exceeds that in a dry one"),
    ("wet set better", SLOW, bond(0, gamma_inst=1.3), f"{ROW}/en/bond/1/gamma_inst", "better than in a dry one"),
    ("hot above cool", SLOW, bond(2, tau_rk_ucr=15.1), f"{ROW}/en/bond/2/tau_rk_ucr", "exceeds that in the cooler a"),
    ("lasting heat", SLOW, bond(3, long_term=80), f"{ROW}/en/bond/3/long_term", "exceeds short_term"),
    ("condition twice", SLOW, bond(1, hole="dry"), f"{ROW}/en/bond/1/hole", "is there twice"),
    ("c1 pull-out of bond", SLOW, c1_of_bond(n_rk_p_eq=8.0), f"{ROW}/en/c1/n_rk_p_eq", "is tau_rk_c1 in its bond"),
    ("c1 without tau", SLOW, without_tau_c1, f"{ROW}/en/c1", "is qualified by tau_rk_c1"),
    ("tau_c1 without c1", SLOW, en(c1=None), f"{ROW}/en/bond/0/tau_rk_c1", "state c1 as well"),
]
SEISMIC = [
    ("c2 alone", WEDGE, en(c2=C1), f"{ROW}/en/c2", "state c1 as well"),
    ("c1 steel", WEDGE, c1(n_rk_s_eq=28.1), f"{ROW}/en/c1/n_rk_s_eq", "more than the static N_Rk,s, 28"),
    ("c1 shear", WEDGE, c1(v0_rk_s_eq=17.1), f"{ROW}/en/c1/v0_rk_s_eq", "more than the static V0_Rk,s, 17"),
    ("c1 pull-out", WEDGE, c1(n_rk_p_eq=10.6), f"{ROW}/en/c1/n_rk_p_eq", "more than n_rk_p_cr 10.5"),
    ("c1 pull-out word", WEDGE, c1(n_rk_p_eq="not_governing"), f"{ROW}/en/c1/n_rk_p_eq", "more than n_rk_p_cr"),
    ("c1 pull-out silent", WEDGE, c1(n_rk_p_eq=None), f"{ROW}/en/c1/n_rk_p_eq", "needs n_rk_p_eq"),
    ("c1 steel silent", WEDGE, c1(n_rk_s_eq=None), f"{ROW}/en/c1/n_rk_s_eq", "required"),
    ("c1 uncracked", WEDGE, en(c1=C1, n_rk_p_cr=None), f"{ROW}/en/c1", "state en.n_rk_p_cr"),
    ("c1 headed", STUD, en(c1=C1), f"{ROW}/en/c1/n_rk_p_eq", "calculated: remove it"),
    ("c2 pull-out", WEDGE, c2(n_rk_p_eq=8.1), f"{ROW}/en/c2/n_rk_p_eq", "8.1 of C2 is more than that of C1"),
    ("c2 steel", WEDGE, en(c1=C1 | {"n_rk_s_eq": 27.0}, c2=C1), f"{ROW}/en/c2/n_rk_s_eq", "28 of C2 is more"),
    ("c2 shear alone", WEDGE, en(c1={**C1, "v0_rk_s_eq": 11.0}, c2=C1), f"{ROW}/en/c2/v0_rk_s_eq", "11.5 of C2 is"),
]
FILES = [
    (
        "bond falls",
        SLOW,
        all_bonds(tau_rk_cr=4.9, tau_rk_ucr=7.9, tau_rk_c1=4.0),
        f"{ROW}/en/bond/0/tau_rk_ucr",
        "below the",
    ),
    ("overhead", FAST, traits(tension_overhead=True), "traits/tension_overhead", "holds nothing overhead"),
    ("four diameters", WEDGE, own(s_min=39.9), f"{ROW}/s_min", "below 40, four diameters d_nom (7.2.2.5(4))"),
    ("hole through", WEDGE, own(h_min=83), f"{ROW}/h_min", "goes through"),
    ("hole silent", WEDGE, lambda f: row(f).pop("hole"), f"{ROW}/hole", "nobody can set it"),
    ("cracked", DROP_IN, traits(cracked_qualified=True), "traits/cracked_qualified", "which say false"),
    ("uncracked", WEDGE, traits(cracked_qualified=False), "traits/cracked_qualified", "which say true"),
    ("headed uncracked", STUD, traits(cracked_qualified=False), "traits/cracked_qualified", "which say true"),
    ("earthquake", DROP_IN, traits(seismic_qualified=True), "traits/seismic_qualified", "which say false"),
    ("no earthquake", UNDERCUT, traits(seismic_qualified=False), "traits/seismic_qualified", "which say true"),
    ("c1 n_rk_p_eq falls", UNDERCUT, deeper(n_rk_p_eq=19.9), f"{DEEPER}/c1/n_rk_p_eq", "below the 20"),
    ("c1 v0_rk_s_eq falls", UNDERCUT, deeper(v0_rk_s_eq=20.4), f"{DEEPER}/c1/v0_rk_s_eq", "below the 20.5"),
    ("n_rk_p_cr falls", WEDGE, en(n_rk_p_cr=8.4), f"{ROW}/en/n_rk_p_cr", "below the 8.5"),
    ("n_rk_p_ucr falls", WEDGE, en(n_rk_p_ucr=13.4), f"{ROW}/en/n_rk_p_ucr", "below the 13.5"),
    ("n_rk_s falls", WEDGE, en(n_rk_s=27.9), f"{ROW}/en/n_rk_s", "below the 28"),
    ("v0_rk_s falls", WEDGE, en(v0_rk_s=16.9), f"{ROW}/en/v0_rk_s", "below the 17"),
    ("n0_rk_sp falls", WEDGE, en(n0_rk_sp=11.9), f"{ROW}/en/n0_rk_sp", "below the 12"),
]


def _cases(rules):
    return [pytest.param(*rule[1:], id=rule[0]) for rule in rules]


@pytest.mark.parametrize(("family", "change", "path", "reason"), _cases([*RANGES, *ROWS, *BONDED, *SEISMIC, *FILES]))
def test_a_broken_rule_names_place_and_reason(document, save, family, change, path, reason):
    content = document(family)
    assert defects([save(content)]) == []
    change(content)
    found = defects([save(content)])
    assert found
    assert found[0].pointer.startswith(f"#/{path}")
    assert reason in found[0].reason
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([save(content)])
    assert (caught.value.path, caught.value.reason) == found[0][1:]


@pytest.mark.parametrize(("family", "change"), [pytest.param(rule[1], rule[2], id=rule[0]) for rule in RANGES])
def test_the_published_schema_refuses_what_is_out_of_range(document, family, change):
    """jsonschema (draft 2020-12) is the outside reader of the published schema."""
    content = document(family)
    change(content)
    assert not jsonschema.Draft202012Validator(family_json_schema()).is_valid(content)


def product(family, at=1, depth=1):
    """A row of a file as a product of a request."""
    own = {name: family[name] for name in ("units", "principle", "basis")}
    bases = family["traits"]["bases"]
    size = dict(family["sizes"][at])
    embedment = size.pop("embedments")[depth]
    return own | {"traits": {"bases": bases}, "size": size, "embedment": embedment, "tables": family.get("tables", [])}


_IN_ROW = [rule for rule in [*ROWS, *BONDED, *SEISMIC] if rule[0] != "nothing assessed"]


@pytest.mark.parametrize(("family", "change", "path", "reason"), _cases(_IN_ROW))
def test_a_request_is_told_the_same(document, family, change, path, reason):
    content = document(family)
    depth = min(1, len(content["sizes"][1]["embedments"]) - 1)
    InlineProduct.model_validate_json(json.dumps(product(content, depth=depth)))
    change(content)
    with pytest.raises(ValidationError, match=re.escape(reason)):
        InlineProduct.model_validate_json(json.dumps(product(content, depth=depth)))


@pytest.mark.parametrize("name", ["four diameters", "hole through"])
def test_a_check_tells_of_a_request_what_a_file_must_not_have(document, name):
    (change,) = [rule[2] for rule in FILES if rule[0] == name]
    content = document(WEDGE)
    change(content)
    InlineProduct.model_validate_json(json.dumps(product(content)))


@pytest.mark.parametrize(
    "figures",
    [
        {"c1": C1},
        {"c1": C1, "c2": C1},
        {"c1": {"n_rk_s_eq": 28.0, "n_rk_p_eq": 10.5, "v0_rk_s_eq": 17.0}},
        {"c1": {"n_rk_s_eq": 20.0, "n_rk_p_eq": 8.0}, "c2": {"n_rk_s_eq": 20.0, "n_rk_p_eq": 4.0}},
        {"n_rk_p_cr": "not_governing", "c1": C1 | {"n_rk_p_eq": "not_governing"}, "c2": C1},
    ],
    ids=["c1", "c2", "as_static", "tension_only", "cone_first"],
)
def test_figures_of_earthquake_that_break_nothing(document, figures):
    content = document(WEDGE)
    row(content)["en"].update(figures)
    InlineProduct.model_validate_json(json.dumps(product(content)))


def test_forty_millimetres_and_four_diameters_are_enough(document, save):
    content = document(WEDGE)
    content["sizes"] = content["sizes"][1:2]
    traits(seismic_qualified=False)(content)
    content["sizes"][0]["embedments"] = content["sizes"][0]["embedments"][1:]
    content["sizes"][0]["embedments"][0] |= {"h_ef": 40, "s_min": 40, "h_min": 83.1}
    assert defects([save(content)]) == []
    content["sizes"][0] |= {"f_uta": 1000}
    content["sizes"][0]["embedments"][0]["en"]["l_f"] = 40
    assert defects([save(content)]) == []


def test_limits_are_those_of_the_units_of_the_file(document, save):
    """40 mm are 1.5748 in, 1000 N/mm2 145,038 psi."""
    content = document(WEDGE) | {"units": "us"}
    content["sizes"] = content["sizes"][1:2]
    traits(seismic_qualified=False)(content)
    size = content["sizes"][0]
    size |= {"size": "3/8", "thread": "3/8", "d_a": 0.375, "a_se": 0.068, "f_uta": 145_000, "f_ya": 75_000}
    size["embedments"] = size["embedments"][1:]
    own = size["embedments"][0]
    own |= {"h_ef": 1.575, "h_nom": 2.0, "hole": {"diameter": 0.375, "depth": 2.4}, "h_min": 4, "c_min": 2, "s_min": 2}
    own["en"] |= {"n_rk_p_cr": 2000, "n_rk_p_ucr": 3000, "n_rk_s": 6300, "v0_rk_s": 3800, "c_cr_sp": 5.0}
    del own["en"]["n0_rk_sp"]
    assert defects([save(content)]) == []
    own["h_ef"] = 1.574
    assert [each.pointer for each in defects([save(content)])] == [f"#/{FIRST}/h_ef"]
    own["h_ef"], size["f_uta"] = 1.575, 145_100
    assert [each.pointer for each in defects([save(content)])] == ["#/sizes/0/f_uta"]


@pytest.mark.parametrize("principle", ["screw", "undercut", "displacement_controlled_expansion"])
def test_rules_of_chapter_17_are_not_asked(document, save, principle):
    """Below 6 d_a to the edge and beside (17.9.2), above 2/3 h_min (17.9.4), no screw's depth (17.3.4), no c_ac."""
    content = document(WEDGE) | {"principle": principle}
    content["sizes"] = content["sizes"][1:2]
    traits(seismic_qualified=False)(content)
    size = content["sizes"][0]
    size["embedments"] = size["embedments"][1:]
    size["embedments"][0] |= {"c_min": 30, "s_min": 40, "h_min": 84, "h_ef": 74, "hole": {"diameter": 10, "depth": 76}}
    assert defects([save(content)]) == []
    size["embedments"][0] |= {"h_ef": 101, "h_nom": 110, "hole": {"diameter": 10, "depth": 115}, "h_min": 150}
    assert defects([save(content)]) == []
