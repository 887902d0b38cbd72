"""Sunlight as the standard has it, colour by colour: AM1.5 global, in bands.

A cell counts photons, a pane swallows some colours more than others, so the light is kept in bands. The
table gives what has been summed up from 280 nm to a wavelength: the current if every photon freed one
electron, and the power. Between two rows it runs straight; the rows were placed where that errs least, by no
more than one part in 2000 of the current to 1200 nm or in 1000 of the whole power.

[G] ASTM G173-03, global tilt, 280 to 4000 nm; its 2002 rows summed by trapezoids. The rows here are those
    sums.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# wavelength [nm]; from 280 nm to there: current [mA/cm2], power [W/m2]; [G]
_SUMS = (
    (280, 0.0, 0.0), (310, 0.0047, 0.19), (325, 0.0703, 2.739), (335, 0.1792, 6.826),
    (360, 0.5227, 19.068), (395, 1.2212, 41.995), (400, 1.3529, 46.103), (436, 2.7783, 88.383),
    (448, 3.3652, 104.839), (478, 5.1075, 151.489), (518, 7.5828, 213.133), (540, 9.0194, 246.798),
    (590, 12.4526, 322.16), (624, 14.8808, 371.758), (658, 17.3498, 419.528), (684, 19.323, 455.988),
    (690, 19.7226, 463.201), (716, 21.6211, 496.679), (732, 22.6299, 513.953), (758, 24.5454, 545.83),
    (760, 24.6643, 547.773), (764, 24.7641, 549.396), (768, 24.9681, 552.697), (780, 25.8425, 566.702),
    (812, 28.1057, 601.967), (830, 29.1835, 618.243), (858, 31.035, 645.442), (896, 33.5467, 680.966),
    (930, 35.2584, 704.214), (940, 35.4642, 706.943), (956, 35.8811, 712.396), (966, 36.2154, 716.708),
    (980, 36.8956, 725.374), (996, 37.8225, 737.004), (1044, 40.5953, 770.722), (1080, 42.5369, 793.396),
    (1100, 43.5181, 804.56), (1104, 43.6877, 806.468), (1114, 44.0536, 810.561), (1138, 44.3754, 814.106),
    (1154, 44.6743, 817.34), (1162, 44.902, 819.777), (1200, 46.4563, 836.092), (1234, 47.9487, 851.293),
    (1306, 51.0182, 881.291), (1340, 51.9631, 890.16), (1420, 52.074, 891.178), (1488, 52.6073, 895.701),
    (1660, 57.8804, 937.256), (1760, 60.4773, 956.119), (1800, 61.0493, 960.112), (1980, 61.2826, 961.602),
    (2260, 64.9325, 982.906), (2440, 66.5718, 991.603), (3100, 66.9517, 993.356),
    (4000, 68.9829, 1000.371),
)  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Spectrum:
    """Light in bands of colour; equal only to itself."""

    edges_nm: Array  #: one more than there are bands
    current_a_m2: Array  #: of each band, one electron for each photon
    power_w_m2: Array  #: of each band

    @property
    def middle_nm(self) -> Array:
        """Middle of each band. [nm]"""
        return (self.edges_nm[1:] + self.edges_nm[:-1]) / 2

    def current_to(self, nm: float) -> float:
        """Current of all photons up to a wavelength, one electron each. [A/m2]

        >>> round(AM15_GLOBAL.current_to(1107) / 10, 1)
        43.8
        """
        return _summed(self.edges_nm, self.current_a_m2, nm)

    def power_to(self, nm: float) -> float:
        """Power of the light up to a wavelength. [W/m2]

        >>> round(AM15_GLOBAL.power_to(4000), 2)
        1000.37
        """
        return _summed(self.edges_nm, self.power_w_m2, nm)

    def power_share(self, share: Array, low_nm: float = 0.0, high_nm: float = np.inf) -> float:
        """Mean of a share given for each band, by the power in it; between two wavelengths if given. [-]"""
        inside = (self.middle_nm >= low_nm) & (self.middle_nm <= high_nm)
        return float((share * self.power_w_m2)[inside].sum() / self.power_w_m2[inside].sum())


def _summed(edges_nm: Array, each: Array, nm: float) -> float:
    if not edges_nm[0] <= nm <= edges_nm[-1]:
        raise ValueError(f"the light runs from {edges_nm[0]:.0f} to {edges_nm[-1]:.0f} nm, not to {nm:g} nm")
    return float(np.interp(nm, edges_nm, np.concatenate(([0.0], np.cumsum(each)))))


def _am15_global() -> Spectrum:
    sums = np.array(_SUMS)
    return Spectrum(sums[:, 0], np.diff(sums[:, 1]) * 10.0, np.diff(sums[:, 2]))


AM15_GLOBAL = _am15_global()
