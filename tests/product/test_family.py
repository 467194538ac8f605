"""Every rule of a family file has an example that breaks it and nothing else: file, place and reason are told."""

import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from pydantic import ValidationError

from hangpoint.core.errors import CatalogueError
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.family import Family, family_json_schema
from hangpoint.product.fields import UNITS_OF_KIND

WEDGE, DROP_IN, SCREW, BOLT = "wedge-expansion-zinc", "drop-in-zinc", "large-screw-internal-thread-zinc", "headed-bolt"
UNDERCUT = "undercut-stainless-metric"
PIN, SMALL = "driven-pin-powder-zinc", "small-screw-hex-zinc"
BOND = {"temperature": "a", "long_term": 110, "short_term": 130, "hole": "dry", "category": 1, "tau_uncr": 1500}
DEEP = "sizes/1/embedments/1"
FAMILIES = sorted(load_catalogue().families)
Change = Callable[[dict[str, Any]], Any]


def put(path: str, value: Any) -> Change:
    """Set what lies at the path, a part a slash."""

    def change(family: dict[str, Any]) -> None:
        *parents, last = path.split("/")
        place: Any = family
        for part in parents:
            place = place[int(part)] if part.isdigit() else place[part]
        place[int(last) if last.isdigit() else last] = value

    return change


def drop(path: str) -> Change:
    """Remove what lies at the path."""

    def change(family: dict[str, Any]) -> None:
        *parents, last = path.split("/")
        place: Any = family
        for part in parents:
            place = place[int(part)] if part.isdigit() else place[part]
        del place[int(last) if last.isdigit() else last]

    return change


def both(*changes: Change) -> Change:
    def change(family: dict[str, Any]) -> None:
        for each in changes:
            each(family)

    return change


def hooked(e_h: float) -> Change:
    """Turn the first bolt into a hooked one and leave out the rest."""

    def change(family: dict[str, Any]) -> None:
        family["principle"] = "hooked_cast_in"
        family["sizes"] = family["sizes"][:1]
        del family["sizes"][0]["head"]
        family["sizes"][0]["hook"] = {"e_h": e_h}

    return change


def add_size(family: dict[str, Any]) -> None:
    family["sizes"].append(dict(family["sizes"][0]))


def add_embedment(family: dict[str, Any]) -> None:
    family["sizes"][1]["embedments"].append(dict(family["sizes"][1]["embedments"][0]))


SCHEMA_RULES = [
    ("id pattern", WEDGE, put("id", "Wedge A"), "#/id", "pattern"),
    ("id length", WEDGE, put("id", "a" * 41), "#/id", "pattern"),
    ("unknown field", WEDGE, put(f"{DEEP}/k_crr", 17), f"#/{DEEP}/k_crr", "is k_cr meant?"),
    ("missing field", WEDGE, drop(f"{DEEP}/h_min"), f"#/{DEEP}/h_min", "required"),
    ("no coercion", WEDGE, put("sizes/0/d_a", "0.25"), "#/sizes/0/d_a", "valid number"),
    ("true is no number", WEDGE, put("sizes/0/d_a", True), "#/sizes/0/d_a", "valid number"),
    ("one is no boolean", WEDGE, put("sizes/0/ductile", 1), "#/sizes/0/ductile", "valid boolean"),
    ("positive", WEDGE, put("sizes/0/a_se", 0), "#/sizes/0/a_se", "greater than or equal to 0.001"),
    ("pullout word", WEDGE, put(f"{DEEP}/n_p_cr", "breakout"), f"#/{DEEP}/n_p_cr", "not_governing"),
    ("pullout number", WEDGE, put(f"{DEEP}/n_p_cr", -5), f"#/{DEEP}/n_p_cr", "greater than or equal to 0.001"),
    ("principle word", WEDGE, put("principle", "wedge"), "#/principle", "torque_controlled_expansion"),
    ("category", WEDGE, put(f"{DEEP}/category", 4), f"#/{DEEP}/category", "1, 2 or 3"),
    ("k limit of 24", WEDGE, put(f"{DEEP}/k_uncr", 24.5), f"#/{DEEP}/k_uncr", "17.6.2.2.1"),
    ("trait stated", WEDGE, drop("traits/tension_overhead"), "#/traits/tension_overhead", "required"),
    ("no sizes", WEDGE, put("sizes", []), "#/sizes", "at least 1"),
    ("thread", WEDGE, put("sizes/0/thread", "1/0"), "#/sizes/0/thread", "pattern"),
    ("date", WEDGE, put("source", {"document": "d", "date": "2024-13", "standard": "s"}), "#/source/date", "pattern"),
]

