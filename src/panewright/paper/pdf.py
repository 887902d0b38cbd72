"""Pages as PDF: set by typst from data and one face, with nothing from the clock, the net or the system.

A reader may shrink a page to its printer; the file therefore asks for no scaling, and full-size sheets
carry check bars besides. A face that is not found is a mistake here, never a silent other face.
"""

from __future__ import annotations

import atexit
import json
import tempfile
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import Any, Unpack

import font_source_sans_pro
import typst

from panewright.drawing.drawing import Drawing
from panewright.drawing.sheet import Book
from panewright.paper.book import book_data
from panewright.paper.template import Masthead, template_data

_PREFERENCES = b"/ViewerPreferences<<"
_FACES = ("Regular", "Semibold", "Bold")


def book_pdf(book: Book) -> bytes:
    """The book as PDF, byte for byte the same for the same book."""
    return compiled("book.typ", "book", book_data(book))


def template_pdf(drawing: Drawing, **said: Unpack[Masthead]) -> bytes:
    """The drawing at full size as PDF: one large sheet first, then tiles on A4 or Letter."""
    return compiled("template.typ", "template", template_data(drawing, **said))


def compiled(source: str, name: str, data: Any) -> bytes:
    """A page source of this room, set with data; the data is never read as markup."""
    words = json.dumps(data, ensure_ascii=False, allow_nan=False)
    room = resources.files("panewright.paper")
    page_source = b"".join(room.joinpath(part).read_bytes() for part in ("look.typ", source))
    made, warnings = typst.compile_with_warnings(
        page_source, font_paths=_fonts(), format="pdf", sys_inputs={name: words}
    )
    if warnings:
        raise ValueError(f"{source}: {'; '.join(warning.message for warning in warnings)}")
    assert isinstance(made, bytes)
    return _unscaled(made)


def pages(source: str, name: str, data: Any, dots_an_inch: float) -> tuple[bytes, ...]:
    """Every page as a PNG, to be looked at before it is opened."""
    words = json.dumps(data, ensure_ascii=False, allow_nan=False)
    room = resources.files("panewright.paper")
    page_source = b"".join(room.joinpath(part).read_bytes() for part in ("look.typ", source))
    made: Any = typst.compile(
        page_source, font_paths=_fonts(), format="png", ppi=dots_an_inch, sys_inputs={name: words}
    )
    return tuple(made) if isinstance(made, list) else (made,)


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    """The three faces in use, and no other file of the package.

    The setter takes folders only, in whatever order the disk lists them, and the package holds each face
    twice; a folder of its own makes sure that every machine sets the same letters.
    """
    folder = tempfile.TemporaryDirectory(prefix="panewright-type-")
    atexit.register(folder.cleanup)
    source = Path(font_source_sans_pro.font_directory)
    for face in _FACES:
        name = f"SourceSansPro-{face}.ttf"
        (Path(folder.name) / name).write_bytes((source / name).read_bytes())
    return typst.Fonts(include_system_fonts=False, font_paths=[folder.name])


def _unscaled(pdf: bytes) -> bytes:
    """The same file, asking whoever prints it to leave its size alone.

    The setter writes the catalog as the last object before the table of places, so a few letters more in
    it move nothing but that table. (A library that rewrites files takes longer than setting the pages.)
    """
    end = pdf.rindex(b"startxref")
    table = int(pdf[end:].split()[1])
    start = pdf.rindex(b" obj\n", 0, table)
    catalog = pdf[start:table]
    if not pdf.startswith(b"xref", table) or b"/Type/Catalog" not in catalog or _PREFERENCES not in catalog:
        raise ValueError("the setter no longer ends its file with the catalog; print scaling cannot be set")
    asked = catalog.replace(_PREFERENCES, _PREFERENCES + b"/PrintScaling/None")
    asked = asked.replace(b"/Suspects false", b"")  # false anyway, and some readers stumble over it
    moved = table + len(asked) - len(catalog)
    return pdf[:start] + asked + pdf[table:end] + b"startxref\n%d\n%%%%EOF\n" % moved
