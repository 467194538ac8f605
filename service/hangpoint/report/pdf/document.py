"""Printed pages as PDF. The HTML of a page is what is typeset, so that both say the same."""

import os
import subprocess
import sys

_MODULE = "hangpoint.report.pdf.typeset"
SECONDS = 60.0
_KEPT = (
    *("PATH", "PYTHONPATH", "PYTHONHOME", "LD_LIBRARY_PATH", "HOME", "LANG", "LC_ALL", "LC_CTYPE", "TMPDIR"),
    *("XDG_DATA_HOME", "XDG_DATA_DIRS", "XDG_CONFIG_HOME", "FONTCONFIG_FILE", "FONTCONFIG_PATH", "SYSTEMROOT"),
)
"""Variables by which the process finds its modules, its libraries and the fonts; it is told no others."""


class TypesettingError(RuntimeError):
    """A page could not be typeset: what the process said."""


class LateError(TypesettingError):
    """A page took longer than `SECONDS`."""


def pdf_of(html: str) -> bytes:
    """A page of `calculation_page` or `cards_html` as PDF (`typeset.typeset`), made in a process of its own.

    Raises:
        LateError: it took longer than a minute.
        TypesettingError: a defect.
    """
    command = (sys.executable, "-P", "-m", _MODULE)
    environment = {name: os.environ[name] for name in _KEPT if name in os.environ}
    try:
        made = subprocess.run(  # noqa: S603
            command, input=html.encode(), capture_output=True, timeout=SECONDS, check=False, env=environment
        )
    except subprocess.TimeoutExpired:
        raise LateError(f"not made within {SECONDS:g} s") from None
    if made.returncode:
        raise TypesettingError(made.stderr.decode(errors="replace"))
    return made.stdout
