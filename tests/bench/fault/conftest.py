"""A panel of two rows under a diode each, and readings of it with things wrong."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from panewright.bench.fault.evidence import Prepared
from panewright.bench.fault.finding import ready
from panewright.bench.fault.foretold import Foretold, Wrong
from panewright.bench.fault.kinds import KINDS
from panewright.bench.fault.readings import Points
from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import Place
from panewright.circuit.trace import trace
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
MODEL = CellModel(Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4), 1.05, 0.0005, 24336.0)
KIND = {kind.key: kind for kind in KINDS}
LIGHT, HEAT, SCATTER = 800.0, 40.0, 0.005


def panel(irradiance_w_m2: float, cell_c: float) -> Network:
    cell = diode_at(MODEL, irradiance_w_m2, cell_c)
    row = Substring((cell,) * 18, (0.0012,) * 18, SCHOTTKY)
    return Network((String((row, row)),), 0.01)


@pytest.fixture(scope="session")
def by() -> Prepared:
    """The panel's suppositions, with all groups alike likely; two seconds, so once for all."""
    return ready(Foretold(panel, LIGHT, HEAT))


def made(*things: tuple[str, Place | None, float]) -> Wrong:
    """Things that are wrong, each as kind, place and strength."""
    kinds, places, strengths = zip(*things, strict=True) if things else ((), (), ())
    return Wrong(tuple(KIND[key] for key in kinds), tuple(places), tuple(strengths))


@pytest.fixture(scope="session")
def wrong() -> Callable[..., Wrong]:
    """See `made`."""
    return made


@pytest.fixture(scope="session")
def swept(by: Prepared) -> Callable[..., Points]:
    """A curve of sixty points of the panel with things wrong; the true errors are those that are told."""

    def read(*things: tuple[str, Place | None, float], seed: int = 1, scatter: float = SCATTER) -> Points:
        chance, curve = np.random.default_rng(seed), trace(by.foretold.network_with(made(*things)), 60)
        v, i = np.array(curve.voltage_v), np.array(curve.current_a)
        v, i = v * (1 + scatter * chance.normal(size=v.size)), i * (1 + scatter * chance.normal(size=i.size))
        return Points(v, i, SCATTER * np.abs(v), SCATTER * np.abs(i), LIGHT, HEAT)

    return read
