"""The one face as a small web font: the letters that a page needs, with figures of one width."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from io import BytesIO
from typing import Literal

Weight = Literal["regular", "strong"]
FILES: dict[Weight, str] = {"regular": "SourceSansPro-Regular.otf", "strong": "SourceSansPro-Semibold.otf"}
_LETTERS = (
    *range(0x20, 0x7F),
    *range(0xA0, 0x180),  # western and central European letters
    *(ord(sign) for sign in "‐–—‘’“”„•…‰′″€Ωωμπ−×÷≈≠≤≥√∞±·°²³½¼¾→←↑↓✓"),
    *range(0x2000, 0x200C),  # blanks of all widths
)
_FEATURES = ["kern", "mark", "mkmk", "ccmp", "locl", "tnum", "lnum", "frac"]


@cache
def web_font(weight: Weight) -> bytes:
    """The face in one weight, as WOFF, a tenth of the whole; the same bytes every time."""
    from fontTools.subset import Options, Subsetter, load_font, save_font

    options = Options(
        layout_features=_FEATURES, flavor="woff", desubroutinize=True, hinting=False, recalc_timestamp=False
    )
    path = files("font_source_sans_pro") / "files" / FILES[weight]
    font = load_font(str(path), options)
    cutter = Subsetter(options)
    cutter.populate(unicodes=_LETTERS)
    cutter.subset(font)
    out = BytesIO()
    save_font(font, out, options)
    font.close()
    return out.getvalue()