RECORD_RULES = [
    ("n_p order", WEDGE, put(f"{DEEP}/n_p_cr", 3980), f"#/{DEEP}/n_p_cr", "not below N_p,uncr"),
    ("n_p_eq order", WEDGE, put(f"{DEEP}/n_p_eq", 2650), f"#/{DEEP}/n_p_eq", "exceeds N_p,cr"),
    ("n_p_eq word", WEDGE, put(f"{DEEP}/n_p_eq", "not_governing"), f"#/{DEEP}/n_p_eq", "exceeds N_p,cr"),
    ("k order", WEDGE, both(put(f"{DEEP}/k_cr", 22), put(f"{DEEP}/k_uncr", 21)), f"#/{DEEP}/k_cr", "exceeds k_uncr"),
    ("k of si in us", WEDGE, put(f"{DEEP}/k_cr", 7), f"#/{DEEP}/k_cr", "wrong by 2.4"),
    ("k of us in si", UNDERCUT, put("sizes/0/embedments/0/k_cr", 17), "#/sizes/0/embedments/0/k_cr", "wrong by 2.4"),
    ("k missing", WEDGE, drop(f"{DEEP}/k_cr"), f"#/{DEEP}/k_cr", "required too"),
    ("category needed", WEDGE, drop(f"{DEEP}/category"), f"#/{DEEP}/category", "needs its category"),
    ("no pullout", DROP_IN, drop("sizes/0/embedments/0/n_p_uncr"), "#/sizes/0/embedments/0/n_p_uncr", "17.6.3.1"),
    ("exponent", WEDGE, drop(f"{DEEP}/n_exponent"), f"#/{DEEP}/n_exponent", "exponent n"),
    ("cracked first", WEDGE, drop(f"{DEEP}/n_p_cr"), f"#/{DEEP}/n_p_cr", "only in cracked"),
    ("seismic n_p_eq", WEDGE, drop(f"{DEEP}/n_p_eq"), f"#/{DEEP}/n_p_eq", "17.10.3"),
    ("seismic v_sa_eq", WEDGE, drop(f"{DEEP}/v_sa_eq"), f"#/{DEEP}/v_sa_eq", "17.10.3"),
    ("v_sa order", WEDGE, put(f"{DEEP}/v_sa_eq", 4000), f"#/{DEEP}/v_sa_eq", "exceeds V_sa"),
    ("h_nom", WEDGE, put(f"{DEEP}/h_nom", 2.4), f"#/{DEEP}/h_nom", "below h_ef"),
    ("hole depth", WEDGE, put(f"{DEEP}/hole/depth", 2.5), f"#/{DEEP}/hole/depth", "shallower"),
    ("h_min above h_ef", BOLT, put("sizes/0/embedments/0/h_min", 4), "#/sizes/0/embedments/0/h_min", "not above h_ef"),
    ("a_se within d_a", WEDGE, put("sizes/1/a_se", 0.2), "#/sizes/1/a_se", "full circle"),
    ("f_ya below f_uta", WEDGE, put("sizes/1/f_ya", 106000), "#/sizes/1/f_ya", "not below f_uta"),
    ("engagement", DROP_IN, put("sizes/0/thread_engagement/least", 1), "#/sizes/0/thread_engagement/least", "exceeds"),
    ("head needed", BOLT, drop("sizes/0/head"), "#/sizes/0/head", "needs its head"),
    ("hook needed", BOLT, put("principle", "hooked_cast_in"), "#/sizes/0/head", "does not go with hooked_cast_in"),
    ("head on a wedge", WEDGE, put("sizes/1/head", {"a_brg": 0.1}), "#/sizes/1/head", "remove it"),
    ("cast-in n_p", BOLT, put("sizes/0/embedments/0/n_p_cr", 900), "#/sizes/0/embedments/0/n_p_cr", "calculated"),
    ("cast-in k", BOLT, put("sizes/0/embedments/0/k_uncr", 24), "#/sizes/0/embedments/0/k_uncr", "k_c = 24"),
    ("cast-in category", BOLT, put("sizes/0/embedments/0/category", 1), "#/sizes/0/embedments/0/category", "no categ"),
    ("pairing", WEDGE, put("basis", "cast_in"), "#/principle", "does not go with the basis"),
    ("thread needed", DROP_IN, drop("sizes/0/thread"), "#/sizes/0/thread", "internally threaded"),
]

