"""What a job is called, for the head of its sheets and cards."""

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.words import Text


@with_config(STRICT)
class Project(TypedDict, total=False):
    """Name and number of the job, revision and date of the calculation, and who prepared it: texts, printed as stated.

    They are in the answer, on sheets and on cards, change no result and are not in the digest.
    """

    name: Text
    number: Text
    revision: Text
    date: Text
    prepared_by: Text
