"""Records on a disk that keeps only what was synced, the plug pulled at a random moment.

The writer runs with a small library before the C library (`unsynced.c`) that writes down, in order, every
write, sync, rename and removal. From that the disk is made up anew as a pulled plug may leave it: of each
file what was synced, and of what was not, nothing or any part in any mixture; of each folder the names that
were synced, and of later ones nothing or any first part. Then what had been confirmed must be there.

That the campaign sees losses is proven with the same writer told not to sync.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from campaigns.found import Found
from campaigns.killed import killed, moment
from campaigns.writer import looked_over

SOURCE = Path(__file__).with_name("unsynced.c")
_ROUNDS = 5  #: plugs of one shop
_SHARES = (0.0, 0.0, 0.5, 0.9)  #: of what was not synced that the disk kept all the same
_SECTOR = 512  #: bytes that a disk writes whole


@dataclass(slots=True)
class Disk:
    """What a pulled plug leaves for certain, and what it may leave."""

    sure: dict[int, bytearray] = field(default_factory=lambda: defaultdict(bytearray))
    unsure: dict[int, list[tuple[int, bytes | None]]] = field(default_factory=lambda: defaultdict(list))
    names: dict[str, int | None] = field(default_factory=dict)  #: a folder's number is None
    naming: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)  #: folder, what was done in it

    def do(self, what: str, words: list[str], data: bytes) -> None:
        """One line of the log."""
        if what == "C":
            number = int(words[0])
            self.sure.pop(number, None)  # a number that was free again
            self.unsure.pop(number, None)
            self._name(words[1], "C", words[1], words[0])
        elif what == "W":
            self.unsure[int(words[0])].append((int(words[1]), data))
        elif what == "T":
            self.unsure[int(words[0])].append((int(words[1]), None))
        elif what == "S":
            for change in self.unsure.pop(int(words[0]), []):
                _change(self.sure[int(words[0])], *change)
        elif what == "D":
            mine = [each for each in self.naming if each[0] == words[0]]
            self.naming = [each for each in self.naming if each[0] != words[0]]
            for _, done in mine:
                self.rename(done)
        else:
            self._name(words[-1], what, *words)

    def _name(self, path: str, *done: str) -> None:
        self.naming.append((str(Path(path).parent), done))

    def rename(self, done: tuple[str, ...]) -> None:
        """One change of names that reached the disk."""
        what, *words = done
        if what == "C":
            self.names[words[0]] = int(words[1])
        elif what == "M":
            self.names[words[0]] = None
        elif what == "U":
            self.names.pop(words[0], None)
        elif words[0] in self.names:
            self.names[words[1]] = self.names.pop(words[0])

    def cut(self, chance: Random, share: float) -> None:
        """Pull the plug: of what was not synced a share stays, sector by sector, whichever came first."""
        for number, changes in self.unsure.items():
            for change in changes:
                for part in _sectors(*change):
                    if chance.random() < share:
                        _change(self.sure[number], *part)
        kept = chance.randint(0, len(self.naming)) if share else 0
        for _, done in self.naming[:kept]:
            self.rename(done)

    def written(self, root: Path, to: Path) -> None:
        """What is found afterwards; a name in a folder that has none of its own is lost with it."""
        for path, number in sorted(self.names.items()):
            place = to / Path(path).relative_to(root)
            if place.name.endswith("-shm") or not place.parent.is_dir():
                continue  # shared memory is no file to keep
            if number is None:
                place.mkdir(exist_ok=True)
            else:
                place.write_bytes(self.sure.get(number, b""))


def _change(file: bytearray, place: int, data: bytes | None) -> None:
    if data is None:
        del file[place:]
        file.extend(bytes(place - len(file)))
    else:
        file.extend(bytes(max(0, place - len(file))))
        file[place : place + len(data)] = data


def _sectors(place: int, data: bytes | None) -> Iterator[tuple[int, bytes | None]]:
    if data is None:
        yield place, None
        return
    begin = 0
    while begin < len(data):
        end = begin + _SECTOR - (place + begin) % _SECTOR
        yield place + begin, data[begin:end]
        begin = end


def log_lines(log: bytes) -> Iterator[tuple[str, list[str], bytes]]:
    """What was done, in order; a last line that the kill cut short is left out."""
    at = 0
    while (end := log.find(b"\n", at)) >= 0:
        what, *words = log[at:end].decode().split(" ")
        size = int(words[2]) if what == "W" else 0
        if end + 1 + size > len(log):
            return
        yield what, words, log[end + 1 : end + 1 + size]
        at = end + 1 + size


def campaign(count: int, seed: int) -> Found:
    """So many pulled plugs; then a few with a writer that does not sync, which must lose something."""
    if shutil.which("cc") is None:
        raise RuntimeError("a C compiler is needed: cc")
    failures, confirmed = plugs(count, seed)
    notes = []
    for word, what in (("hasty", "the database"), ("unsynced", "folders")):
        controls = max(6, count // 20)
        lost = plugs(controls, seed + 1, word)[0]
        notes.append(f"Control: with the syncing of {what} off, {controls} plugs lost {len(lost)} things")
        failures += [] if lost else [f"{notes[-1]}: the campaign cannot see losses"]
    counts = {"writes confirmed": confirmed}
    what = "records, plug pulled"
    return Found(
        what, "a disk that keeps what was synced", count, counts, (), tuple(failures[:20]), tuple(notes)
    )


def plugs(count: int, seed: int, *words: str) -> tuple[list[str], int]:
    """Pull the plug so often, on a new shop or on what the last plug left; what was lost, of how many."""
    chance, failures, in_all = Random(seed), list[str](), 0
    with tempfile.TemporaryDirectory() as folder:
        library = built(Path(folder))
        root = Path(folder) / "disk"
        shop = root / "bench" / "shop"  # two folders that are not there yet: their names can be lost too
        confirmed: list[str] = []
        for number in range(count):
            if number % _ROUNDS == 0 or words:
                shutil.rmtree(root, ignore_errors=True)
                root.mkdir()
                confirmed = []
            fresh = pulled(root, library, [str(shop), str(seed * 100_000 + number), *words], chance)
            confirmed += fresh
            in_all += len(fresh)
            failures += [f"plug {number} of seed {seed}: {each}" for each in looked_over(shop, confirmed)]
    return failures, in_all


def built(folder: Path) -> Path:
    """The library, compiled."""
    library = folder / "unsynced.so"
    command = ["cc", "-shared", "-fPIC", "-O1", "-o", str(library), str(SOURCE), "-ldl", "-lpthread"]
    subprocess.run(command, check=True, capture_output=True)
    return library


def pulled(root: Path, library: Path, words: list[str], chance: Random) -> list[str]:
    """Let a writer write, pull the plug, and leave what the disk kept; what was confirmed."""
    log = root.parent / "log"
    log.unlink(missing_ok=True)
    disk = Disk()
    for path in sorted(root.rglob("*")):
        disk.names[str(path)] = None if path.is_dir() else path.stat().st_ino
        if path.is_file():
            disk.sure[path.stat().st_ino] = bytearray(path.read_bytes())
    around = {"LD_PRELOAD": str(library), "UNSYNCED_ROOT": str(root), "UNSYNCED_LOG": str(log)}
    confirmed = killed(words, moment(chance), env={**os.environ, **around})
    for what, said, data in log_lines(log.read_bytes() if log.exists() else b""):
        disk.do(what, said, data)
    disk.cut(chance, chance.choice(_SHARES))
    left = root.with_name("left")
    shutil.rmtree(left, ignore_errors=True)
    left.mkdir()
    disk.written(root, left)
    shutil.rmtree(root)
    left.rename(root)
    return confirmed
