"""The words of the commands' options are those of a request."""

from typing import get_args

import pytest

from hangpoint.api.query import DELIMITERS, WORDS
from hangpoint.api.schemas import words
from hangpoint.api.schemas.submittals import SheetsWord
from hangpoint.api.schemas.test_plans import AnchorUse, ProofRuleWord
from hangpoint.cli import options


def test_an_encoding_is_one_of_the_request():
    assert tuple(options.Encoding) == WORDS["encoding"]


@pytest.mark.parametrize("name", ["UnitSystem", "DesignCode", "LoadStandard", "Combinations", "Detail"])
def test_an_option_takes_every_word_of_the_request(name):
    assert tuple(getattr(options, name)) == get_args(getattr(words, name))


def test_a_delimiter_is_the_sign_that_the_service_takes_for_it():
    named = {each.value: each.sign for each in options.Delimiter}
    assert named == {word: sign for word, sign in DELIMITERS.items() if word != sign}


@pytest.mark.parametrize(
    ("name", "word"), [("Sheets", SheetsWord), ("ProofRule", ProofRuleWord), ("AnchorUse", AnchorUse)]
)
def test_an_option_of_a_submittal_takes_every_word_of_the_request(name, word):
    assert tuple(getattr(options, name)) == get_args(word)
