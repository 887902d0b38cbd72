"""Cell temperature: Faiman 2008 and Ross (NOCT) as an open photovoltaic library computes them (derived)."""

import pytest

from panewright.climate.rise import faiman_c, noct_ross, ross_c


@pytest.mark.parametrize(
    ("sun", "air", "wind", "cell"),
    [
        (800, 20, 1, 45.1256281),
        (1000, 25, 1, 56.4070352),
        (1000, 25, 5, 41.8918919),
        (600, 10, 2, 25.5118925),
        (1000, 35, 0, 75.0),
    ],
)
def test_faiman(sun, air, wind, cell):
    assert faiman_c(sun, air, wind) == pytest.approx(cell, abs=5e-8)


@pytest.mark.parametrize(
    ("sun", "air", "noct", "cell"),
    [(800, 20, 45, 45.0), (1000, 25, 45, 56.25), (1000, 25, 47, 58.75), (1000, 30, 50, 67.5)],
)
def test_ross_from_noct(sun, air, noct, cell):
    assert ross_c(sun, air, noct_ross(noct)) == pytest.approx(cell, abs=1e-9)
