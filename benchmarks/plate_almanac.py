"""Writes the almanac of plates anew: every leaf from walked paths at the nodes of its polynomials.

`python benchmarks/plate_almanac.py`, a minute. To be run after any change of the plate's
equations, of its functions or of where a path takes more of them; tests hold the almanac against the path.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import numpy as np

from panewright.beforehand import write_nearly, write_steps
from panewright.glass.plate.almanac import edges, states
from panewright.glass.plate.almanac import touches as kept
from panewright.glass.plate.almanac.leaf import FOLDER, Leaf, grown, node_places, polynomials
from panewright.glass.plate.almanac.touches import Touched
from panewright.glass.plate.basis import Array
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.plate.path import scale, walked_path
from panewright.glass.plate.reaction import walked_shares

_RATIOS, _FROM_REST, _BETWEEN = 12, 44, 20  # polynomials of the ratio at least, and of the load
_POISSON = 0.22


def state_figures(leaf: Leaf, aspect: float, load: float) -> Array:
    """Deflection and stress function as a leaf keeps them."""
    state = walked_path(aspect, _POISSON).faces(load * scale(_POISSON) ** 3).state
    v = grown(load) if leaf.begins == 0 else 1.0
    return np.concatenate((state.w / v, state.f / v**2))


def edge_figures(_leaf: Leaf, aspect: float, load: float) -> Array:
    """Shares of the push."""
    return walked_shares(walked_path(aspect, _POISSON, fine=True).faces(load * scale(_POISSON) ** 3))


def made(leaf: Leaf, figures: Callable[[Leaf, float, float], Array], kinds: int) -> tuple[Array, Array]:
    """A leaf's polynomials, and the size of each figure's kind, of which it has so many equally long."""
    wide = np.log(leaf.widest / leaf.least)
    ratios, loads = _RATIOS + round(8 * wide), _FROM_REST if leaf.begins == 0 else _BETWEEN
    at = leaf.nodes(ratios, loads)
    known = np.array([[figures(leaf, aspect, load) for load in at[1]] for aspect in at[0]])
    found = np.einsum("ka,lq,aqn->kln", _fitting(ratios), _fitting(loads), known)
    sizes = [np.full(part.shape[2], np.abs(part).max()) for part in np.array_split(known, kinds, axis=2)]
    return found, np.concatenate(sizes)


def touches() -> Array:
    """Logarithms of what touches do, over the force, as polynomials."""
    at = kept.nodes()
    known = np.array([_touched(Touched(*each)) for each in product(*at)]).reshape(*kept.COUNTS, 2)
    found = np.log(known)
    for axis, count in enumerate(kept.COUNTS):
        found = np.moveaxis(np.tensordot(_fitting(count), found, (1, axis)), 0, axis)
    return np.asarray(found)


def _touched(touched: Touched) -> list[float]:
    """Largest stress over the force in the middle and beside the long edge, of a plate 1 m wide."""
    glass = Elastic(70e9, kept.POISSON)
    side, force_n = 1000 * touched.square, 1000.0
    thick = 1000 * (force_n / (glass.young_pa * touched.force)) ** 0.25
    held = Supported(Plate(1000 * touched.aspect, 1000, thick, glass))
    pressings = (
        Pressing(touched.even * force_n, (Patch(force_n, 0.0, across, side, side),))
        for across in (0.0, 500 - 1.5 * side)
    )
    unit = held.plate.stress_unit_mpa * touched.force
    return [bend_supported(held, each).worst_mpa / unit for each in pressings]


def _fitting(count: int) -> Array:
    """From figures at the nodes to their polynomials."""
    table = np.array([polynomials(place, count) for place in node_places(count)]).T * (2 / count)
    table[0] /= 2
    return np.asarray(table)


def main() -> None:
    """Every leaf, each to its file."""
    work = [(leaf, state_figures, 2) for level in states.LEAVES for leaf in level]
    for leaf, figures, kinds in (*work, *((leaf, edge_figures, 1) for leaf in edges.LEAVES)):
        found, sizes = made(leaf, figures, kinds)
        write_steps(FOLDER / f"{leaf.name}.npz", found, sizes)
        last = [np.abs(found[-2:] / sizes).max(), np.abs(found[:, -2:] / sizes).max()]
        print(leaf.name, found.shape, f"last terms {last[0]:.0e} {last[1]:.0e}")
    write_nearly(kept.FILE, touches())


if __name__ == "__main__":
    main()
