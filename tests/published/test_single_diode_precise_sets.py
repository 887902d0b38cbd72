"""Four of the 64 precise curves of 72-cell modules that pvlib-python ships with its tests (BSD-3).

tests/data/precise_iv_curves1.json and its table of parameters, pvlib 0.16.1: 20 digits at 298.15 K, the
module taken as one diode. Confidence: seen. The thermal voltage is that of the constants it was made with,
k = 1.380649e-23 J/K and q = 1.602176634e-19 C.
"""

import pytest

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

K_J_K, Q_C = 1.380649e-23, 1.602176634e-19

# curve, (IL A, I0 A, Rs ohm, Rsh ohm, n), (Isc A, Voc V, Imp A, Vmp V, Pmp W)
SETS = [
    (
        1,
        (1.0, 5e-10, 0.1, 300.0, 1.01),
        (0.9996667777132812, 39.74810737986973, 0.84612386091448, 33.936894315455554, 28.71481604563992),
    ),
    (
        2,
        (1.0, 5e-10, 0.1, 300.0, 1.3),
        (0.9996667777195376, 51.05412126576659, 0.8174468838981481, 43.508922893090194, 35.566233440721376),
    ),
    (
        10,
        (1.0, 3e-08, 0.1, 300.0, 1.3),
        (0.9996667764678184, 41.300360204103235, 0.8345974911942485, 34.39205213529485, 28.703520429138877),
    ),
    (
        21,
        (8.0, 5e-10, 1.0, 300.0, 1.01),
        (7.973421891852252, 43.864353459042455, 7.313926541017758, 31.60419420275038, 231.15075478697557),
    ),
]


@pytest.mark.parametrize(("figures", "expected"), [row[1:] for row in SETS], ids=[row[0] for row in SETS])
def test_key_points_equal_the_precise_curve(figures, expected):
    light, saturation, series, shunt, n = figures
    points = key_points(Diode(light, saturation, n * 72 * K_J_K * 298.15 / Q_C, series, shunt))
    got = (points.isc_a, points.voc_v, points.imp_a, points.vmp_v, points.power_w)
    assert got == pytest.approx(expected, rel=1e-9)
