"""The names of a network's nodes: which points of it are one and the same wire.

Where there is no resistance there is no resistor, and the nodes on its two sides bear one name.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.circuit.network import Network, Substring

MINUS, PLUS = "0", "plus"  #: the terminals


@dataclass(frozen=True, slots=True)
class Nodes:
    """Names of nodes; `metered` where a meter lies below the cells of every substring and string."""

    network: Network
    metered: bool = True

    @property
    def bus(self) -> str:
        """Where the plus ends of all strings meet."""
        return "bus" if self.network.lead_ohm else PLUS

    def foot(self, s: int) -> str:
        """The minus end of a string, above its meter."""
        return f"foot{s}" if self.metered else MINUS

    def tail(self, s: int) -> str:
        """Between the tail's resistance and the blocking diode."""
        return f"tail{s}" if self.network.strings[s].blocking else self.bus

    def top(self, s: int) -> str:
        """The plus end of a string's last substring."""
        return f"top{s}" if self.network.strings[s].tail_ohm else self.tail(s)

    def ends(self, s: int, k: int) -> tuple[str, str]:
        """Lower and upper end of a substring."""
        last = k == len(self.network.strings[s].substrings) - 1
        return f"n{s}_{k - 1}" if k else self.foot(s), self.top(s) if last else f"n{s}_{k}"

    def cell(self, s: int, k: int, c: int) -> tuple[str, str, str]:
        """A cell's minus side, its junction's plus side, and the far end of its joint."""
        part: Substring = self.network.strings[s].substrings[k]
        low, high = self.ends(s, k)
        below = f"b{s}_{k}_{c}" if c or self.metered else low
        above = high if c == len(part.cells) - 1 else f"b{s}_{k}_{c + 1}"
        minus, plus = (above, below) if c in part.turned else (below, above)
        return minus, f"j{s}_{k}_{c}" if part.cells[c].series_ohm + part.joints_ohm[c] else plus, plus

    def broken(self, s: int) -> bool:
        """Whether a string's upper end hangs in the air."""
        return math.isinf(self.network.strings[s].tail_ohm)
