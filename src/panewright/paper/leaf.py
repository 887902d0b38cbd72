"""A leaf of a pack becomes the bytes of its file.

Each kind of file has its own module, opened only when such a leaf is written: setting type and writing
workshop files each load a large library that the other commands never need.
"""

from __future__ import annotations

from panewright.pack.leaf import (
    BookLeaf,
    CsvLeaf,
    DxfLeaf,
    Leaf,
    RecordLeaf,
    SvgLeaf,
    TemplateLeaf,
    WorkbookLeaf,
)


def render(leaf: Leaf) -> bytes:
    """The bytes of a leaf's file; the same leaf gives the same bytes."""
    match leaf:
        case BookLeaf():
            from panewright.paper.pdf import book_pdf

            return book_pdf(leaf.book)
        case TemplateLeaf():
            return _template(leaf)
        case DxfLeaf():
            from panewright.paper.dxf import dxf

            return dxf(leaf.drawing, leaf.units)
        case SvgLeaf():
            from panewright.paper.svg import FACE, svg

            return svg(leaf.drawing, face=f"{FACE}, sans-serif", fitted=True).encode("utf-8")
        case _:
            return _listing(leaf)


def _template(leaf: TemplateLeaf) -> bytes:
    from panewright.paper.pdf import template_pdf

    return template_pdf(
        leaf.drawing,
        order=leaf.order,
        revision=leaf.revision,
        paper=leaf.paper,
        system=leaf.units,
        stamp=leaf.stamp,
        note=leaf.note,
        cards=leaf.cards,
    )


def _listing(leaf: WorkbookLeaf | CsvLeaf | RecordLeaf) -> bytes:
    match leaf:
        case WorkbookLeaf():
            from panewright.paper.workbook import xlsx

            return xlsx(leaf.listings, leaf.note)
        case CsvLeaf():
            from panewright.paper.text import csv_bytes

            return csv_bytes(leaf.listing)
        case RecordLeaf():
            from panewright.paper.record import json_bytes

            return json_bytes(leaf.record)
