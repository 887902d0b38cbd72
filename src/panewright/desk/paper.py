"""The documents of one order, named for a person, each made when it is wanted."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePosixPath

from panewright.pack.leaf import Leaf, Pack

BENCH, GLASS, CUSTOMER = "At the bench", "To the glass shop", "To the customer"
CARRIER, MACHINES = "To the carrier", "For machines and programs"
GROUPS = (BENCH, GLASS, CUSTOMER, CARRIER, MACHINES)  #: who takes a paper in hand

_KINDS = {
    "book.pdf": ("Build book", BENCH),
    "template.pdf": ("Template, full size", BENCH),
    "jig.pdf": ("Hole jig for the rails, full size", BENCH),
    "spacer.pdf": ("Spacers between cells, full size", BENCH),
    "label.svg": ("Label", BENCH),
    "kit.csv": ("Packing list, for programs", MACHINES),
    "glass.pdf": ("Order sheet for the glass shop", GLASS),
    "glass.dxf": ("Pane for machines", GLASS),
    "quote.pdf": ("Quote to send", CUSTOMER),
    "kit.pdf": ("Packing list of a kit", CUSTOMER),
    "assembly.pdf": ("Assembly book", CUSTOMER),
    "crate.pdf": ("Crate: what travels how", CARRIER),
    "layout.dxf": ("Lay-up for machines", MACHINES),
    "frame.dxf": ("Frame for machines", MACHINES),
    "clip.dxf": ("Corner clip for machines", MACHINES),
    "spacer.dxf": ("Spacers for machines", MACHINES),
    "parts.xlsx": ("Parts and cuts, workbook", MACHINES),
    "parts.csv": ("Parts list", MACHINES),
    "cuts.csv": ("Cut list", MACHINES),
    "design.json": ("Everything, for programs", MACHINES),
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
    group: str  #: who takes it in hand
    media: str  #: its media type
    leaf: Leaf

    def content(self) -> bytes:
        """The bytes of its file; the same design gives the same."""
        from panewright.paper.leaf import render

        return render(self.leaf)


def papers_of(pack: Pack) -> tuple[Paper, ...]:
    """Every document of a pack, in the pack's order."""
    return tuple(
        Paper(leaf.name, *_kind(leaf.name), _MEDIA[PurePosixPath(leaf.name).suffix], leaf)
        for leaf in pack.leaves
    )


def _kind(name: str) -> tuple[str, str]:
    """What a paper is and who takes it in hand; one that is not known here lies at the bench."""
    return _KINDS.get(name, (name, BENCH))
