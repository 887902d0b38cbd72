"""Time on one core: the best of a few runs, because everything else on a machine only adds."""

from __future__ import annotations

import contextlib
import os
import subprocess
import time
from collections.abc import Callable, Sequence

RUNS = 5

for _name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[_name] = "1"  # before numpy is loaded, and for every process started from here


def one_core() -> None:
    """Keep this process, and all it starts, on one of the cores it may use."""
    with contextlib.suppress(AttributeError, OSError):  # not every system can
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})


def best_s(work: Callable[[], object], runs: int = RUNS) -> float:
    """Least time of a few runs after one that warms up. [s]"""
    work()
    return min(_took(work) for _ in range(runs))


def once_s(work: Callable[[], object]) -> float:
    """Time of one run, for work of many seconds. [s]"""
    return _took(work)


def best_each_s(work: Callable[[], object], least_s: float = 0.1, runs: int = RUNS) -> float:
    """The same for work of microseconds: repeated in a loop, then divided. [s]"""
    once = max(best_s(work, 2), 1e-7)
    times = max(1, int(least_s / once))
    return min(_took(lambda: [work() for _ in range(times)]) for _ in range(runs)) / times


def best_process_s(command: Sequence[str], runs: int = RUNS, good: Sequence[int] = (0, 1)) -> float:
    """Least time of a whole process, from start to exit. [s]"""

    def run() -> None:
        ended = subprocess.run(command, capture_output=True, check=False)
        if ended.returncode not in good:
            raise RuntimeError(f"{' '.join(command)} ended with {ended.returncode}: {ended.stderr[-400:]!r}")

    return best_s(run, runs)


def _took(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
