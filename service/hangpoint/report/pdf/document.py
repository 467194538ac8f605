"""Printed pages as PDF. The HTML of a page is what is typeset, so that both say the same."""

import subprocess
import sys

_MODULE = "hangpoint.report.pdf.typeset"
_SECONDS = 60.0


class TypesettingError(RuntimeError):
    """A page could not be typeset: what the process said."""


def pdf_of(html: str) -> bytes:
    """A page of `calculation_page` or `cards_html` as PDF (`typeset.typeset`), made in a process of its own.

    Raises:
        TypesettingError: a defect.
        subprocess.TimeoutExpired: it took longer than a minute.
    """
    command = (sys.executable, "-P", "-m", _MODULE)
    made = subprocess.run(command, input=html.encode(), capture_output=True, timeout=_SECONDS, check=False)  # noqa: S603
    if made.returncode:
        raise TypesettingError(made.stderr.decode(errors="replace"))
    return made.stdout
