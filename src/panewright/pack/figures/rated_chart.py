"""A panel's curve as measured, moved to STC, over what was predicted; and its power over the voltage."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from panewright.bench.rate.rated import Rated
from panewright.cell.root import Array
from panewright.curve.measured import Measured
from panewright.drawing.chart import Band, Chart, Mark, Series
from panewright.units import show

_FINE = 160


@dataclass(frozen=True, slots=True)
class RatedCurves:
    """Both curves at STC, and the rating between them."""

    predicted: Measured
    measured: Measured
    figures: Mapping[str, tuple[float, float]]  #: value and its uncertainty (k = 2), where they were rated
    peak: tuple[float, float] | None = None  #: voltage and current of the most power


def curves_of(predicted: Measured, rated: Rated) -> RatedCurves:
    """The curve as the procedure taken moved it, with its figures."""
    read = rated.chosen.taken.points
    figures = {
        each.name: (each.value, each.expanded)
        for each in rated.figures
        if each.value is not None and each.expanded is not None
    }
    peak = (read.vmp_v.value, read.imp_a.value) if read.vmp_v and read.imp_a else None
    return RatedCurves(predicted, rated.chosen.taken.moved.curve, figures, peak)


def current_chart(curves: RatedCurves, title: str = "") -> Chart:
    """Current over voltage: predicted thin, measured thick, its uncertainty (k = 2) as a band."""
    v, i = _lit(curves.measured)
    pv, pi = _lit(curves.predicted)
    marks = _mark(curves, power=False)
    return Chart(
        title,
        "voltage, V",
        "current, A",
        (_series(pv, pi, "predicted"), _series(v, i, "measured, at STC", "measured")),
        marks,
        _bands(curves, v, i),
    )


def power_chart(curves: RatedCurves, title: str = "") -> Chart:
    """Power over voltage, alike."""
    v, i = _lit(curves.measured)
    pv, pi = _lit(curves.predicted)
    bands = tuple(
        Band(each.x, _times(each.x, each.low), _times(each.x, each.high), each.label)
        for each in _bands(curves, v, i)
    )
    return Chart(
        title,
        "voltage, V",
        "power, W",
        (_series(pv, pv * pi, "predicted"), _series(v, v * i, "measured, at STC", "measured")),
        _mark(curves, power=True),
        bands,
    )


def _lit(curve: Measured) -> tuple[Array, Array]:
    """The points where the panel gives power, closed to the axis of no current."""
    v, i = curve.volts, curve.amperes
    open_v = float(np.interp(0.0, -i, v))
    keep = (v >= 0) & (i >= 0) & (v < open_v)
    closed = i.min() <= 0
    return np.append(v[keep], open_v) if closed else v[keep], np.append(i[keep], 0.0) if closed else i[keep]


def _series(x: Array, y: Array, label: str, layer: str = "predicted") -> Series:
    return Series(tuple(x.tolist()), tuple(y.tolist()), label, layer)  # type: ignore[arg-type]


def _mark(curves: RatedCurves, *, power: bool) -> tuple[Mark, ...]:
    """The greatest power of the measured curve, by its number where it was rated."""
    if curves.peak is None:
        return ()
    volts, amps = curves.peak
    words, own = "power not rated", curves.figures.get("power_w")
    if own is not None:
        words = f"{show(own[0], 'W')} ± {show(own[1], 'W', digits=2)}"
    return (Mark(volts, volts * amps if power else amps, words),)


def _bands(curves: RatedCurves, v: Array, i: Array) -> tuple[Band, ...]:
    """Voltages and currents off by their uncertainty together; none where either is not rated."""
    isc, voc = curves.figures.get("isc_a"), curves.figures.get("voc_v")
    if isc is None or voc is None:
        return ()
    di, dv = isc[1] / isc[0], voc[1] / voc[0]
    x = np.linspace(0.0, float(v[-1]) * (1 + dv), _FINE)
    low = np.interp(x, v * (1 - dv), i * (1 - di), right=0.0)
    high = np.interp(x, v * (1 + dv), i * (1 + di))
    return (Band(tuple(x.tolist()), tuple(low.tolist()), tuple(high.tolist())),)


def _times(x: tuple[float, ...], y: tuple[float, ...]) -> tuple[float, ...]:
    return tuple((np.asarray(x) * np.asarray(y)).tolist())
