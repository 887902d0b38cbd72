"""Readings of a lot become every cell's curve at STC, with how well it is known.

Each cell is asked two things at once: which figures would have shown what was read, each reading in its own
light and heat; and which figures cells of this lot have. The lot's mean and spread come from its own readings
(`settled`). The more is read of a cell, the less its lot counts; of a cell of which nothing was read its lot
is all that is known.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.model import CellModel
from panewright.intake.cells import CellRows
from panewright.lots.standing.band import band
from panewright.lots.standing.figures import SHUNT, Kin, cells_of
from panewright.lots.standing.likeliest import Likeliest, Lot, likeliest
from panewright.lots.standing.points import peak
from panewright.lots.standing.rehearsed import rehearsed, whole_covariance
from panewright.lots.standing.settled import settled
from panewright.lots.standing.standing import Standing
from panewright.lots.standing.table import Table, table_of
from panewright.lots.standing.trust import Moment, Trust
from panewright.lots.standing.usual import Usual


@dataclass(frozen=True, slots=True)
class Asked:
    """How the readings were taken, and what is usual of the kind."""

    trust: Trust = field(default_factory=Trust)
    moment: Moment = field(default_factory=Moment)
    usual: Usual = field(default_factory=Usual)


def estimate(rows: CellRows, kind: CellModel, asked: Asked | None = None) -> Standing:
    """Every cell of a lot at STC."""
    asked = asked or Asked()
    kin = Kin.of(kind)
    table, said = table_of(rows, kind, asked.trust, asked.moment)
    lot = settled(table, kin, asked.trust, asked.usual)
    found = likeliest(table, kin, asked.trust, lot)
    return _standing(table, (kin, asked.trust), (lot, found), said)


def _standing(
    table: Table, by: tuple[Kin, Trust], known: tuple[Lot, Likeliest], said: tuple[str, ...]
) -> Standing:
    (kin, trust), (lot, found) = by, known
    cells = cells_of(found.theta, kin)
    covariance = whole_covariance(found, lot)
    top, rest = peak(cells), np.zeros(len(table.marks))
    width = rehearsed(band(found.theta, covariance, kin), top.power_w, (table, kin, trust, lot))
    return Standing(
        marks=table.marks,
        cells=cells,
        isc_a=current_a(cells, rest),
        voc_v=voltage_v(cells, rest),
        imp_a=top.imp_a,
        vmp_v=top.vmp_v,
        power_w=top.power_w,
        power_sd_w=width.power_sd_w,
        power_low_w=width.low_w,
        power_high_w=width.high_w,
        imp_sd_a=width.imp_sd_a,
        shunt_sd=np.sqrt(covariance[:, SHUNT, SHUNT]),
        readings=table.summed(table.used.sum(axis=1).astype(float)),
        said=said,
    )
