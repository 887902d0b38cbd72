"""A log of a million points read whole, beside pandas: four columns, semicolons, decimal commas.

The peer is told the mark of columns and of decimals, and stops at columns of figures. Ours finds them,
proposes the columns, and comes to sweeps in SI with every row told. It runs as the command does, without
looking for circles among the records.
"""

from __future__ import annotations

import gc
import sys
from io import BytesIO
from pathlib import Path

from clock import best_s
from row import Row

from panewright.intake.curves.blocks import read_blocks
from panewright.intake.curves.proposal import propose
from panewright.intake.curves.reading import read_sweeps
from panewright.intake.curves.sweeps import SweepsRead

sys.path.append(str(Path(__file__).parents[1] / "tests" / "intake" / "curves"))

POINTS = 1_000_000
OF_A_SWEEP = 1_000
MOST_S = 8.0


def rows() -> list[Row]:
    """One log."""
    import pandas

    data = log()
    peer_s = best_s(lambda: pandas.read_csv(BytesIO(data), sep=";", decimal=","), 2)
    points = sum(map(len, read(data).sweeps))
    what = f"{points} points of a log read: semicolons, decimal commas"
    return [Row(what, best_s(lambda: read(data), 2), "pandas.read_csv", peer_s, MOST_S)]


def read(data: bytes) -> SweepsRead:
    """All that is done with a file, from bytes to SI."""
    gc.disable()
    try:
        blocks = read_blocks(data, "log.csv")
        return read_sweeps(blocks, propose(blocks))
    finally:
        gc.enable()


def log() -> bytes:
    """The invented panel swept over and over, a reading every hundredth of a second."""
    import numpy as np
    from invented_curves import AT_W_M2, comma, sweep

    chance = np.random.default_rng(7)
    volts, amperes = sweep(OF_A_SWEEP)
    points = [
        f"{comma(v, 3)};{comma(i + 0.002 * chance.normal(), 4)};{AT_W_M2:.0f}"
        for v, i in zip(volts, amperes, strict=True)
    ]
    lines = (f"{comma(0.01 * place, 2)};{points[place % OF_A_SWEEP]}" for place in range(POINTS))
    return ("t [s];U [V];I [A];G [W/m2]\n" + "\n".join(lines) + "\n").encode()


if __name__ == "__main__":
    from table import told

    for line in rows():
        print(told(line))
