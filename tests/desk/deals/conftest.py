"""A small invented lot for a small order."""

from __future__ import annotations

import random

import pytest


def lot_csv(cells: int = 84, seed: int = 5) -> str:
    """INVENTED cells of 125 mm, read in full sun; every twelfth leaks."""
    dice = random.Random(seed)
    lines = ["Cell,Isc [A],Voc [V],Imp [A],Vmp [V],E [W/m2],T [degC],String"]
    for n in range(1, cells + 1):
        isc = 5.7 * (1 + dice.gauss(0, 0.02))
        voc, ff = 0.62 * (1 + dice.gauss(0, 0.004)), 0.945 if n % 12 else 0.90
        string = f"S{n // 10}" if 10 <= n < 28 and n % 10 < 9 else ""
        line = f"{isc:.3f},{voc:.4f},{isc * ff:.3f},{voc * 0.835:.4f},1000,25,{string}"
        lines.append(f"K{n:03},{line}")
    return "\n".join(lines) + "\n"


@pytest.fixture(scope="session")
def cells_file(tmp_path_factory):
    """The lot in a file."""
    file = tmp_path_factory.mktemp("lot") / "invented.csv"
    file.write_text(lot_csv())
    return file
