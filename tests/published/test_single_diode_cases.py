"""Seven cells solved in 40 digits by mpmath from the five parameters given; pvlib 0.16.1 agrees.

Pmp agrees with pvlib to 1e-15, Vmp by the Lambert W function to 7e-9 and by Newton to 2e-11. The figures
are printed to ten digits. Confidence: derived (a general tool on the plain single-diode equation).
"""

import pytest

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

# name, (IL A, I0 A, nVth V, Rs ohm, Rsh ohm), Isc A, Voc V, Imp A, Vmp V, Pmp W, FF
CASES = [
    (
        "poly 78x156 half cell",
        (4.2594388, 3.2724859e-09, 0.02954646599, 0.00739645, 49.3097),
        (4.258799974, 0.6200000002, 4.001222088, 0.5064002675, 2.026219935, 0.767375009),
    ),
    (
        "mono 125x125 pseudosquare",
        (5.4244763, 1.1280415e-09, 0.02826183703, 0.00572005, 53.8358),
        (5.423900009, 0.6300000012, 5.11910379, 0.5185083765, 2.654298195, 0.7767790196),
    ),
    (
        "poly 156x156",
        (8.5679853, 3.498345e-09, 0.02877568862, 0.00410914, 20.5457),
        (8.566272037, 0.622, 8.053643549, 0.5065568378, 4.079628208, 0.7656641963),
    ),
    (
        "mono 156x156 pseudosquare",
        (8.8916891, 9.859977e-10, 0.02774798545, 0.00376569, 37.6569),
        (8.890800018, 0.6359999999, 8.403194324, 0.5230473524, 4.395268544, 0.7772978342),
    ),
    (
        "mono PERC 156.75x156.75",
        (9.7722932, 1.5980505e-10, 0.02697720808, 0.002456, 81.8666),
        (9.77200004, 0.6699999998, 9.302461733, 0.5648863523, 5.254833676, 0.8026028763),
    ),
    (
        "poly 52x156 third cell, leaky",
        (2.8059165, 3.6811378e-08, 0.03340035286, 0.0160256, 6.16371),
        (2.798639953, 0.6049999998, 2.533069952, 0.4755100576, 1.204500239, 0.7113846439),
    ),
    (
        "poly 156x156 at 200 W/m2",
        (1.71359706, 3.498345e-09, 0.02877568862, 0.00410914, 102.7285),
        (1.713528518, 0.5756949109, 1.612364882, 0.4863617248, 0.7841925652, 0.7949484986),
    ),
]
TO_THE_PRINTED_DIGITS = 1e-9

cells = pytest.mark.parametrize(
    ("figures", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)


@cells
def test_key_points_equal_the_forty_digit_solution(figures, expected):
    points = key_points(Diode(*figures))
    isc, voc, imp, vmp, power, fill = expected
    assert points.isc_a == pytest.approx(isc, rel=TO_THE_PRINTED_DIGITS)
    assert points.voc_v == pytest.approx(voc, rel=TO_THE_PRINTED_DIGITS)
    assert points.imp_a == pytest.approx(imp, rel=TO_THE_PRINTED_DIGITS)
    assert points.vmp_v == pytest.approx(vmp, rel=TO_THE_PRINTED_DIGITS)
    assert points.power_w == pytest.approx(power, rel=TO_THE_PRINTED_DIGITS)
    assert points.fill_factor == pytest.approx(fill, rel=TO_THE_PRINTED_DIGITS)


@cells
def test_the_curve_passes_through_maximum_power(figures, expected):
    _, _, imp, vmp, _, _ = expected
    assert current_a(Diode(*figures), vmp) == pytest.approx(imp, rel=3e-9)
    assert voltage_v(Diode(*figures), imp) == pytest.approx(vmp, rel=3e-9)
