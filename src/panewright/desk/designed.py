"""An order's text designed, once for all who ask in this process."""

from __future__ import annotations

from functools import lru_cache

from panewright import desk
from panewright.desk import Made
from panewright.desk.own_shelf import Stand, stand


def designed(text: str, file: str) -> Made:
    """An order's text designed; the same again costs nothing while the shelf stays as it is."""
    return _designed(text, file, stand())


@lru_cache(maxsize=24)
def _designed(text: str, file: str, _shelf: Stand) -> Made:
    return desk.design(text.encode(), file)
