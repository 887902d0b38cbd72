"""Isc, Voc and maximum power of one cell, beside pvlib's single-diode functions."""

from __future__ import annotations

import warnings
from functools import partial

from clock import best_each_s
from row import Row

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

CELL = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)


def rows() -> list[Row]:
    """One cell at a time, as a design asks."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of pvlib's own imports
        from pvlib.pvsystem import singlediode
        from pvlib.singlediode import bishop88_mpp, bishop88_v_from_i

    figures = (CELL.light_a, CELL.saturation_a, CELL.series_ohm, CELL.shunt_ohm, CELL.ideality_v)

    def newton() -> None:
        bishop88_mpp(*figures, method="newton")
        bishop88_v_from_i(0.0, *figures, method="newton")

    ours = best_each_s(partial(key_points, CELL))
    return [
        Row("key points of a cell", ours, "pvlib, Lambert's W", best_each_s(partial(singlediode, *figures))),
        Row("key points of a cell", ours, "pvlib, Newton, no Isc", best_each_s(newton)),
    ]
