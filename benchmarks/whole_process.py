"""Whole commands, from start to exit, beside what Python and its numerical library alone take."""

from __future__ import annotations

import compileall
import sys
import tempfile
from pathlib import Path

from clock import best_process_s
from row import Row

ROOT = Path(__file__).parents[1]
PANEWRIGHT = str(Path(sys.executable).with_name("panewright"))
ORDER = str(ROOT / "examples" / "jetty.toml")
BARE = [sys.executable, "-c", "pass"]
LIBRARIES = [sys.executable, "-c", "import numpy, scipy.optimize"]


def rows() -> list[Row]:
    """Help, design and pack; the yardsticks are timed in the same run."""
    _compile()
    bare, libraries = best_process_s(BARE), best_process_s(LIBRARIES)
    with tempfile.TemporaryDirectory() as folder:
        pack = [PANEWRIGHT, "pack", ORDER, "--to", folder]
        return [
            Row("panewright --help", best_process_s([PANEWRIGHT, "--help"]), "python -c pass", bare, 0.15),
            Row(
                "panewright design examples/jetty.toml",
                best_process_s([PANEWRIGHT, "design", ORDER]),
                "import numpy, scipy.optimize",
                libraries,
                1.5,
            ),
            Row(
                "panewright pack examples/jetty.toml",
                best_process_s(pack),
                "import numpy, scipy.optimize",
                libraries,
                4.0,
            ),
        ]


def _compile() -> None:
    """The sources as `make` leaves them; a Python told to keep no bytecode would do it in every run."""
    compileall.compile_dir(ROOT / "src", quiet=2)
