"""Two more measured modules of 36 cells on which fits are tried: mono at 51 degC, multi at 55 degC.

N. T. Tong, W. Pora, A parameter extraction technique exploiting intrinsic properties of solar cells, Applied
Energy 176, 2016, p. 104. The points, and the best implicit optima as many later papers print them, are
recalled; that all printed digits come out of the points speaks for both. The exact optima are sought here
anew, by scipy over pvlib's explicit current. Constants are those of the publications, k = 1.3806503e-23 J/K
and q = 1.60217646e-19 C; resistances and n are of one cell.
"""

from dataclasses import dataclass

import numpy as np
import pytest
from pvlib.pvsystem import i_from_v
from scipy.optimize import least_squares

from panewright.curve.fit import fit
from panewright.curve.measured import Measured

CELLS = 36
K_J_K, Q_C = 1.3806503e-23, 1.60217646e-19

MONO_V = (
    *(0.0, 0.118, 2.237, 5.434, 7.26, 9.68, 11.59, 12.6, 13.37, 14.09),
    *(14.88, 15.59, 16.4, 16.71, 16.98, 17.13, 17.32, 17.91, 19.08, 21.02),
)
MONO_A = (
    *(1.663, 1.663, 1.661, 1.653, 1.65, 1.645, 1.64, 1.636, 1.629, 1.619),
    *(1.597, 1.581, 1.542, 1.524, 1.5, 1.485, 1.465, 1.388, 1.118, 0.0),
)
MULTI_V = (
    *(0.0, 9.06, 9.74, 10.32, 11.17, 11.81, 12.36, 12.74, 13.16, 13.59, 14.17, 14.58),
    *(14.93, 15.39, 15.71, 16.08, 16.34, 16.76, 16.9, 17.1, 17.25, 17.41, 17.65, 19.21),
)
MULTI_A = (
    *(7.48, 7.45, 7.42, 7.44, 7.41, 7.38, 7.37, 7.34, 7.29, 7.23, 7.1, 6.97),
    *(6.83, 6.58, 6.36, 6.0, 5.75, 5.27, 5.07, 4.79, 4.56, 4.29, 3.83, 0.0),
)


@dataclass(frozen=True)
class Printed:
    """The best implicit optimum, with the digits that are printed."""

    light_a: float
    saturation_ua: float
    series_ohm: float
    shunt_ohm: float
    n: float
    rmse_a: float


MODULES = pytest.mark.parametrize(
    ("curve", "printed"),
    [
        (
            Measured(MONO_V, MONO_A, 1000.0, 51.0),
            Printed(1.66390478, 1.738657, 0.00427377, 15.92829, 1.52030292, 0.00172981371),
        ),
        (
            Measured(MULTI_V, MULTI_A, 1000.0, 55.0),
            Printed(7.47252992, 2.334995, 0.00459463, 22.2199, 1.26010348, 0.0166006031),
        ),
    ],
    ids=["mono", "multi"],
)


@MODULES
def test_the_implicit_optimum_has_the_printed_digits(curve, printed):
    found = fit(curve, CELLS, optimum="implicit")
    whole, thermal_v = found.whole, CELLS * K_J_K * (curve.cell_c + 273.15) / Q_C
    assert round(whole.light_a, 8) == printed.light_a
    assert round(1e6 * whole.saturation_a, 6) == printed.saturation_ua
    assert round(whole.series_ohm / CELLS, 8) == printed.series_ohm
    assert round(whole.shunt_ohm / CELLS, 5) == printed.shunt_ohm
    assert round(whole.ideality_v / thermal_v, 8) == printed.n
    assert found.rmse_implicit_a == pytest.approx(printed.rmse_a, rel=3e-9)
    assert found.unique


@MODULES
def test_the_exact_optimum_is_no_worse_than_one_sought_with_other_programs(curve, printed):
    def off(x):
        light, micro, series, shunt, n = x
        own = n * CELLS * K_J_K * (curve.cell_c + 273.15) / Q_C
        current = i_from_v(curve.volts, light, 1e-6 * micro, CELLS * series, CELLS * shunt, own)
        return np.asarray(current) - curve.amperes

    start = (printed.light_a, printed.saturation_ua, printed.series_ohm, printed.shunt_ohm, printed.n)
    sought = least_squares(off, start, x_scale=start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    least_a = float(np.sqrt(np.mean(sought.fun**2)))
    assert fit(curve, CELLS, optimum="exact").rmse_exact_a == pytest.approx(least_a, rel=1e-7)
    assert least_a < printed.rmse_a
