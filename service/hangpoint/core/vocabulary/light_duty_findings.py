"""Findings of what hangs from light-duty fasteners."""

from hangpoint.core.vocabulary.words import Severity, finding

PIN_ALONE = finding(
    "pin-alone",
    Severity.VIOLATION,
    "A driven or hammer-set pin pulls out without warning: it holds a load only where what hangs stays up when one"
    " fails. State attachment.survives_loss where the engineer has shown that, or the missing hanger beside it in the"
    " run.",
    "reading 33",
)
CEILING_ONLY = finding(
    "ceiling-only",
    Severity.VIOLATION,
    "This family is made for suspended ceilings, and what hangs is not stated to be one. State the trade as ceiling, or"
    " take another family.",
    "product data",
)
