"""Serial numbers of an order, counted on from the first."""

from __future__ import annotations

import re


def serials(first: str, panels: int) -> tuple[str, ...]:
    """The serials of all panels; leading zeros stay.

    >>> serials("JL-0009", 3)
    ('JL-0009', 'JL-0010', 'JL-0011')
    >>> serials("PIER", 2)
    ('PIER-1', 'PIER-2')
    """
    found = re.fullmatch(r"(.*?)(\d+)", first)
    if found is None:
        return tuple(f"{first}-{number}" for number in range(1, panels + 1))
    stem, digits = found.groups()
    return tuple(f"{stem}{int(digits) + more:0{len(digits)}d}" for more in range(panels))
