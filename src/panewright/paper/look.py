"""Pictures of a document: its first page or drawing, small; every page of it, to be read."""

from __future__ import annotations

from panewright.pack.leaf import BookLeaf, DxfLeaf, Leaf, SvgLeaf, TemplateLeaf
from panewright.paper.svg import svg

_DOTS_AN_INCH = 60.0
_CLEAR = 96.0  #: dots an inch at which the small print of a page is read on a tablet


def picture(leaf: Leaf) -> tuple[str, bytes]:
    """Media type and bytes of a picture; nothing for lists and records."""
    match leaf:
        case BookLeaf():
            return "image/png", pages(leaf, _DOTS_AN_INCH)[0]
        case TemplateLeaf() | DxfLeaf() | SvgLeaf():
            return "image/svg+xml", svg(leaf.drawing, 10.0, face="sans-serif").encode()
    return "", b""


def pages(leaf: Leaf, dots_an_inch: float = _CLEAR) -> tuple[bytes, ...]:
    """Every page of a book or a template as a PNG; nothing for what has no pages."""
    from panewright.paper import pdf
    from panewright.paper.book import book_data
    from panewright.paper.template import template_data

    match leaf:
        case BookLeaf():
            return pdf.pages("book.typ", "book", book_data(leaf.book), dots_an_inch)
        case TemplateLeaf():
            data = template_data(
                leaf.drawing,
                order=leaf.order,
                revision=leaf.revision,
                paper=leaf.paper,
                system=leaf.units,
                stamp=leaf.stamp,
                cards=leaf.cards,
            )
            return pdf.pages("template.typ", "template", data, dots_an_inch)
    return ()
