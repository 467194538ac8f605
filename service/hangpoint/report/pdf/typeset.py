"""The typesetter's process: a page as HTML comes in, the page as PDF goes out.

What it keeps of a page, some ten megabytes a sheet, ends with it. A fixed document takes the page as data: nothing of
it is read as markup of the typesetter.
"""

import sys
from importlib.resources import files

import orjson
from typst import Compiler, Fonts

from hangpoint.report.pdf.tree import read_page


def typeset(html: str) -> bytes:
    """A page as PDF, on the paper that a browser would print it on; equal pages are equal bytes.

    The letters are those that come with the typesetter; those of the machine stand in for what these lack.
    """
    page = read_page(html)
    data = orjson.dumps(page._asdict()).decode()
    document = (files("hangpoint.report.pdf") / "page.typ").read_bytes()
    made = Compiler(document, font_paths=Fonts(include_system_fonts=True), sys_inputs={"page": data}).compile(
        format="pdf", pdf_tags=False
    )
    if not isinstance(made, bytes):
        raise TypeError("one document is one file")
    return made


if __name__ == "__main__":
    sys.stdout.buffer.write(typeset(sys.stdin.buffer.read().decode()))