FILE_RULES = [
    ("bond", WEDGE, put(f"{DEEP}/bond", [BOND]), f"#/{DEEP}/bond", "goes with the basis adhesive"),
    ("sleeve", SCREW, put(f"{DEEP}/distance_sleeve", True), f"#/{DEEP}/distance_sleeve", "17.7.2.2.1"),
    ("upward", WEDGE, put("traits/upward", True), "#/traits/upward", "17.2.3"),
    ("age", WEDGE, put("traits/least_age_days", 28), "#/traits/least_age_days", "17.2.2"),
    ("stud", WEDGE, put("sizes/1/head", {"a_brg": 0.1, "welded_stud": True}), "#/sizes/1/head", "remove it"),
    ("v_sa falls", WEDGE, put(f"{DEEP}/v_sa", 3000), f"#/{DEEP}/v_sa", "v_sa 3000 is below the 3150"),
    ("v_sa_eq falls", WEDGE, put(f"{DEEP}/v_sa_eq", 2600), f"#/{DEEP}/v_sa_eq", "v_sa_eq 2600 is below the 2680"),
    ("table base", PIN, put("tables/2/base", "masonry"), "#/tables/2/base", "not made for the base masonry"),
    ("masonry says what", SMALL, drop("tables/2/masonry"), "#/tables/2/masonry", "hollow, grouted or solid"),
    ("concrete has no units", SMALL, put("tables/0/masonry", "solid"), "#/tables/0/masonry", "no other table"),
    (
        "allowable falls",
        SMALL,
        both(put("tables/0/rows/4/allowable", 260), put("tables/0/rows/4/mean_ultimate", 1040)),
        "#/tables/0/rows/4/allowable",
        "below the 270",
    ),
    ("identity", SMALL, put("tables/0/rows/4/mean_ultimate", 1400), "#/tables/0/rows/4/allowable", "divided by the"),
    ("masonry says of what", SMALL, drop("tables/2/material"), "#/tables/2/material", "concrete or clay"),
    ("masonry says where", SMALL, drop("tables/2/locations"), "#/tables/2/locations", "at least one"),
    ("no core in a wall", SMALL, put("tables/2/locations", ["core"]), "#/tables/2/locations", "at least one"),
    ("concrete has no place", SMALL, put("tables/0/locations", ["face"]), "#/tables/0/locations", "none"),
    ("concrete has no joint", SMALL, put("tables/0/least_joint", 1), "#/tables/0/least_joint", "goes with the base"),
    ("concrete has no cell", SMALL, put("tables/0/one_a_cell", True), "#/tables/0/one_a_cell", "cells are those"),
    ("masonry has no strand", SMALL, put("tables/2/least_strand", 1), "#/tables/2/least_strand", "hollow_core"),
    ("row without an edge", SMALL, drop("tables/0/rows/0/edge"), "#/tables/0/rows/0/edge", "needs its edge"),
    ("row without a spacing", SMALL, drop("tables/0/rows/0/spacing"), "#/tables/0/rows/0/spacing", "its spacing"),
    ("full below least", SMALL, put("tables/0/rows/0/edge/full", 1), "#/tables/0/rows/0/edge/full", "below the least"),
    ("factor at no distance", SMALL, drop("tables/0/rows/0/edge/full"), "#/tables/0/rows/0/edge/factor", "together"),
    ("exponent without end", SMALL, drop("tables/0/least_strength"), "#/tables/0/least_strength", "go together"),
    ("end without exponent", SMALL, drop("tables/0/strength_exponent"), "#/tables/0/strength_exponent", "together"),
    ("end above the tests", SMALL, put("tables/0/least_strength", 3001), "#/tables/0/least_strength", "exceeds"),
    ("two alike", SMALL, put("tables/1/direction", "tension"), "#/tables/1/title", "another table has the same"),
    ("table is no test", SMALL, put("traits/cracked_qualified", True), "#/traits/cracked_qualified", "contradicts"),
    ("table is no shake", PIN, put("traits/seismic_qualified", True), "#/traits/seismic_qualified", "contradicts"),
    ("c_ac needed", WEDGE, drop(f"{DEEP}/c_ac"), f"#/{DEEP}/c_ac", "17.9.5"),
    ("hole needed", WEDGE, drop(f"{DEEP}/hole"), f"#/{DEEP}/hole", "nobody can set it"),
    ("two sizes", WEDGE, add_size, "#/sizes/5/size", "there twice"),
    ("two embedments", WEDGE, add_embedment, "#/sizes/1/embedments/2/h_ef", "there twice"),
    ("c_min 8 d_a", WEDGE, put(f"{DEEP}/c_min", 2.9), f"#/{DEEP}/c_min", "below 3 of Table 17.9.2"),
    ("s_min 6 d_a", WEDGE, put(f"{DEEP}/s_min", 2.2), f"#/{DEEP}/s_min", "below 2.25 of Table 17.9.2"),
    (
        "c_min 10 d_a",
        DROP_IN,
        put("sizes/1/embedments/0/c_min", 4.9),
        "#/sizes/1/embedments/0/c_min",
        "below 5 of Table 17.9.2",
    ),
    ("screw c_min 6 d_a", SCREW, put(f"{DEEP}/c_min", 2.2), f"#/{DEEP}/c_min", "below 2.25 of Table 17.9.2"),
    ("screw s_min 6 d_a", SCREW, put(f"{DEEP}/s_min", 2.2), f"#/{DEEP}/s_min", "below 2.25 of Table 17.9.2"),
    ("undercut c_min", UNDERCUT, put("sizes/0/embedments/0/c_min", 83), "#/sizes/0/embedments/0/c_min", "below 84"),
    ("bolt s_min 4 d_a", BOLT, put("sizes/0/embedments/0/s_min", 1.9), "#/sizes/0/embedments/0/s_min", "below 2 of"),
    ("bolt cover", BOLT, put("sizes/0/embedments/0/c_min", 0.9), "#/sizes/0/embedments/0/c_min", "below 1 of"),
    ("torqued bolt", BOLT, put("sizes/0/embedments/0/torque", 30), "#/sizes/0/embedments/0/c_min", "below 3 of"),
    ("17.9.4", WEDGE, both(put(f"{DEEP}/h_min", 3.7), put(f"{DEEP}/hole/depth", 2.9)), f"#/{DEEP}/h_min", "17.9.4"),
    ("hole near the far face", WEDGE, put(f"{DEEP}/hole/depth", 4), f"#/{DEEP}/h_min", "two of its diameters"),
    ("cover of a bolt", BOLT, put("sizes/0/embedments/0/h_min", 4.7), "#/sizes/0/embedments/0/h_min", "plus cover"),
    (
        "screw above 10 d_a",
        SCREW,
        both(put(f"{DEEP}/h_ef", 3.8), put(f"{DEEP}/h_nom", 3.85), put(f"{DEEP}/h_min", 7)),
        f"#/{DEEP}/h_ef",
        "17.3.4",
    ),
    ("screw below 5 d_a", SCREW, put("sizes/2/embedments/0/h_ef", 2.4), "#/sizes/2/embedments/0/h_ef", "17.3.4"),
    ("screw below 1.5 in", SCREW, put("sizes/0/embedments/0/h_ef", 1.4), "#/sizes/0/embedments/0/h_ef", "17.3.4"),
    ("hook short", BOLT, hooked(1.4), "#/sizes/0/hook/e_h", "3 d_a <= e_h <= 4.5 d_a"),
    ("hook long", BOLT, hooked(2.3), "#/sizes/0/hook/e_h", "3 d_a <= e_h <= 4.5 d_a"),
    (
        "n_p_cr falls with h_ef",
        WEDGE,
        both(put(f"{DEEP}/n_p_cr", 1500), put(f"{DEEP}/n_p_eq", 1400)),
        f"#/{DEEP}/n_p_cr",
        "is below the 1510",
    ),
    ("n_p_eq falls with h_ef", WEDGE, put(f"{DEEP}/n_p_eq", 1300), f"#/{DEEP}/n_p_eq", "is below the 1360"),
    (
        "n_p_uncr falls with h_ef",
        SCREW,
        put("sizes/1/embedments/0/n_p_uncr", 5500),
        f"#/{DEEP}/n_p_uncr",
        "is below the 5500",
    ),
    (
        "n_p_cr falls with d_a",
        SCREW,
        both(put("sizes/1/embedments/0/n_p_cr", 1100), put("sizes/1/embedments/0/n_p_eq", 1090)),
        "#/sizes/1/embedments/0/n_p_cr",
        "is below the 1150",
    ),
    ("cracked trait", WEDGE, put("traits/cracked_qualified", False), "#/traits/cracked_qualified", "contradicts"),
    ("seismic trait", DROP_IN, put("traits/seismic_qualified", True), "#/traits/seismic_qualified", "contradicts"),
    ("no source", WEDGE, put("invented", False), "#/source", "document and date"),
    (
        "invented with source",
        WEDGE,
        put("source", {"document": "d", "date": "2024-05", "standard": "s"}),
        "#/source",
        "have no source",
    ),
    ("no table", DROP_IN, both(put("basis", "allowable_table"), drop("tables")), "#/tables", "one table at least"),
    ("table row", DROP_IN, put("tables/0/rows/1/h_ef", 9), "#/tables/0/rows/1", "not among the sizes"),
    (
        "table row twice",
        DROP_IN,
        put(
            "tables/0/rows/1",
            {
                "size": "1/4",
                "h_ef": 1.5,
                "mean_ultimate": 4,
                "allowable": 1,
                "edge": {"least": 2},
                "spacing": {"least": 2},
            },
        ),
        "#/tables/0/rows/1",
        "there twice",
    ),
    (
        "hammer-set pin overhead",
        DROP_IN,
        both(put("basis", "allowable_table"), put("principle", "hammer_set_pin")),
        "#/traits/tension_overhead",
        "no tension overhead",
    ),
]


