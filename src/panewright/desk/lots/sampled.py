"""A sample that was measured of an offered lot: its table read, and what it tells in words.

Middle and spread are told with the doubt that so few cells leave: Student's law for the middle, with the
share of the lot that was measured taken off; the chi-square law for the spread; Fisher's transform for the
correlation (recalled). What is played through is drawn from the same sample in `lots/buying/sample.py`.
"""

from __future__ import annotations

from math import atanh, hypot, sqrt, tanh

import numpy as np

from panewright.cell.peak import peak
from panewright.cell.root import Array
from panewright.desk.lots import table
from panewright.desk.lots.stood import stand
from panewright.lots.buying.sample import LEAST, Sample
from panewright.lots.standing.covered import covered
from panewright.lots.standing.standing import Standing
from panewright.shelf.key import Fault

_TAIL = 0.025  # on either side: 95 % lie between


def sample_of(data: bytes, name: str, cell: str, light: float, lot: int) -> Sample:
    """The sample in a table of measured cells, behind a cover; `Fault` where it is none.

    `light`: the share that the cover lets through; `lot`: cells of the whole lot. A table that cannot be
    read is a `SheetError`.
    """
    stood = stand(table.look(data, name).read(), cell)
    count = len(stood.standing.marks)
    if count < LEAST:
        raise Fault(
            f"{name} has {count} cells that count; so few leave the spread all but unknown.",
            f"Measure {LEAST} or more, better 20.",
        )
    if count > lot:
        raise Fault(f"{name} has {count} cells, more than its lot of {lot}.", "Write of how many they are.")
    standing = covered(stood.standing, light)
    return Sample(standing.cells, lot, standing.common_share, _doubt(standing))


def _doubt(standing: Standing) -> tuple[float, float]:
    """Variance that readings leave open, of the light's logarithm and of the junction's volts, on average."""
    light = float(np.mean((standing.imp_sd_a / standing.imp_a) ** 2))
    watts = float(np.mean((standing.power_sd_w / standing.power_w) ** 2))
    return light, max(0.0, watts - light) * float(np.mean(standing.vmp_v)) ** 2


def words(name: str, sample: Sample) -> str:
    """What a sample tells of its lot. [W, %]"""
    from scipy.stats import chi2, t

    tops, count = peak(sample.cells), sample.count
    mean, free = float(tops.power_w.mean()), count - 1
    rest = sqrt(1 - count / sample.lot)
    off = float(t.ppf(1 - _TAIL, free)) * float(tops.power_w.std(ddof=1)) / sqrt(count) * rest
    share = 100 * hypot(float(tops.imp_a.std(ddof=1)) / float(tops.imp_a.mean()), sqrt(sample.doubt[0]))
    low, high = (share * sqrt(free / float(chi2.ppf(at, free))) for at in (1 - _TAIL, _TAIL))
    common = f", all alike by {100 * sample.common_share:.1f} %" if sample.common_share else ""
    return (
        f"{name}: {count} of {sample.lot} cells were measured: {mean:.3f} W each, the lot's middle within "
        f"{off:.3f} W{common}; Imp spreads by {share:.2f} % ({low:.2f} to {high:.2f} %), "
        f"and goes with Vmp by {_correlation(tops.imp_a, tops.vmp_v)}."
    )


def _correlation(one: Array, other: Array) -> str:
    """How two figures go together, and between which bounds that lies."""
    if min(float(one.std()), float(other.std())) < 1e-12:
        return "nothing that could be told"
    found = float(np.clip(np.corrcoef(one, other)[0, 1], -0.999999, 0.999999))
    apart = 1.96 / sqrt(one.size - 3)
    low, high = (tanh(atanh(found) + sign * apart) for sign in (-1, 1))
    return f"{found:.2f} ({low:.2f} to {high:.2f})"
