"""A Dask cluster, by its address, that does the parts of a catalogue.

Its workers must have this very program and the same numerical library, one thread each: another version would
give other rows, more threads other last digits. That is asked before anything is begun.
"""

from __future__ import annotations

import importlib.metadata
import os
import platform
import time
from collections.abc import Iterator, Sequence
from typing import Any

from panewright.catalogue.part import Part
from panewright.catalogue.row import Asked
from panewright.catalogue.work import Crew, Done, Stopping, part_done
from panewright.errors import FolderError, Problem

_LOOKS_S = 0.05
_CONNECTS_S = 10.0
_ASKED = ("panewright", "numpy", "scipy")


def cluster(address: str) -> Crew:
    """The workers of the cluster at that address; `FolderError` where none answers or they are unlike us."""
    return lambda parts, asked, stopping: _by_cluster(parts, asked, stopping, address)


def _by_cluster(parts: Sequence[Part], asked: Asked, stopping: Stopping, address: str) -> Iterator[Done]:
    client = _client(address)
    try:
        _alike(client, address)
        handed = client.scatter(asked, broadcast=True, hash=False)
        going = client.map(part_done, parts, asked=handed, pure=False)
        yield from _as_done(going, stopping)
        client.cancel(going, force=True)
    finally:
        client.close(timeout=2.0)


def _as_done(going: list[Any], stopping: Stopping) -> Iterator[Done]:
    left = going
    while left and not stopping():
        done = [future for future in left if future.done()]
        for future in done:
            yield future.result()
        left = [future for future in left if future not in done]
        if not done:
            time.sleep(_LOOKS_S)


def _client(address: str) -> Any:
    try:
        from distributed import Client
    except ModuleNotFoundError as missing:
        reason, cure = "Dask is not installed here.", "Install dask and distributed, or leave --cluster out."
        raise _mistake(address, reason, cure) from missing
    connected: Any = Client  # it tells no types
    try:
        return connected(address, timeout=_CONNECTS_S, set_as_default=False)
    except (OSError, TimeoutError, ValueError) as gone:
        reason, cure = "No cluster answers there.", "Name its scheduler, such as tcp://127.0.0.1:8786."
        raise _mistake(address, reason, cure) from gone


def _alike(client: Any, address: str) -> None:
    """Every worker is as this process is."""
    workers = client.run(what_is_here)
    if not workers:
        raise _mistake(address, "The cluster has no worker.", "Start a worker at its scheduler.")
    ours = versions()
    for worker, (theirs, threads) in sorted(workers.items()):
        if theirs != ours:
            reason = f"The worker {worker} has {theirs}; here is {ours}."
            raise _mistake(address, reason, "Bring the same versions to all of them.")
        if threads != "1":
            reason = f"The worker {worker} may take several threads for one sum: that changes last digits."
            raise _mistake(address, reason, "Start workers with OPENBLAS_NUM_THREADS=1.")


def what_is_here() -> tuple[str, str]:
    """Versions in this process, and how many threads its numerical library may take."""
    return versions(), os.environ.get("OPENBLAS_NUM_THREADS", "")


def versions() -> str:
    """Of this program and what its digits hang on."""
    named = (f"{name} {importlib.metadata.version(name)}" for name in _ASKED)
    return ", ".join((*named, f"Python {platform.python_version()}"))


def _mistake(address: str, reason: str, cure: str) -> FolderError:
    return FolderError([Problem(reason, cure, key="--cluster", value=address)])
