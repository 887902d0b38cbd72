"""Parcel or freight: how one panel of a size travels in its crate, as `crate` decides it, and why."""

from __future__ import annotations

from dataclasses import replace

from panewright.catalogue.row import Carried
from panewright.crate.ask import ask_of
from panewright.crate.crating import ways
from panewright.crate.deciding import decided
from panewright.panel.design import Design

NO_WAY = "no carrier"


def travels(design: Design) -> Carried:
    """One panel alone, by the carrier that takes its crate for least."""
    ask = replace(ask_of(design), panels=1)
    found = ways(ask)
    told, taken = decided(ask, found), found[0].taken
    if taken is None:
        return Carried(NO_WAY, told.by, told.words)
    return Carried(taken.carrier.kind, told.by, f"{taken.carrier.name} takes it; {told.words}")
