"""A PostgreSQL server of one's own, on a socket in a folder of its own, thrown away afterwards."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

#: for tests only: nothing of theirs has to outlast the machine
HASTY = ("fsync=off", "synchronous_commit=off", "full_page_writes=off")


def program(name: str) -> str:
    """A program of the server; Debian keeps them out of the path."""
    beside = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    return shutil.which(name) or str(beside[-1])


def installed() -> bool:
    """Whether there is such a server here."""
    return bool(shutil.which("initdb") or list(Path("/usr/lib/postgresql").glob("*/bin/initdb")))


def run(*words: str) -> None:
    """PostgreSQL refuses to run as root; then it runs as nobody."""
    ended = subprocess.run(words, capture_output=True, text=True, check=False, cwd="/", **_nobody())
    if ended.returncode:
        raise RuntimeError(ended.stdout + ended.stderr)


@contextmanager
def started(settings: Sequence[str] = ()) -> Iterator[str]:
    """The URL of a server, with `{name}` where the database's name goes."""
    folder = Path(tempfile.mkdtemp(prefix="panewright-"))
    if os.getuid() == 0:
        shutil.chown(folder, "nobody", "nogroup")
    data, told = str(folder / "data"), ("listen_addresses=", "max_connections=50", *settings)
    options = " ".join(["-k", str(folder), *(f"-c {each}" for each in told)])
    stop = [program("pg_ctl"), "-D", data, "-m", "immediate", "stop"]
    try:
        run(program("initdb"), "-D", data, "-U", "maker", "-A", "trust", "-N", "-E", "UTF8", "--locale=C")
        run(program("pg_ctl"), "-D", data, "-w", "-l", str(folder / "log"), "-o", options, "start")
        yield f"postgresql://maker@/{{name}}?host={folder}"
    finally:
        subprocess.run(stop, capture_output=True, check=False, cwd="/", **_nobody())
        shutil.rmtree(folder, ignore_errors=True)


def _nobody() -> dict:
    return {"user": "nobody", "group": "nogroup", "extra_groups": []} if os.getuid() == 0 else {}
