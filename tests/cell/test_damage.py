"""Laws of what goes wrong inside a cell."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.damage import Cracked, RibbonOff, Shaded, Shunted, Soiled
from panewright.cell.diode import Diode
from panewright.cell.fingers import Fingers
from panewright.cell.key_points import key_points

cells = st.builds(
    Diode,
    light_a=st.floats(0.1, 12),
    saturation_a=st.floats(1e-12, 1e-7),
    ideality_v=st.floats(0.022, 0.05),
    series_ohm=st.floats(1e-4, 0.05),
    shunt_ohm=st.floats(1, 1e4),
    breakdown_siemens=st.floats(0, 0.02),
    breakdown_v=st.floats(-30, -8),
    breakdown_exponent=st.floats(2, 5),
)
shares = st.floats(0.01, 0.99)


@given(cells, shares, st.floats(-7.5, 0.75))
def test_both_sides_of_a_crack_together_are_the_whole_cell(cell, share, volt):
    one, other = Cracked(share).of(cell), Cracked(1 - share).of(cell)
    both = current_a(one, volt) + current_a(other, volt)
    assert both == pytest.approx(current_a(cell, volt), rel=1e-9, abs=1e-9)


@given(cells, shares)
def test_a_crack_leaves_the_open_circuit_voltage_alone(cell, share):
    assert voltage_v(Cracked(share).of(cell), 0.0) == pytest.approx(voltage_v(cell, 0.0), rel=1e-9)


@given(cells, shares, shares)
def test_shade_takes_its_share_of_the_light_and_nothing_else(cell, share, depth):
    shaded, row = Shaded(share, depth).of(cell), np.linspace(-5, 0.3, 7)
    junction = row + current_a(cell, row) * cell.series_ohm  # at one junction voltage the light only adds
    lost = cell.light_a * share * depth
    again = current_a(shaded, junction - (current_a(cell, row) - lost) * cell.series_ohm)
    assert again == pytest.approx(current_a(cell, row) - lost, rel=1e-8, abs=1e-9)


@given(cells, shares)
def test_an_even_film_is_a_thin_shade_over_all(cell, lost):
    assert Soiled(lost).of(cell) == Shaded(1.0, depth=lost).of(cell)


@given(cells, st.floats(0.01, 100), st.floats(-5, 0.5))
def test_a_shunt_takes_the_junction_voltage_over_its_resistance(cell, ohm, volt):
    bare = Diode(
        cell.light_a, cell.saturation_a, cell.ideality_v, 0.0, cell.shunt_ohm, cell.breakdown_siemens
    )
    lost = current_a(bare, volt) - current_a(Shunted(ohm).of(bare), volt)
    assert lost == pytest.approx(volt / ohm, rel=1e-7, abs=1e-9)


@given(
    cells,
    st.one_of(
        st.builds(Cracked, shares), st.builds(Soiled, shares), st.builds(Shunted, st.floats(0.01, 1e4))
    ),
)
def test_damage_never_makes_a_cell_stronger(cell, damage):
    assert key_points(damage.of(cell)).power_w <= key_points(cell).power_w * (1 + 1e-9)


def test_a_ribbon_off_adds_the_way_through_the_fingers_and_to_the_ribbons_left():
    cell = Diode(8.55, 2.3e-9, 0.0283, 0.003, 20.0)
    off = RibbonOff(Fingers(2, 156.0, 156.0), apart=(2,), ribbon_ohm=0.006)
    # one field of three quarters of the width and one of a quarter, in place of four of a quarter
    r = 0.002 * 50 / 0.156 / 0.156**2 * 0.156**3 / 3
    assert off.finger_ohm == pytest.approx(r * (0.75**3 + 0.25**3 - 4 * 0.25**3))
    assert off.of(cell).series_ohm == pytest.approx(0.003 + off.finger_ohm)
    assert off.joint_ohm == pytest.approx(0.006 * (1 - 1 / 2))  # the whole current in one, not half in each


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Cracked(1.0), "open joint"),
        (lambda: Cracked(-0.1), "from 0 to under 1"),
        (lambda: Shaded(1.5), "0.25 for a quarter"),
        (lambda: Shaded(0.5, depth=-1), "deep"),
        (lambda: Soiled(float("nan")), "dirt"),
        (lambda: Shunted(0.0), "0.001"),
        (lambda: RibbonOff(Fingers(3, 156, 156), (4,)), "counted from 1 to 3"),
        (lambda: RibbonOff(Fingers(3, 156, 156), (1, 2, 3)), "open joint"),
        (lambda: RibbonOff(Fingers(3, 156, 156), (1,), ribbon_ohm=-1), "resistance"),
    ],
)
def test_a_strength_without_meaning_is_refused_with_a_cure(make, words):
    with pytest.raises(ValueError, match=words):
        make()
