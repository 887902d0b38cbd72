"""How much of each colour a sheet swallows on the way through: the extinction K, exp(-K t).

Glass is tinted by its iron: a broad band round 1100 nm, which makes the edge look green, and the
ultraviolet. From 350 to 1700 nm low-iron glass has the same curve, lower: the table is for common clear
float, and a strength scales it (1 for clear float, about 0.22 for the low-iron glass of [R]; less in
today's). Past 2700 nm it is the water in the glass that swallows. Acrylic is clear to 850 nm and has the
bands of its C-H bonds beyond; below 380 nm cast sheet is made opaque to save itself from the sun.

[R] M. Rubin, Optical properties of soda lime silica glasses, Solar Energy Materials 12, 1985, p. 275: k of
    clear and of low-iron glass, K = 4 pi k / wavelength (seen, as tabulated by refractiveindex.info).
[Z] X. Zhang et al., Complex refractive indices measurements of polymers in visible and near-infrared bands,
    Applied Optics 59, 2020, p. 2337: k of acrylic (seen, the same); smoothed. Below 400 nm: from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.glass.light.spectrum import Array

# wavelength [nm] and extinction coefficient k, times 1e6
_CLEAR_FLOAT = (
    (310, 50.0), (320, 13.75), (330, 6.281), (340, 2.713), (350, 1.118), (360, 0.5419), (370, 0.4061),
    (380, 0.5936), (390, 0.2828), (400, 0.2047), (430, 0.2397), (460, 0.1669), (500, 0.1492), (540, 0.1988),
    (580, 0.3563), (620, 0.5972), (660, 0.9108), (700, 1.234), (750, 1.83), (800, 2.477), (850, 3.15),
    (900, 3.727), (950, 4.17), (1000, 4.591), (1100, 5.111), (1200, 5.374), (1300, 5.353), (1400, 4.939),
    (1500, 4.234), (1600, 3.675), (1700, 3.656), (1800, 3.92), (2000, 4.423), (2200, 5.373), (2400, 5.372),
    (2600, 6.883), (2700, 10.2), (2800, 64.95), (3000, 74.32), (3500, 106.5), (4000, 106.0),
)  # fmt: skip
_ACRYLIC = (
    (280, 30.0), (360, 30.0), (370, 15.0), (380, 3.0), (390, 0.8), (400, 0.38), (410, 0.239), (450, 0.22),
    (550, 0.228), (600, 0.26), (700, 0.26), (800, 0.27), (860, 0.31), (880, 0.435), (900, 0.8), (930, 0.87),
    (960, 0.6), (1000, 0.8), (1050, 1.3), (1100, 1.4), (1120, 2.38), (1140, 4.84), (1160, 7.99), (1180, 9.3),
    (1200, 3.67), (1240, 2.07), (1300, 1.87), (1330, 3.2), (1350, 10.2), (1390, 13.4), (1440, 10.1),
    (1500, 4.04), (1560, 3.95), (1600, 5.9), (1640, 12.4), (1680, 80.0), (1720, 65.0), (1780, 33.0),
    (1830, 21.0), (1900, 60.0), (1950, 39.0), (2000, 23.0), (2130, 52.0), (2200, 80.0), (2300, 1200.0),
    (4000, 1200.0),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Tint:
    """A material's own colour: wavelengths and its extinction coefficient k there."""

    name: str
    nm: tuple[float, ...]
    k: tuple[float, ...]

    def extinction_per_m(self, nm: Array, strength: float = 1.0) -> Array:
        """K at each wavelength, for a sheet tinted so much more or less than the table's. [1/m]

        Between the rows k runs straight on a scale of powers, outside it stays.
        """
        k = np.exp(np.interp(nm, self.nm, np.log(self.k)))
        return np.asarray(strength * 4 * np.pi * k / (nm * 1e-9))


def _tint(name: str, rows: tuple[tuple[float, float], ...]) -> Tint:
    return Tint(name, tuple(nm for nm, _ in rows), tuple(k * 1e-6 for _, k in rows))


CLEAR_FLOAT = _tint("clear float glass", _CLEAR_FLOAT)
ACRYLIC = _tint("acrylic", _ACRYLIC)
LOW_IRON = 0.12  #: strength in today's solar glass: 3.2 mm let 0.905 through (trade figure 0.90 to 0.92)
LOW_IRON_1985 = 0.22  #: strength in the low-iron glass of [R]
