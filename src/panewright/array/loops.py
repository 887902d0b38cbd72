"""The loops of this room compiled; what is compiled is kept, see `compiling`."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from panewright.array import field, stored
from panewright.battery import lead, lfp, through
from panewright.circuit.chords.panels import MODULES
from panewright.compiling import machine_code


@cache
def field_loops() -> dict[str, Callable[..., Any]]:
    """Functions of `field` by name; a minute on a machine that has not seen them."""
    return machine_code((*MODULES, field))


@cache
def stored_loops() -> dict[str, Callable[..., Any]]:
    """Functions of `stored` by name."""
    return machine_code((lead, lfp, through, stored))
