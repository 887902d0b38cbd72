"""A panel's readings as the finding takes them: points with their errors, and what errs for all at once."""

from __future__ import annotations

from math import hypot

import numpy as np

from panewright.bench.fault.readings import AS_BUILT, Common, Points
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.rating import Prediction
from panewright.cell.root import Array
from panewright.curve.measured import Measured
from panewright.curve.points import seen_scatter_a
from panewright.desk.rating.measured import PanelRead
from panewright.desk.rating.sources import Sources
from panewright.errors import BenchError, Problem

_BY_ITSELF = {
    "Voc itself": "A lost cell would be taken for heat.",
    "own Isc": "A dimmed or a weak panel would be taken for less light.",
}
STEADY_SHARE = 0.003  #: what the light moves from point to point; common practice, no source
LINE_SHARE = 0.0005  #: how far a meter's scale is from straight, of its greatest reading; common practice


def points(read: PanelRead, found: Sources, prediction: Prediction) -> Points:
    """The points; `BenchError` where light or heat were told by the panel that is looked at."""
    for key, how in (("heat.by", found.heat.how), ("light.by", found.light.how)):
        if how in _BY_ITSELF:
            cure = "Read it with something else: behind the panel, or beside it."
            raise BenchError([Problem(_BY_ITSELF[how], cure, key=key, value=how)])
    curve = read.cleaned.curve
    light = found.light.value_w_m2
    volts, amps = curve.volts, curve.amperes
    own_v, own_a = _errors(curve, found)
    common = Common(
        light=hypot(found.light.sigma_w_m2 / light, prediction.cells.isc_share),
        heat_k=found.heat.sigma_k,
        voltage=_share(found.volts, volts),
        current=_share(found.amps, amps),
        voc=prediction.cells.voc_share,
        series=prediction.cells.series_share,
        shunt=AS_BUILT.shunt,  # no figure that is read of a cell in light tells it better
    )
    return Points(volts, amps, own_v, own_a, light, found.heat.cell_c(light), common)


def _errors(curve: Measured, found: Sources) -> tuple[Array, Array]:
    """What scatters from point to point: as stated, else as the points and the last digits show."""
    own, amps = curve.accuracy, curve.amperes
    if own.scatters:
        return np.full(amps.size, own.voltage_v), np.hypot(own.current_a, own.current_share * amps)
    scatter = max(seen_scatter_a(curve.volts, amps), found.amps.rounding)  # what is seen holds the rounding
    seen = np.hypot(scatter, LINE_SHARE * amps.max()) / np.sqrt(curve.counts)
    straight = hypot(LINE_SHARE * float(curve.volts.max()), found.volts.rounding)
    return np.full(amps.size, straight), np.hypot(seen, STEADY_SHARE * amps)


def _share(meter: Instrument, values: Array) -> float:
    """What is common to all readings of a meter, as a share of its greatest; its last digit is none of it."""
    most = float(np.abs(values).max())
    return hypot(meter.share * most, meter.own) / most if most > 0 else 0.0
