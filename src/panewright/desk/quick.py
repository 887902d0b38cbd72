"""Compiled answers for a program that stays loaded.

The first compilation on a machine takes minutes and holds up everything else in its process; it is therefore
left to a process of its own, whose work stays on the disk. Loading it from there takes a second. One process
compiles at a time, however many shops are opened (see `compiling`), and it ends with the program that began
it: a shop that is killed and opened again leaves nothing behind that keeps the machine busy.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading

from panewright.circuit.line import LineOf

_COMPILE = "from panewright.desk.quick import compile_here; compile_here()"


def quick_lines() -> LineOf:
    """Who solves panels quickly, once this has returned: call it from a thread behind the pages."""
    from panewright.circuit.line_compiled import as_compiled, load

    # its input stays open as long as this program lives
    with subprocess.Popen(
        [sys.executable, "-c", _COMPILE],
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as child:
        child.wait()
    load()
    return as_compiled


def compile_here() -> None:
    """Compile in this process: after any other that does, and no longer than whoever began it lives."""
    threading.Thread(target=_end_with_parent, daemon=True).start()
    from panewright.circuit.line_compiled import load

    load()


def _end_with_parent() -> None:
    sys.stdin.buffer.read()
    os._exit(1)
