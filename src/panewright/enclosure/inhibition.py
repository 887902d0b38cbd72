"""What near the pour keeps a platinum-cured silicone from setting.

The catalyst is a few parts of platinum in a million. Sulphur, nitrogen with a free pair, tin and phosphorus
bind it for good: the silicone stays wet where it touched. Cured tin silicone, fresh epoxy and rubber gloves
do it most often. Nothing tells for sure but a patch poured over a tabbed scrap cell, with the shop's own
flux.

A tin-cured silicone has none of these troubles; it gives off alcohol, shrinks, and in a deep closed joint
turns back to liquid in the heat (memory).

[T] Two public guides to cure inhibition of two sellers of addition-cure silicones (seen): latex and other
    natural rubber, neoprene, nitrile rubber, PVC, polyurethane, amines, amine-cured epoxy, sulphur,
    polysulphide, organotin, masking tape, onion. [D] a maker's guide to mould-making with silicones (seen):
    modelling clay with sulphur, natural rubber, latex gloves. Fluxes and fresh solder resist: from memory.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from panewright.check import Check
from panewright.enclosure.silicone import Cure

SOURCE = "sellers' guides to cure inhibition (seen)"


@dataclass(frozen=True, slots=True)
class Inhibitor:
    """One thing that may lie about in a shop."""

    name: str  #: as an order writes it
    why: str
    instead: str
    stops: bool  #: the pour does not set; else it may not
    source: str


_ROWS = (
    Inhibitor("latex gloves", "sulphur from the rubber", "nitrile or vinyl gloves, tried first", True, "[T]"),
    Inhibitor("natural rubber", "sulphur", "silicone or polyethylene", True, "[T]"),
    Inhibitor(
        "tin-cured silicone", "tin salts", "another dam; a sealant that has cured for a week", True, "[T]"
    ),
    Inhibitor(
        "fresh epoxy", "amine hardener", "let it cure in warmth for days, or leave it away", True, "[T]"
    ),
    Inhibitor("polysulphide sealant", "sulphur", "neutral silicone", True, "[T]"),
    Inhibitor("modelling clay", "sulphur in most", "clay free of sulphur", True, "[D]"),
    Inhibitor("amine flux", "amines", "another flux, or wash and dry the string", True, "memory"),
    Inhibitor(
        "rosin flux", "its acids and activators", "wash with alcohol and dry; trial patch", False, "memory"
    ),
    Inhibitor(
        "no-clean flux", "its residue, if thick", "a thin coat, heated through; trial patch", False, "memory"
    ),
    Inhibitor("soft PVC", "plasticisers and tin stabilisers", "polyethylene film and sleeves", False, "[T]"),
    Inhibitor("neoprene", "sulphur and amines", "silicone strip", False, "[T]"),
    Inhibitor("nitrile rubber", "nitriles, sulphur", "vinyl gloves free of sulphur", False, "[T]"),
    Inhibitor("polyurethane foam", "amines, tin catalyst", "polyethylene foam", False, "[T]"),
    Inhibitor("masking tape", "rubber glue", "polyester tape with silicone glue", False, "[T]"),
    Inhibitor(
        "fresh oxime sealant", "tin catalyst and oxime", "let the bead cure through first", False, "memory"
    ),
)
INHIBITORS: dict[str, Inhibitor] = {row.name: row for row in _ROWS}


def known(near: Iterable[str]) -> tuple[Inhibitor, ...]:
    """The rows of these names. [-]"""
    return tuple(INHIBITORS[name] for name in near)


def inhibition_check(near: Iterable[str], cures_by: Cure) -> Check:
    """Nothing that stops the cure comes near the pour; what only may stop it is told, not counted.

    >>> inhibition_check(("latex gloves", "masking tape"), "platinum").demand
    1.0
    """
    stopping = [row for row in known(near) if row.stops and cures_by == "platinum"]
    instead = "; ".join(f"in place of {row.name} {row.instead}" for row in stopping)
    return Check(
        rule="things near the pour that stop its cure",
        demand=float(len(stopping)),
        limit=0.0,
        unit="-",
        source=SOURCE,
        cure=f"Keep them away: {instead}." if stopping else "",
        room="enclosure",
    )
