"""A short name for exactly these inputs, so that papers of two orders or two shelves never mix."""

from __future__ import annotations

import base64
import hashlib

from panewright.order.order import Order
from panewright.shelf.shelf import Shelf

_LETTERS = 8


def revision(order: Order, shelf: Shelf) -> str:
    """Eight letters and digits from the order's text and the whole shelf."""
    text = "\n".join(order.text.splitlines())  # how lines end is the editor's affair, not the order's
    return short_name(f"{text}\0{shelf!r}")


def short_name(text: str) -> str:
    """Eight letters and digits for exactly this text."""
    return base64.b32encode(hashlib.sha256(text.encode()).digest()).decode()[:_LETTERS]
