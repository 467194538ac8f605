"""Every defect of family files with file, place and reason; none where they can be used."""

import pytest

from hangpoint.core.errors import CatalogueError
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.check import defects

WEDGE, BOLT = "wedge-expansion-zinc", "headed-bolt"


def test_good_files_have_none(document, save, tmp_path):
    save(document(WEDGE), "a.json")
    save([document(BOLT), document("drop-in-zinc")], "b.json")
    assert defects([tmp_path]) == []
    assert defects([tmp_path / "a.json", tmp_path / "b.json"]) == []


def test_a_list_is_not_told_too_short_for_an_entry_that_is_wrong(document, save):
    """A flaw of its only embedment left a size without any, which was told as a flaw of its own."""
    content = document(WEDGE)
    content["sizes"] = content["sizes"][:1]
    content["sizes"][0]["embedments"] = content["sizes"][0]["embedments"][:1]
    content["sizes"][0]["embedments"][0]["h_ef"] = -2
    assert [each.pointer for each in defects([save(content)])] == ["#/sizes/0/embedments/0/h_ef"]
    content["sizes"][0]["embedments"] = []
    assert [each.pointer for each in defects([save(content)])] == ["#/sizes/0/embedments"]


def test_every_field_is_told_at_once(document, save):
    content = document(WEDGE)
    content["sizes"][0]["d_a"] = "1/4"
    content["sizes"][1]["embedments"][0]["n_p_cr"] = "breakout"
    del content["traits"]["flush"]
    content["colour"] = "grey"
    file = save([document(BOLT), content])
    found = {defect.pointer: defect for defect in defects([file])}
    assert set(found) == {"#/1/sizes/0/d_a", "#/1/sizes/1/embedments/0/n_p_cr", "#/1/traits/flush", "#/1/colour"}
    assert {defect.file for defect in found.values()} == {str(file)}
    assert "valid number" in found["#/1/sizes/0/d_a"].reason
    assert "required" in found["#/1/traits/flush"].reason


def test_every_rule_between_fields_is_told_at_once(document, save):
    content = document(WEDGE)
    content["sizes"][1]["embedments"][1] |= {"n_p_eq": 2650, "c_min": 2.9}
    content["sizes"][2]["f_ya"] = 106000
    content["traits"]["seismic_qualified"] = False
    found = [defect.pointer for defect in defects([save(content)])]
    assert found == [
        "#/sizes/1/embedments/1/n_p_eq",
        "#/sizes/1/embedments/1/c_min",
        "#/sizes/2/f_ya",
        "#/traits/seismic_qualified",
    ]


def test_one_bad_file_does_not_hide_another(document, save, tmp_path):
    content = document(WEDGE)
    content["sizes"][0]["f_ya"] = 200000
    paths = [save("{", "a.json"), save(content, "b.json"), tmp_path / "none.json", save(document(BOLT), "d.json")]
    found = [(defect.file, defect.pointer) for defect in defects(paths)]
    assert found == [(str(paths[0]), "#"), (str(paths[1]), "#/sizes/0/f_ya"), (str(paths[2]), "#")]


def test_ids_are_unique_across_files(document, save):
    first, second = save(document(BOLT), "a.json"), save([document(WEDGE), document(BOLT)], "b.json")
    assert [defect[:2] for defect in defects([first, second])] == [(str(second), "#/1/id")]


@pytest.mark.parametrize("paths", [[], ["empty list"]])
def test_no_family_is_a_defect(save, paths):
    (found,) = defects([save("[]") for _ in paths])
    assert "no family was found" in found.reason


BROKEN = ["{", '{"format": NaN}', "5", "[5]", '{"format": 2}', '{"format": 1, "format": 1}', "[" * 100_000]


@pytest.mark.parametrize("text", BROKEN)
def test_what_the_check_says_first_the_loader_says(save, text):
    file = save(text)
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([file])
    first = defects([file])[0]
    assert (first.file, first.pointer, first.reason) == (caught.value.file, caught.value.path, caught.value.reason)


NUMBERS = {"h_ef": 9, "h_min": 1, "c_min": 0.1, "n_p_cr": 9000, "k_cr": 7, "f_ya": 2e5, "d_a": 0.01, "torque": 0}


@pytest.mark.parametrize("name", NUMBERS)
def test_the_loader_says_one_of_the_defects(document, save, name):
    """A number that breaks a rule: check and loader find it by the same rules."""
    content = document(WEDGE)
    size = content["sizes"][1]
    (size if name in size else size["embedments"][1])[name] = NUMBERS[name]
    file = save(content)
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([file])
    assert (caught.value.path, caught.value.reason) == defects([file])[0][1:]
