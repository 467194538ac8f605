"""Questions to the engineer that an answer decides: what the request is silent about and points fail by.

Those of `Triage` are asked wherever they arise; these only where an answer to them makes a point pass that doesn't.
"""

from hangpoint.core.vocabulary.triage import TriageEntry
from hangpoint.core.vocabulary.words import Listed


class RfiQuestion(Listed):
    """What to ask because points that don't pass would with another answer."""

    STRENGTH = TriageEntry(
        code="strength-not-stated",
        text="The strength of the concrete is not stated: the least that is usual is taken, and points fail by it.",
        question="Please state the specified strength of the concrete at these places.",
        clause="reading 0",
    )
    STATE = TriageEntry(
        code="state-not-stated",
        text="The concrete is taken as cracked, because nobody said otherwise, and points fail by it.",
        question="Please state whether the concrete at these places stays uncracked under service loads, shrinkage and"
        " temperature, and for how long that holds.",
        clause="reading 0",
    )
    SUPPLEMENTARY = TriageEntry(
        code="supplementary-reinforcement-not-stated",
        text="No supplementary reinforcement is taken to be present, and points fail by it.",
        question="Please state whether reinforcement ties the breakout surface of these anchors into the member, and"
        " send its layout.",
        clause="reading 0",
    )