@pytest.mark.parametrize(
    ("family", "change", "path", "reason"),
    [pytest.param(*r[1:], id=r[0]) for r in (*SCHEMA_RULES, *RECORD_RULES, *FILE_RULES)],
)
def test_a_broken_rule_names_file_place_and_reason(document, save, family, change, path, reason):
    content = document(family)
    file = save(content)
    load_catalogue([file])
    change(content)
    file = save(content)
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([file])
    assert caught.value.file == str(file)
    assert caught.value.path == path
    assert reason in caught.value.reason


def test_tests_excuse_spacing_edge_and_thickness(document, save):
    content = document(WEDGE)
    row = content["sizes"][1]["embedments"][1]
    row |= {"c_min": 2.0, "s_min": 1.5, "spacing_tested": True, "h_min": 3.5, "thickness_tested": True}
    assert load_catalogue([save(content)]).table.thickness_tested.tolist().count(True) == 1


def test_hook_within_its_range_loads(document, save):
    content = document(BOLT)
    hooked(2.25)(content)
    table = load_catalogue([save(content)]).table
    assert table.pullout_method.tolist() == [2, 2]
    assert table.e_h.tolist() == [2.25, 2.25]


def test_a_family_can_not_be_changed(document):
    family = Family.model_validate(document(WEDGE))
    with pytest.raises(ValidationError, match="frozen"):
        family.name = "another"


