"""A small picture of a document: its first page, or its drawing."""

from __future__ import annotations

from panewright.pack.leaf import BookLeaf, DxfLeaf, Leaf, SvgLeaf, TemplateLeaf
from panewright.paper.svg import svg

_DOTS_AN_INCH = 60.0


def picture(leaf: Leaf) -> tuple[str, bytes]:
    """Media type and bytes of a picture; nothing for lists and records."""
    match leaf:
        case BookLeaf():
            from panewright.paper.book import book_data
            from panewright.paper.pdf import first_page

            return "image/png", first_page("book.typ", "book", book_data(leaf.book), _DOTS_AN_INCH)
        case TemplateLeaf() | DxfLeaf() | SvgLeaf():
            return "image/svg+xml", svg(leaf.drawing, 10.0, face="sans-serif").encode()
    return "", b""
