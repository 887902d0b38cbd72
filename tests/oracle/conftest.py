"""The way from a network to a netlist lives beside the benchmarks; the tests here import it from there."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[2] / "benchmarks"))
