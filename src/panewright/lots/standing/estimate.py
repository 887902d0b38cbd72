"""Readings of a lot become every cell's curve at STC, with how well it is known.

Each cell is asked two things at once: which figures would have shown what was read, each reading in its own
light and heat; and which figures cells of this lot have. The lot's mean and spread come from its own readings
(`settled`). The more is read of a cell, the less its lot counts; of a cell of which nothing was read its lot
is all that is known.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.cell.peak import Peak, peak
from panewright.intake.cells import CellRows
from panewright.lots.standing.backward import Backward, backward, soft
from panewright.lots.standing.band import band
from panewright.lots.standing.figures import LIGHT, SHUNT, Kin, cells_of
from panewright.lots.standing.likeliest import Likeliest, Lot, likeliest
from panewright.lots.standing.rehearsed import rehearsed, whole_covariance
from panewright.lots.standing.settled import settled
from panewright.lots.standing.standing import Standing, Suspect
from panewright.lots.standing.suspects.drift import drift
from panewright.lots.standing.suspects.heaps import heaps
from panewright.lots.standing.suspects.impossible import impossible_rows
from panewright.lots.standing.suspects.remarked import remarked
from panewright.lots.standing.suspects.slips import slips
from panewright.lots.standing.suspects.strangers import rows_of, strangers
from panewright.lots.standing.suspects.turned import beyond, turned
from panewright.lots.standing.suspects.twice import twice
from panewright.lots.standing.table import REVERSE, Level, Table, table_of
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
    with np.errstate(all="ignore"):  # a step too far is taken back; what it overflowed is not kept
        return _estimate(rows, Kin.of(kind), asked or Asked())


def _estimate(rows: CellRows, kin: Kin, asked: Asked) -> Standing:
    read, said = table_of(rows, kin.model, asked.trust, asked.moment)
    table, doubts = _screened(read, kin, asked.trust, rows.row_numbers)
    lot = settled(table, kin, asked.trust, asked.usual)
    found = likeliest(table, kin, asked.trust, lot)
    shunt_sd = np.sqrt(found.covariance[:, SHUNT, SHUNT])
    back = backward(read, cells_of(found.theta, kin), shunt_sd, (kin, asked.trust, asked.usual))
    standing = _standing(table, (kin, asked.trust), (lot, found, back))
    after = _after(standing, (table, read), (lot, found, kin.stc.light_a), rows.row_numbers)
    share = _common_share(kin, asked, read.level)
    told = (*said, _common_said(share, read.level))
    weak = soft(read, back, asked.trust.reverse_share, rows_of(read, rows.row_numbers))
    suspects = (*turned(rows), *doubts, *weak, *after, *remarked(rows))
    return replace(standing, suspects=suspects, said=told, common_share=share)


def _screened(
    table: Table, kin: Kin, trust: Trust, numbers: NDArray[np.int64]
) -> tuple[Table, tuple[Suspect, ...]]:
    """The table without what cannot be, and why it cannot."""
    past = beyond(table, kin.stc, numbers)
    table = table.without(past.aside)
    slip = slips(table, kin, trust, numbers)
    table = table.without(slip.aside)
    never = impossible_rows(table, kin.model, trust, numbers)
    return table.without(never.aside), (*slip.suspects, *past.suspects, *never.suspects)


def _after(
    standing: Standing,
    tables: tuple[Table, Table],
    known: tuple[Lot, Likeliest, float],
    numbers: NDArray[np.int64],
) -> Iterator[Suspect]:
    """What the estimate itself shows, and what comes twice in the rows as read."""
    table, read = tables
    lot, found, light_a = known
    rows = rows_of(read, numbers)
    top = Peak(standing.imp_a, standing.vmp_v)
    yield from strangers(table, (lot, found, top, standing.cells.shunt_ohm), rows)
    yield from twice(read, numbers)
    yield from drift(table, lot, found, numbers)
    yield from heaps(table, (lot, found), light_a, rows)
    for cell in np.flatnonzero(standing.readings == 0):
        reason = "Nothing was read of it that counts: it is taken for a cell like its lot."
        yield Suspect(standing.marks[cell], "unread", reason, rows.get(int(cell), ()))


def _standing(table: Table, by: tuple[Kin, Trust], known: tuple[Lot, Likeliest, Backward]) -> Standing:
    (kin, trust), (lot, found, back) = by, known
    cells = back.cells
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
        readings=table.summed(np.delete(table.used, REVERSE, axis=1).sum(axis=1).astype(float)) + back.read,
        breakdown_sd=back.breakdown_sd,
    )


def _common_share(kin: Kin, asked: Asked, level: Level) -> float:
    """What all readings have in common moves the power of all cells alike: by how much. [-]

    Where nobody knows the light, neither its calibration nor the ammeter's gain counts: the lot's middle is
    its kind's, and how far lots of a kind lie apart is what is not known.
    """
    trust = asked.trust
    cool, warm = (key_points(diode_at(kin.model, 1000.0, cell_c)).power_w for cell_c in (20.0, 30.0))
    heat_k = trust.common_heat_k if level.warm else max(trust.unread_common_heat_k, trust.common_heat_k)
    lit = (trust.common_light_share, trust.common_current_share) if level.lit else (asked.usual.level[LIGHT],)
    shares = (*lit, trust.common_voltage_share, (warm - cool) / (warm + cool) / 5 * heat_k)
    return float(np.sqrt(np.square(shares).sum()))


def _common_said(share: float, level: Level) -> str:
    light = (
        "the light's calibration, the meters' gain"
        if level.lit
        else "the light that nobody knows, the meters"
    )
    heat = "the thermometer" if level.warm else "the heat that nobody read"
    return (
        f"All cells together may be off by {share:.1%} (one deviation), by {light} and {heat}; it is not in "
        "the bands, for it does not blur which cell is better."
    )
