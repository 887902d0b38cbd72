"""A lot of INVENTED cells, taken in by the page of lots."""

from __future__ import annotations

import random


def lot_csv(cells=84, seed=5):
    """INVENTED cells of 125 mm, read in full sun."""
    dice = random.Random(seed)
    lines = ["Cell,Isc [A],Voc [V],Imp [A],Vmp [V],E [W/m2],T [degC]"]
    for n in range(1, cells + 1):
        isc, voc = 5.7 * (1 + dice.gauss(0, 0.02)), 0.62 * (1 + dice.gauss(0, 0.004))
        lines.append(f"K{n:03},{isc:.3f},{voc:.4f},{isc * 0.945:.3f},{voc * 0.835:.4f},1000,25")
    return ("\n".join(lines) + "\n").encode()


def dropped(page, served):
    """A lot taken in; the page of its cells."""
    page.goto(f"{served.url}/lots")
    page.locator("#c-lot").fill("K1")
    page.locator("#c-file").set_input_files({"name": "lot.csv", "mimeType": "text/csv", "buffer": lot_csv()})
    page.get_by_role("button", name="Take it in").click()
    page.wait_for_url("**/cells/K1")
