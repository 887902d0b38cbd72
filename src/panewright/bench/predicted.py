"""What the meter should read at the bench and in the sun, before the panel is finished and after.

A reading depends on light and heat. Voltages go by the model of the cell: the panel's at STC times the
cell's there against the cell's at STC. Currents go the same way. So the readings agree with the curve on
the cover at STC, and follow the cell elsewhere.
"""

from __future__ import annotations

from functools import lru_cache

from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import CellModel, diode_at
from panewright.panel.design import Design, PanelCurve

STC_W_M2, STC_C = 1000.0, 25.0
DULL_W_M2 = 200.0  #: a bright window or a lamp well spread; common practice


def stc(design: Design) -> PanelCurve:
    """The panel's curve at STC."""
    return next(curve for curve in design.electrical.curves if curve.name == "STC")


@lru_cache(maxsize=1024)
def cell_points(model: CellModel, irradiance_w_m2: float, cell_c: float) -> KeyPoints:
    """One cell's Isc, Voc and best point."""
    return key_points(diode_at(model, irradiance_w_m2, cell_c))


def panel_pmp_w(design: Design, irradiance_w_m2: float, cell_c: float) -> float:
    """Greatest power of the finished panel. [W]"""
    model = design.electrical.models[0]
    share = cell_points(model, irradiance_w_m2, cell_c).power_w / cell_points(model, STC_W_M2, STC_C).power_w
    return stc(design).points.power_w * share


def cells_voc_v(design: Design, cells: int, irradiance_w_m2: float, cell_c: float) -> float:
    """Open-circuit voltage of so many cells in series. [V]"""
    models = design.electrical.models
    each = sum(cell_points(model, irradiance_w_m2, cell_c).voc_v for model in models) / len(models)
    return cells * each


def panel_voc_v(design: Design, irradiance_w_m2: float, cell_c: float) -> float:
    """Open-circuit voltage of the finished panel. [V]"""
    model = design.electrical.models[0]
    share = cell_points(model, irradiance_w_m2, cell_c).voc_v / cell_points(model, STC_W_M2, STC_C).voc_v
    return stc(design).points.voc_v * share


def panel_isc_a(design: Design, irradiance_w_m2: float, cell_c: float) -> float:
    """Short-circuit current of the finished panel. [A]"""
    model = design.electrical.models[0]
    share = cell_points(model, irradiance_w_m2, cell_c).isc_a / cell_points(model, STC_W_M2, STC_C).isc_a
    return stc(design).points.isc_a * share
