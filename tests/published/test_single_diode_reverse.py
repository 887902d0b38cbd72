"""A cell with soft breakdown in reverse, solved in 40 digits by mpmath.

pvlib's explicit form of Bishop's equation agrees to 1e-15; its inverse loses digits or fails near
breakdown. The breakdown conductance is 0.1 / Rsh. Confidence: derived.
"""

import pytest

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode

# IL A, terminal V, junction V, current A, absorbed W
POINTS = [
    (0.0, -0.5, -0.499885992281, 0.0277449098581, 0.013872454929),
    (0.0, -2.0, -1.9995278741, 0.114896522582, 0.229793045164),
    (0.0, -5.0, -4.99866257528, 0.325475578161, 1.6273778908),
    (0.0, -10.0, -9.99471848516, 1.28530905231, 12.8530905231),
    (0.0, -15.0, -14.8787727741, 29.5018485489, 442.527728233),
    (8.5679853, -0.5, -0.464687040434, 8.59375917244, 4.29687958622),
    (8.5679853, -2.0, -1.96432958227, 8.68075016359, 17.3615003272),
    (8.5679853, -5.0, -4.96346776085, 8.89048296027, 44.4524148013),
    (8.5679853, -10.0, -9.95957755268, 9.83720372717, 98.3720372717),
    (8.5679853, -15.0, -14.8477216601, 37.0584452917, 555.876679375),
    (4.2839927, -0.5, -0.482286517589, 4.31075174158, 2.15537587079),
    (4.2839927, -2.0, -1.98192873054, 4.39782277145, 8.7956455429),
    (4.2839927, -5.0, -4.98106517706, 4.60797707936, 23.0398853968),
    (4.2839927, -10.0, -9.97714817511, 5.56121837858, 55.6121837858),
    (4.2839927, -15.0, -14.8632677772, 33.2751434153, 499.12715123),
]


def cell(light_a):
    return Diode(light_a, 3.498345e-9, 0.02877568862, 0.00410914, 20.0, 0.1 / 20.0, -18.0, 3.4)


@pytest.mark.parametrize(("light", "volt", "junction", "current", "absorbed"), POINTS)
def test_reverse_current_equals_the_forty_digit_solution(light, volt, junction, current, absorbed):
    got = current_a(cell(light), volt)
    assert got == pytest.approx(current, rel=1e-9)
    assert volt + got * 0.00410914 == pytest.approx(junction, rel=1e-9)
    assert -volt * got == pytest.approx(absorbed, rel=1e-9)


@pytest.mark.parametrize(("light", "volt", "current"), [(row[0], row[1], row[3]) for row in POINTS])
def test_the_voltage_of_a_reverse_current_is_found_even_near_breakdown(light, volt, current):
    assert voltage_v(cell(light), current) == pytest.approx(volt, rel=1e-9)
