"""What several methods share cites each of them: nothing is renamed by its text, and none is left out by chance."""

import pytest

from architecture.random_records import record_classes
from hangpoint.core.clauses import Citing, Clause, cited, is_bare
from hangpoint.core.quantity import columns

OF_ONE_METHOD = ("hangpoint.core.aci318_19.", "hangpoint.core.en1992_4.", "hangpoint.core.site.")
LINES = [
    (f"{kind.__name__}.{name}", q.clause)
    for kind in record_classes()
    if not kind.__module__.startswith(OF_ONE_METHOD)
    for name, q in columns(kind).items()
    if q.clause
]


def test_a_line_that_methods_share_is_of_no_code_alone():
    assert len(LINES) > 100
    assert [name for name, clause in LINES if is_bare(clause) and not isinstance(clause, Clause)] == []


@pytest.mark.parametrize("citing", [each for each in Citing if each is not Citing.CHAPTER_17])
def test_no_method_cites_a_bare_clause_of_chapter_17(citing):
    found = {name: cited(clause, citing) for name, clause in LINES}
    assert {name: text for name, text in found.items() if is_bare(text)} == {}


def test_by_the_european_code_no_line_cites_an_american_one():
    found = {cited(clause, Citing.EN1992_4) for name, clause in LINES if isinstance(clause, Clause)}
    assert {"EN 1990 6.4.3", "EN 1990 (6.12b)", "EN 1990 6.5.3", "EN 1992-4 6.2", "statics"} <= found
    assert not [each for each in found if each.startswith(("ACI", "ASCE")) or is_bare(each)]


def test_a_clause_is_a_text_that_knows_others():
    own = Clause("17.2.1", en="EN 1992-4 6.2", service="statics", table="table")
    assert own == "17.2.1"
    assert [cited(own, each) for each in Citing] == ["17.2.1", "EN 1992-4 6.2", "table", "ACI 318-19 17.2.1", "statics"]
    assert [cited("17.2.1", each) for each in Citing] == ["17.2.1", *["ACI 318-19 17.2.1"] * 4]
    assert {cited("statics", each) for each in Citing} == {"statics"}
    assert cited(Clause("ASCE 7 13.3.1.2", en=""), Citing.EN1992_4) == ""