def test_tables_of_tests_may_be_shallower_than_chapter_17_has_screws(document, save):
    """17.3.4 is for the equations of the chapter: a table of another embedment stands on its tests."""
    content = document(SMALL)
    assert content["sizes"][0]["embedments"][0]["h_ef"] < 1.5
    assert len(load_catalogue([save(content)]).table) == 5


@pytest.mark.parametrize("family", FAMILIES)
def test_the_published_schema_takes_the_built_in_files(document, family):
    jsonschema.Draft202012Validator(family_json_schema()).validate(document(family))


@pytest.mark.parametrize(("family", "change"), [pytest.param(r[1], r[2], id=r[0]) for r in SCHEMA_RULES])
def test_the_published_schema_refuses_what_the_loader_refuses(document, family, change):
    """jsonschema (draft 2020-12) is the outside reader of the published schema."""
    content = document(family)
    change(content)
    assert not jsonschema.Draft202012Validator(family_json_schema()).is_valid(content)


def test_the_published_schema_is_valid_and_says_what_every_field_is():
    schema = family_json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    models = [schema, *schema["$defs"].values()]
    silent = [
        (model["title"], name)
        for model in models
        for name, field in model.get("properties", {}).items()
        if "description" not in field and "$ref" not in field and "$ref" not in json.dumps(field)
    ]
    assert silent == []


def test_every_unit_of_the_schema_is_one_of_the_table():
    schema = family_json_schema()
    units = [
        field["x-unit"]
        for model in schema["$defs"].values()
        for field in model.get("properties", {}).values()
        if "x-unit" in field
    ]
    assert len(units) >= 20
    assert all(unit in UNITS_OF_KIND.values() for unit in units)
