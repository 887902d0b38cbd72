"""A panel's heat balance in steady weather: one square metre over a cell, layer by layer.

    sun taken in by cover and cell  =  power + heat through the front + heat through the back

The front sheds to air, sky and ground; the back to what lies behind. Heat that flows sideways is left out:
glass evens out a centimetre or two, so cells are as hot as if the gaps between them were cells too. Nor does
anything store heat: a steady hour is hotter than a passing one.

Power falls by 0.4 % a kelvin above 25 °C: usual for crystalline cells (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.climate.balance.behind import open_leak, roof_ways
from panewright.climate.balance.film import carried_w_m2
from panewright.climate.balance.layer import Layer
from panewright.climate.balance.layers import Layers
from panewright.climate.balance.network import Leak, Network, Path, settled_k
from panewright.climate.balance.surroundings import Surroundings, radiated_w_m2
from panewright.units import KELVIN

_POWER_PER_K = 0.004
_STC_K = 25.0 + KELVIN


@dataclass(frozen=True, slots=True)
class Heats:
    """How warm each face of a panel is."""

    face_c: float  #: the cover's outer face
    cover_c: float  #: the cover's inner face
    cell_c: float
    back_c: float  #: the outer face of the back
    behind_c: tuple[float, ...] = ()  #: close to a roof: the roof, and the air between

    @property
    def pane_c(self) -> float:
        """The cover's mean, by which it grows. [degC]"""
        return (self.face_c + self.cover_c) / 2


def heats(layers: Layers, around: Surroundings, more_w_m2: float = 0.0) -> Heats:
    """How warm the panel's layers are; `more_w_m2` is heat put into the cell beside the sun's."""
    solved = settled_k(network(layers, around, more_w_m2), around.air_k + 1.0)
    found = tuple(heat - KELVIN for heat in solved)
    cell, back = len(layers.front), len(layers.front) + len(layers.back)
    return Heats(found[0], found[1], found[cell], found[back], found[back + 1 :])


def network(layers: Layers, around: Surroundings, more_w_m2: float = 0.0) -> Network:
    """Nodes between the layers, front to back; close to a roof two more behind."""
    cell, back = len(layers.front), len(layers.front) + len(layers.back)
    put_in = [0.0] * (back + 1)
    put_in[cell] = layers.cell_takes * around.sun_w_m2 + more_w_m2
    for face in (0, 1):
        put_in[face] += layers.cover_takes * around.sun_w_m2 / 2
    paths = tuple(_through(k, layer, around) for k, layer in enumerate((*layers.front, *layers.back)))
    leaks = (_face(layers, around), _power(cell, layers, around))
    if around.gap_mm is None:
        return Network(tuple(put_in), paths, (*leaks, open_leak(back, layers.back_emits, around)))
    behind, out = roof_ways(back, layers.back_emits, around)
    return Network((*put_in, 0.0, 0.0), paths + behind, leaks + out)


def _through(upper: int, layer: Layer, around: Surroundings) -> Path:
    """Heat comes up through a layer from the node behind it."""
    return Path(upper + 1, upper, lambda lower_k, upper_k: layer.flux_w_m2(lower_k, upper_k, around.tilt_deg))


def _face(layers: Layers, around: Surroundings) -> Leak:
    def flux_w_m2(face_k: float) -> float:
        carried = carried_w_m2(face_k, around.air_k, around.tilt_deg, around.wind_m_s, share=around.air_share)
        return carried + radiated_w_m2(face_k, layers.front_emits, around.tilt_deg, around)

    return Leak(0, flux_w_m2)


def _power(cell: int, layers: Layers, around: Surroundings) -> Leak:
    at_stc_w_m2 = layers.gives * around.sun_w_m2
    return Leak(cell, lambda cell_k: at_stc_w_m2 * max(0.0, 1 - _POWER_PER_K * (cell_k - _STC_K)))
