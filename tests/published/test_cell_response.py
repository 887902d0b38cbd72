"""A. Driesse, J. Stein, Global normal spectral irradiance in Albuquerque, 2020, DOI 10.2172/1814068.

Spectral response measured on a crystalline cell, smoothed: the example of pvlib (seen). Quantum efficiency
is response times 1239.84 over the wavelength. Compared relative to 750 nm: the cell and our usual cell are
not the same one, and the ultraviolet depends on what the measured cell lay under.

M. A. Green, Solar Energy Materials and Solar Cells 92, 2008, p. 1305: absorption of silicon at 300 K, here
rows which are not in our table (seen, as tabulated by refractiveindex.info).
"""

import numpy as np
import pytest
from pvlib.spectrum import get_example_spectral_response

from panewright.cell.quantum import Optics, quantum_efficiency
from panewright.cell.silicon import absorption_per_m, refractive_index
from panewright.glass.light.spectrum import AM15_GLOBAL


def _measured(nm):
    response = get_example_spectral_response()
    return np.interp(nm, response.index, response.to_numpy() * 1239.84 / response.index)


def test_the_usual_cell_answers_to_each_colour_as_a_measured_one():
    nm = np.arange(425.0, 1151.0, 25.0)
    first = np.array([750.0])
    ours = quantum_efficiency(nm, Optics()) / quantum_efficiency(first, Optics())
    assert ours == pytest.approx(_measured(nm) / _measured(first), abs=0.045)


def test_both_weigh_the_sun_alike():
    nm, photons = AM15_GLOBAL.middle_nm, AM15_GLOBAL.current_a_m2
    red = nm > 700
    ours, theirs = photons * quantum_efficiency(nm, Optics()), photons * _measured(nm)
    assert ours[red].sum() / ours.sum() == pytest.approx(theirs[red].sum() / theirs.sum(), abs=0.01)


@pytest.mark.parametrize(
    ("nm", "n", "k"),
    [
        (430, 4.949, 0.138),
        (550, 4.077, 2.7968e-2),
        (650, 3.844, 1.4431e-2),
        (890, 3.619, 2.4293e-3),
        (1030, 3.562, 2.4753e-4),
        (1090, 3.545, 4.0768e-5),
        (1150, 3.530, 6.2230e-6),
    ],
)
def test_silicon_between_the_rows_of_our_table(nm, n, k):
    wave = np.array([float(nm)])
    assert refractive_index(wave)[0] == pytest.approx(n, rel=5e-3)
    assert absorption_per_m(wave)[0] == pytest.approx(4 * np.pi * k / (nm * 1e-9), rel=0.06)
