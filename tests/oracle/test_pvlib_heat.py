"""Cell temperatures beside an open library's models, which were fitted to measured panels.

Its wind is measured at 10 m, ours at the panel: bands are held where the breeze is 1 m/s, the balance's own
case.
"""

from __future__ import annotations

from dataclasses import replace

import pandas as pd
import pvlib
import pytest

from panewright.climate.balance.layer import Solid
from panewright.climate.balance.layers import Layers
from panewright.climate.balance.steady import heats
from panewright.climate.balance.surroundings import Surroundings, clear_sky_c
from panewright.climate.rise import faiman_c

FILM, GLASS, SHEET = Solid(0.45, 0.35), Solid(3.2, 1.0), Solid(0.35, 0.2)
FACTORY = Layers((GLASS, FILM), (FILM, SHEET), cover_takes=0.01, cell_takes=0.90, gives=0.16)
DOUBLE = replace(FACTORY, back=(FILM, GLASS), back_emits=0.84)
LAGGED = replace(FACTORY, back=(Solid(200.0, 0.02),))
SANDIA = pvlib.temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]


def cell_c(layers, sun_w_m2, wind_m_s, gap_mm=None):
    here = Surroundings(25.0, clear_sky_c(25.0), sun_w_m2, wind_m_s, 30.0, gap_mm)
    return heats(layers, here).cell_c


def fitted_c(kind, sun_w_m2):
    return pvlib.temperature.sapm_cell(sun_w_m2, 25.0, 1.0, **SANDIA[kind])


@pytest.mark.parametrize("sun_w_m2", [400.0, 800.0, 1000.0])
@pytest.mark.parametrize(
    ("layers", "kind"), [(FACTORY, "open_rack_glass_polymer"), (DOUBLE, "open_rack_glass_glass")]
)
def test_open_racks_in_a_breeze(layers, kind, sun_w_m2):
    assert cell_c(layers, sun_w_m2, 1.0) <= fitted_c(kind, sun_w_m2) + 0.1
    assert fitted_c(kind, sun_w_m2) <= cell_c(layers.idle, sun_w_m2, 1.0) + 0.2
    assert cell_c(layers, sun_w_m2, 1.0) == pytest.approx(fitted_c(kind, sun_w_m2), abs=4.0)


@pytest.mark.parametrize("sun_w_m2", [400.0, 800.0, 1000.0])
def test_a_back_that_sheds_nothing(sun_w_m2):
    fitted = fitted_c("insulated_back_glass_polymer", sun_w_m2)
    assert cell_c(LAGGED, sun_w_m2, 1.0) <= fitted <= cell_c(LAGGED.idle, sun_w_m2, 1.0) + 1.0


@pytest.mark.parametrize("sun_w_m2", [400.0, 800.0, 1000.0])
def test_a_roof_lies_between_an_open_rack_and_a_back_that_sheds_nothing(sun_w_m2):
    roof = cell_c(FACTORY, sun_w_m2, 1.0, 100.0)
    assert cell_c(FACTORY, sun_w_m2, 1.0) + 2 < roof < cell_c(LAGGED, sun_w_m2, 1.0) - 2
    assert (
        fitted_c("open_rack_glass_polymer", sun_w_m2) < roof < fitted_c("close_mount_glass_glass", sun_w_m2)
    )


@pytest.mark.parametrize(
    ("sun_w_m2", "wind_m_s"), [(1000.0, 1.0), (1000.0, 3.0), (1000.0, 5.0), (600.0, 2.0)]
)
def test_another_balance_with_our_own_noct_follows_sun_and_wind(sun_w_m2, wind_m_s):
    here = Surroundings(20.0, clear_sky_c(20.0), 800.0, 1.0, 30.0)
    noct_c = heats(FACTORY.idle, here).cell_c
    hours = pd.date_range("2020-06-01 10:00", periods=8, freq="1h")
    weather = (pd.Series(value, hours) for value in (sun_w_m2, 25.0, wind_m_s))
    theirs = pvlib.temperature.fuentes(*weather, noct_c, module_height=9.144).iloc[-1]
    assert cell_c(FACTORY.idle, sun_w_m2, wind_m_s) == pytest.approx(theirs, abs=2.0)


def test_the_same_coefficient_of_one_figure():
    assert faiman_c(800.0, 20.0, 1.0) == pytest.approx(pvlib.temperature.faiman(800.0, 20.0, 1.0), abs=1e-9)
