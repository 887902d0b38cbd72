"""An order's text designed, once for all who ask in this process."""

from __future__ import annotations

from functools import lru_cache

from panewright import desk
from panewright.desk import Made


@lru_cache(maxsize=24)
def designed(text: str, file: str) -> Made:
    """An order's text designed; the same again costs nothing."""
    return desk.design(text.encode(), file)
