"""Silicon's optical constants at 300 K: how hard it turns light away, how deep it lets it in.

[S] M. A. Green, Self-consistent optical parameters of intrinsic silicon at 300 K including temperature
    coefficients, Solar Energy Materials and Solar Cells 92, 2008, p. 1305 (seen, as tabulated by
    refractiveindex.info; every second row and fewer where the curve is smooth).
"""

from __future__ import annotations

import numpy as np

from panewright.cell.root import Array

# wavelength [nm], refractive index n, extinction coefficient k; [S]
_GREEN = (
    (280, 2.959, 5.287), (290, 4.356, 5.286), (300, 4.976, 4.234), (310, 5.121, 3.598), (320, 5.112, 3.303),
    (330, 5.195, 3.1), (340, 5.301, 2.977), (350, 5.494, 2.938), (360, 6.026, 2.966), (370, 6.891, 2.171),
    (380, 6.616, 0.946), (390, 6.039, 0.445), (400, 5.613, 0.296), (410, 5.33, 0.227), (420, 5.119, 0.176),
    (440, 4.812, 0.107), (460, 4.587, 7.1381e-2), (480, 4.419, 5.5004e-2), (500, 4.294, 4.4165e-2),
    (520, 4.193, 3.6415e-2), (540, 4.112, 3.0295e-2), (560, 4.045, 2.5758e-2), (580, 3.988, 2.2524e-2),
    (600, 3.94, 1.9934e-2), (620, 3.898, 1.7367e-2), (640, 3.861, 1.5432e-2), (660, 3.828, 1.3498e-2),
    (680, 3.798, 1.1905e-2), (700, 3.772, 1.0528e-2), (720, 3.748, 9.6257e-3), (740, 3.727, 8.362e-3),
    (760, 3.708, 7.197e-3), (780, 3.691, 6.3933e-3), (800, 3.675, 5.4113e-3), (820, 3.661, 4.6134e-3),
    (840, 3.647, 3.9439e-3), (860, 3.635, 3.2781e-3), (880, 3.624, 2.6821e-3), (900, 3.614, 2.1701e-3),
    (920, 3.604, 1.7571e-3), (940, 3.595, 1.3689e-3), (960, 3.587, 1.0237e-3), (980, 3.579, 7.4866e-4),
    (1000, 3.572, 5.093e-4), (1020, 3.565, 3.2386e-4), (1040, 3.559, 1.8704e-4), (1060, 3.553, 9.3631e-5),
    (1080, 3.547, 5.3285e-5), (1100, 3.542, 3.0637e-5), (1120, 3.537, 1.7825e-5), (1140, 3.532, 9.0718e-6),
    (1160, 3.528, 3.877e-6), (1170, 3.526, 2.0483e-6), (1180, 3.524, 6.1036e-7), (1200, 3.52, 2.1008e-7),
    (1250, 3.511, 9.9472e-9), (1300, 3.503, 4.6553e-10), (1450, 3.485, 1.3846e-13),
)  # fmt: skip
_NM, _N, _K = (np.array(column) for column in zip(*_GREEN, strict=True))


def refractive_index(nm: Array) -> Array:
    """n at each wavelength; past the table as at its end. [-] [S]"""
    return np.asarray(np.interp(nm, _NM, _N))


def extinction(nm: Array) -> Array:
    """k at each wavelength, straight between rows on a scale of powers. [-] [S]"""
    return np.asarray(np.exp(np.interp(nm, _NM, np.log(_K))))


def absorption_per_m(nm: Array) -> Array:
    """What a metre of silicon absorbs, 4 pi k / wavelength. [1/m]

    >>> bool(4.0e5 < absorption_per_m(np.array([600.0]))[0] < 4.3e5)
    True
    """
    return np.asarray(4 * np.pi * extinction(nm) / (nm * 1e-9))
