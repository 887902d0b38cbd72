"""Laws of a cell's quantum efficiency."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.quantum import ACID, FLAT, PYRAMIDS, Optics, quantum_efficiency, reflectance, scale
from panewright.glass.light.spectrum import AM15_GLOBAL

NM = AM15_GLOBAL.middle_nm
waves = st.floats(300, 1200).map(lambda nm: np.array([nm]))


@given(waves, st.floats(1.0, 1.6), st.sampled_from([PYRAMIDS, ACID, FLAT]), st.floats(0, 150))
def test_efficiency_is_a_share(nm, before, meets, coat_nm):
    optics = Optics(meets=meets, coat_nm=coat_nm)
    assert 0 <= quantum_efficiency(nm, optics, before)[0] <= 1 - reflectance(nm, optics, before)[0] <= 1


def test_without_a_coat_the_face_is_fresnels():
    bare = reflectance(np.array([600.0]), Optics(meets=FLAT, coat_nm=0.0))
    assert bare[0] == pytest.approx(((3.94 - 1) / (3.94 + 1)) ** 2, rel=1e-3)  # k adds next to nothing


def test_a_quarter_wave_throws_back_least_where_theory_says():
    """At four times the coat's optical thickness: ((n0 n2 - n1^2) / (n0 n2 + n1^2))^2, n2 at 615 nm."""
    least = reflectance(np.array([615.0]), Optics(meets=FLAT))[0]
    assert least == pytest.approx(((3.908 - 2.05**2) / (3.908 + 2.05**2)) ** 2, abs=2e-5)


@pytest.mark.parametrize(
    ("meets", "low", "high"), [(PYRAMIDS, 0.004, 0.013), (ACID, 0.008, 0.02), (FLAT, 0.012, 0.03)]
)
def test_encapsulant_gains_one_or_two_parts_in_a_hundred(meets, low, high):
    air, under = (
        AM15_GLOBAL.current_a_m2 * quantum_efficiency(NM, Optics(meets=meets), n) for n in (1, 1.45)
    )
    assert low < under.sum() / air.sum() - 1 < high


@given(st.floats(0.1, 1.0), st.floats(1.0, 20.0))
def test_a_thicker_wafer_and_better_trapping_catch_more(wafer_mm, paths):
    thin = quantum_efficiency(NM, Optics(wafer_mm=wafer_mm, paths=paths))
    assert np.all(quantum_efficiency(NM, Optics(wafer_mm=1.1 * wafer_mm, paths=paths)) >= thin)
    assert np.all(quantum_efficiency(NM, Optics(wafer_mm=wafer_mm, paths=1.1 * paths)) >= thin)


@given(st.floats(250, 420))
def test_the_scale_brings_the_cells_own_current(isc_a_m2):
    efficiency = quantum_efficiency(NM, Optics())
    found = scale(isc_a_m2, AM15_GLOBAL.current_a_m2, efficiency)
    assert (found * efficiency * AM15_GLOBAL.current_a_m2).sum() == pytest.approx(isc_a_m2)


def test_a_usual_cell_needs_a_scale_a_little_under_one():
    """156 mm mono with clipped corners, 8.8908 A: printed fingers and busbars take the rest."""
    found = scale(8.8908 / 0.023895, AM15_GLOBAL.current_a_m2, quantum_efficiency(NM, Optics()))
    assert 0.92 < found < 1.0


def test_optics_that_cannot_be_are_refused():
    with pytest.raises(ValueError, match="above zero"):
        Optics(wafer_mm=0.0)
