"""One panel ready to be asked, by the functions as they are written."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.circuit.network import Network
from panewright.circuit.solver.bus import bus_v, held_at
from panewright.circuit.solver.crest import Top, all_humps, greatest
from panewright.circuit.solver.facts import learn
from panewright.circuit.solver.hand import Hand, hand_as_lists
from panewright.circuit.solver.sheet import Laid, lay_out
from panewright.circuit.solver.walk import Pool, room


@dataclass(frozen=True, slots=True)
class Panel:
    """A network laid out, and room to reckon in; what was found last is where the next search begins."""

    laid: Laid
    hand: Hand

    @classmethod
    def of(cls, network: Network) -> Panel:
        """Lay a network out."""
        laid = _learnt(network)
        return cls(laid, hand_as_lists(*_sizes(laid)))

    def held(self, volt: float, load_ohm: float = 0.0) -> tuple[float, float]:
        """Bus voltage and current with the terminals held at a voltage behind a resistance. [V, A]"""
        sheet, cells, *_ = self.laid
        ohm = sheet.lead_ohm + load_ohm
        return held_at(sheet, cells, volt, ohm, True, self.hand)

    def volt(self, current: float) -> float:
        """Terminal voltage at a current. [V]"""
        sheet, cells, *_ = self.laid
        bus = bus_v(sheet, cells, current, True, self.hand)
        return bus - current * sheet.lead_ohm

    def greatest(self, level: float) -> tuple[Pool, int]:
        """Points of a walk, and the number of the one of greatest power."""
        points = room(*_sizes(self.laid))
        with np.errstate(all="ignore"):
            return points, greatest(self.laid.sheet, self.laid.cells, level, self.hand, points)

    def humps(self, level: float) -> list[Top]:
        """Place on the walk, current and voltage of the top of every hump."""
        with np.errstate(all="ignore"):
            return all_humps(self.laid.sheet, self.laid.cells, level, self.hand, room(*_sizes(self.laid)))


@lru_cache(maxsize=256)
def _learnt(network: Network) -> Laid:
    """A network laid out with its facts, which no question changes: many are asked of the same one."""
    laid = lay_out(network)
    learn(laid.sheet, laid.cells)
    return laid


def _sizes(laid: Laid) -> tuple[int, int, int]:
    return len(laid.cells.light), len(laid.sheet.kind), len(laid.sheet.alike)
