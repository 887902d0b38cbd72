"""ASTM E1300, load resistance: model constants and factors recalled; scope seen; loads derived.

The non-factored loads were integrated over an independent plate program (10 and 13 functions agree to
0.001 %). The example of the standard, 1200 x 1500 x 6 mm, reads 2.5 kPa off the chart (recalled).
"""

from __future__ import annotations

import numpy as np
import pytest

from panewright.glass.plate.bending import Plate, bend
from panewright.glass.strength import e1300
from panewright.glass.strength.breakage import biaxial

ROWS = (  # a, b, t mm, NFL Pa, w mm and peak MPa at that load
    (600, 600, 3.78, 5612.7, 5.999, 28.67),
    (1200, 600, 3.78, 2654.8, 8.098, 31.03),
    (1500, 1000, 5.56, 2661.6, 12.23, 25.16),
    (1600, 1000, 2.92, 1251.9, 18.036, 31.54),
    (1600, 1000, 3.78, 1715.9, 16.441, 27.55),
    (1905, 1524, 5.56, 1762.1, 19.969, 25.32),
    (1500, 1200, 5.56, 2510.4, 14.613, 24.15),
    (1000, 1000, 7.42, 5752.9, 7.607, 25.51),
    (2000, 1000, 2.92, 1012.9, 21.062, 29.91),
    (1000, 1000, 2.92, 1891.5, 13.318, 32.36),
)
SECONDS = (3, 10, 60, 600, 3600, 43200, 86400, 604800, 2592000, 31557600)
FACTOR = (1.0, 0.9275, 0.8293, 0.7181, 0.642, 0.5497, 0.5264, 0.4661, 0.4256, 0.364)


@pytest.mark.parametrize(("long", "short", "thick", "load", "w", "peak"), ROWS)
def test_non_factored_load_breaks_eight_in_a_thousand(long, short, thick, load, w, peak):
    found = e1300.non_factored_load_pa(long, short, thick)
    bent = bend(Plate(long, short, thick, e1300.GLASS), found)
    assert found == pytest.approx(load, rel=1e-4)
    assert bent.deflection_mm == pytest.approx(w, rel=3e-4)
    assert bent.peak_mpa == pytest.approx(peak, rel=1e-3)


def test_the_example_of_the_standard_reads_two_and_a_half_kilopascals():
    assert e1300.non_factored_load_pa(1500, 1200, 5.56) == pytest.approx(2500, rel=0.01)


def test_the_flaw_constant_belongs_to_the_stress_of_a_minute():
    minute = e1300.non_factored_load_pa(1500, 1200, 5.56, duration_s=60)
    assert minute == pytest.approx(1890, rel=0.02)  # what a 3 s reading of k would give


def test_factor_for_flaws_pulled_two_ways():
    ratio = np.array([1.0, 0.5, 0.0, -0.5, -1.0])  # Beason and Morgan 1984, recalled; figures derived
    assert biaxial(ratio) ** (1 / 7) == pytest.approx([1.0, 0.84642, 0.79987, 0.77569, 0.7593], abs=6e-6)


@pytest.mark.parametrize(("seconds", "factor"), list(zip(SECONDS, FACTOR, strict=True)))
def test_longer_loads_tire_annealed_glass(seconds, factor):
    assert e1300.duration_factor(seconds) == pytest.approx(factor, abs=6e-5)


@pytest.mark.parametrize(
    ("treatment", "short", "long"),
    [("annealed", 1.0, 0.43), ("heat-strengthened", 2.0, 1.3), ("tempered", 4.0, 3.0)],
)
def test_glass_type_factors_of_table_1(treatment, short, long):
    assert e1300.type_factor(treatment, 3) == short
    assert e1300.type_factor(treatment, 30 * 86400) == pytest.approx(long, rel=1e-12)
    assert long < e1300.type_factor(treatment, 86400) < short


@pytest.mark.parametrize(
    ("treatment", "exponent"), [("annealed", 16.2), ("heat-strengthened", 31.7), ("tempered", 47.5)]
)
def test_any_duration_goes_by_the_power_that_table_1_hides(treatment, exponent):
    """n of (3 s/t)^(1/n): 31.7 and 47.5 in the glass guide of NCSEA (seen in an open program's data).

    Annealed glass has 16 there; table 1 rounds its factor of 30 days up to 0.43, which makes 16.2.
    """
    short = e1300.type_factor(treatment, 3)
    for seconds in SECONDS[1:]:
        n = np.log(seconds / 3) / np.log(short / e1300.type_factor(treatment, seconds))
        assert n == pytest.approx(exponent, abs=0.05)


TABLED = (1.00, 0.93, 0.83, 0.72, 0.64, 0.55, 0.53, 0.47, 0.43, 0.36)  # appendix table, recalled


@pytest.mark.parametrize(("seconds", "tabled"), list(zip(SECONDS, TABLED, strict=True)))
def test_annealed_glass_at_any_duration_is_the_appendix_table_to_its_second_digit(seconds, tabled):
    assert e1300.duration_factor(seconds) == pytest.approx(tabled, abs=5e-3)
    assert e1300.type_factor("annealed", seconds) == pytest.approx(tabled, abs=9e-3)


def test_tempered_3p2_mm_pane_of_the_notes():
    load = e1300.non_factored_load_pa(1600, 1000, 3.2)
    assert 4 * load == pytest.approx(5652.5, rel=2e-4)
    assert 3 * load == pytest.approx(4239.4, rel=2e-4)


def test_edges_may_give_way_by_a_175th():
    assert e1300.edge_limit_mm(1750) == 10
