"""Change detector, not verification: the answers to the example job are those committed beside this file.

A difference says that a number moved. Whoever moves one on purpose writes the answers anew (`answers.py`) and says
why in the changelog, under its subject.
"""

import pytest

from regression.answers import MODES, SCHEDULE, differences, job_tables, table


@pytest.fixture(scope="module")
def made():
    return job_tables()


@pytest.mark.parametrize(("place", "committed"), [(0, SCHEDULE), (1, MODES)], ids=["schedule", "modes"])
def test_answers_of_the_job_have_not_moved(made, place, committed):
    old = table(committed.read_text(encoding="utf-8"))
    assert len(old) > 300
    assert list(differences(old, table(made[place]))) == []


def test_a_moved_number_is_seen():
    assert list(differences({"a": [1.0, "x"]}, {"a": [1.0 + 1e-8, "x"]}))
    assert list(differences({"a": [1.0, "x"]}, {"a": [1.0, "y"]}))
    assert not list(differences({"a": 1.0}, {"a": 1.0 + 1e-11}))
