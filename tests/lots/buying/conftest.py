"""The made-up lots live beside the benchmarks; the tests here import them from there."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[3] / "benchmarks"))
