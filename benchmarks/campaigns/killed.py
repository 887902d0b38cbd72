"""Records whose writer is killed at a random moment: what was confirmed is there, and all of it is sound."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

from campaigns.found import Found
from campaigns.writer import looked_over

WRITER = Path(__file__).with_name("writer.py")
_ROUNDS = 20  #: kills of one shop; then another is begun, so that the first steps are hit as well


def campaign(count: int, seed: int) -> Found:
    """So many kills, each followed by a look at every row and file."""
    chance = Random(seed)
    failures: list[str] = []
    confirmed: list[str] = []
    in_all = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(count):
            shop = Path(folder) / "shop"
            if number % _ROUNDS == 0:
                shutil.rmtree(shop, ignore_errors=True)
                shop.mkdir()
                confirmed = []
            fresh = killed([str(shop), str(seed * 100_000 + number)], moment(chance))
            confirmed += fresh
            in_all += len(fresh)
            failures += [f"kill {number} of seed {seed}: {each}" for each in looked_over(shop, confirmed)]
    counts = {"writes confirmed": in_all}
    return Found("records, writer killed", "what was confirmed", count, counts, (), tuple(failures[:20]))


def moment(chance: Random) -> tuple[int, float]:
    """After how many confirmed writes the kill comes, and how long after; one in five while a shop opens."""
    writes = chance.choice((0, chance.randint(1, 6), chance.randint(1, 12), *[chance.randint(1, 30)] * 2))
    return writes, chance.uniform(0.0, 0.02 if writes else 0.4)


def killed(words: list[str], when: tuple[int, float], **how: object) -> list[str]:
    """Start a writer and kill it; what it confirmed."""
    command = [sys.executable, str(WRITER), *words]
    with subprocess.Popen(
        command, bufsize=0, stdout=subprocess.PIPE, stderr=subprocess.PIPE, **how
    ) as writer:  # type: ignore[call-overload]
        said = [writer.stdout.readline() for _ in range(1 + when[0])]
        time.sleep(when[1])
        alive = writer.poll() is None
        writer.send_signal(signal.SIGKILL)
        out, err = writer.communicate()
    if not said[0] or not alive:
        raise RuntimeError(f"the writer died by itself: {err[-600:].decode()}")
    return [
        line.decode().rstrip() for line in (*said[1:], *out.splitlines(keepends=True)) if line.endswith(b"\n")
    ]
