"""The current of a charging capacitor by its voltage, against the law of a resistor charging it.

v = V (1 - exp(-t / RC)), i = V / R exp(-t / RC): any textbook of circuits.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.intake.curves.charging import current_by_charge, rows_of_a_point

VOLT, OHM, FARAD = 20.0, 4.0, 0.01


def charged(rows, noise_v=0.0, seed=1):
    time_s = np.linspace(0, 3 * OHM * FARAD, rows)
    true = VOLT / OHM * np.exp(-time_s / OHM / FARAD)
    noise = noise_v * np.random.default_rng(seed).standard_normal(rows)
    return time_s, VOLT - OHM * true + noise, true


@given(st.integers(40, 400))
def test_without_noise_every_point_lies_on_the_law(rows):
    time_s, volts, true = charged(rows)
    found = current_by_charge(volts, time_s, FARAD)
    at = np.isfinite(found)
    assert at.sum() == rows // 3
    assert found[at] == pytest.approx(true[at], rel=3 * (3 / rows) ** 2)  # a line's own bend, (dt / RC)^2 / 6


@pytest.mark.parametrize("noise_v", [0.005, 0.02, 0.05])
def test_with_noise_more_rows_make_a_point_and_it_scatters_little(noise_v):
    time_s, volts, true = charged(2000, noise_v)
    rows = rows_of_a_point(volts, time_s)
    found = current_by_charge(volts, time_s, FARAD)
    at = np.isfinite(found)
    off = (found[at] - true[at]) / true.max()
    assert rows > 3
    assert float(off.std()) < 0.015
    assert abs(float(off.mean())) < 3 * float(off.std()) / np.sqrt(at.sum()) + 1e-3


def test_rows_that_cannot_be_read_or_bear_one_time_give_no_current():
    time_s, volts, _ = charged(60)
    volts[10:20] = np.nan
    assert np.all(np.isnan(current_by_charge(volts, time_s, FARAD)[10:20]))
    assert np.all(np.isnan(current_by_charge(volts, np.zeros(60), FARAD)))
