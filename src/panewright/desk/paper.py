"""The documents of one order, named for a person, each made when it is wanted."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePosixPath

from panewright.pack.leaf import Leaf, Pack

_KINDS = {
    "book.pdf": "Build book",
    "quote.pdf": "Quote to send",
    "template.pdf": "Template, full size",
    "glass.pdf": "Order sheet for the glass shop",
    "jig.pdf": "Hole jig for the rails, full size",
    "spacer.pdf": "Spacers between cells, full size",
    "layout.dxf": "Lay-up for machines",
    "frame.dxf": "Frame for machines",
    "glass.dxf": "Pane for machines",
    "clip.dxf": "Corner clip for machines",
    "spacer.dxf": "Spacers for machines",
    "parts.xlsx": "Parts and cuts, workbook",
    "parts.csv": "Parts list",
    "cuts.csv": "Cut list",
    "design.json": "Everything, for programs",
    "label.svg": "Label",
    "kit.pdf": "Packing list of a kit",
    "kit.csv": "Packing list, for programs",
    "assembly.pdf": "Assembly book",
}
_MEDIA = {
    ".pdf": "application/pdf",
    ".dxf": "image/vnd.dxf",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
}


@dataclass(frozen=True, slots=True)
class Paper:
    """One document."""

    name: str  #: of its file
    kind: str  #: what it is, in words
    media: str  #: its media type
    leaf: Leaf

    def content(self) -> bytes:
        """The bytes of its file; the same design gives the same."""
        from panewright.paper.leaf import render

        return render(self.leaf)


def papers_of(pack: Pack) -> tuple[Paper, ...]:
    """Every document of a pack, in the pack's order."""
    return tuple(
        Paper(leaf.name, _KINDS[leaf.name], _MEDIA[PurePosixPath(leaf.name).suffix], leaf)
        for leaf in pack.leaves
    )
