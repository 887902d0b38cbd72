"""Compiled answers for a program that stays loaded.

The first compilation on a machine takes minutes and holds up everything else in its process; it is therefore
left to a process of its own, whose work stays on the disk. Loading it from there takes a second.
"""

from __future__ import annotations

import subprocess
import sys

from panewright.circuit.line import LineOf

_COMPILE = "from panewright.circuit.line_compiled import load; load()"


def quick_lines() -> LineOf:
    """Who solves panels quickly, once this has returned: call it from a thread behind the pages."""
    from panewright.circuit.line_compiled import as_compiled, load

    subprocess.run([sys.executable, "-c", _COMPILE], check=False, capture_output=True)
    load()
    return as_compiled
