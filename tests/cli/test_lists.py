"""`hangpoint columns` and `hangpoint families`: what may stand in a file, as the check itself reads it."""

import csv
import io
import re

import pytest
from pydantic import TypeAdapter

from hangpoint.api.csv_columns import REQUIRED, column_path, columns
from hangpoint.api.schemas.field_texts import ALIKE, FIELD_TEXTS
from hangpoint.api.schemas.take_offs import TakeOffItem, TakeOffRequest
from hangpoint.product.catalogue import load_catalogue
from hangpoint.units import LENGTH, PRINTED


def bare(paths):
    return {re.sub(r"\.\d+", ".0", path) for path in paths}


def test_the_list_has_every_column_with_its_names_units_and_a_sentence(run):
    rows = list(csv.DictReader(io.StringIO(run("columns", "--csv").stdout)))
    assert {row["column"] for row in rows} == bare(columns(TakeOffItem))
    assert [row["column"] for row in rows[: len(REQUIRED)]] == list(REQUIRED)
    assert {row["column"] for row in rows if row["needed"] == "true"} == set(REQUIRED)
    assert bare(columns()) == {row["column"] for row in rows if row["take_off_only"] == "false"}
    assert all(row["what"].endswith(".") for row in rows)
    assert all(column_path(row["short_name"], TakeOffItem) == row["column"] for row in rows if row["short_name"])
    by_path = {row["column"]: row for row in rows}
    thickness = by_path["base.thickness"]
    assert (thickness["short_name"], thickness["us"], thickness["si"]) == ("thickness", "in", "mm")
    assert by_path["hangs.sprinkler"]["words"] == "yes;no"


def test_no_sentence_is_of_a_field_that_is_none():
    schemas = TypeAdapter(TakeOffRequest).json_schema()["$defs"]
    fields = {}
    for name, schema in schemas.items():
        fields.setdefault(ALIKE.get(name, name), set()).update(schema.get("properties", {}))
    assert [(name, set(texts) - fields[name]) for name, texts in FIELD_TEXTS.items() if set(texts) - fields[name]] == []


@pytest.mark.parametrize("width", [80, 130])
def test_the_list_on_a_terminal(run, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", str(width))
    text = run("columns").stdout
    assert max(map(len, text.splitlines())) <= width
    shown = " ".join(text.split())
    for part in (
        "edge_x_minus (base.edges.x_minus)",
        "[in or mm] or none.",
        "Of a take-off only",
        "rod_length",
        "notes",
    ):
        assert part in shown


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_empty_file_is_one_to_fill_in(run, tmp_path, system):
    assert run("columns", "--template", "job.csv", "--units", system).exit_code == 0
    path = tmp_path / "job.csv"
    (titles,) = csv.reader(io.StringIO(path.read_text(encoding="utf-8")))
    cells = {
        "id": "A-1",
        "hangs.kind": "weight",
        "hangs.weight": "200",
        "hangs.nature": "dead",
        "base.kind": "concrete",
    }
    cells |= {"family": "wedge-expansion-zinc", "anchor_size": "3/8", "h_ef": "2.5 in", "seismic_category": "B"}
    cells |= {"base.density": "normalweight", "thickness": "8 in", "notes": "see detail 5"}
    cells |= {f"edge_{side}": "none" for side in ("x_minus", "x_plus", "y_minus", "y_plus")}
    if system == "si":
        cells["hangs.weight"] = "0.9"
    names = [title.partition(" [")[0] for title in titles]
    assert set(cells) <= set(names)
    assert names[0] == "id"
    with path.open("a", encoding="utf-8") as opened:
        csv.writer(opened).writerow([cells.get(name, "") for name in names])
    assert "PASSED 1" in run("check", path).stdout
    again = run("columns", "--template", "job.csv")
    assert (again.exit_code, "can't be written" in again.stderr) == (2, True)
    assert "A-1" in path.read_text(encoding="utf-8")


def test_families_of_the_catalogue(run):
    shown = " ".join(run("families").stdout.split())
    for family in load_catalogue().families.values():
        assert f"{family.id} {family.name}. Basis: {family.basis}; in {', '.join(family.traits.bases)}; data" in shown
    assert "3/8 at 1.75, 2.5" in shown


def test_addresses_of_a_family(run):
    text = run("families", "wedge-expansion-zinc").stdout
    own = [address for address in load_catalogue().addresses if address.startswith("wedge-expansion-zinc/")]
    assert re.findall(r"^ *(wedge-\S+/\S+)", text, flags=re.MULTILINE) == own
    assert f"h_ef 2.5 {PRINTED['us'][LENGTH.name]}" in text


def test_a_family_that_is_none(run):
    result = run("families", "wedge-expansion-zink")
    assert (result.exit_code, "Possible: wedge-expansion-zinc" in result.stderr) == (2, True)
    assert run("families", "--catalogue", "nowhere").exit_code == 2
