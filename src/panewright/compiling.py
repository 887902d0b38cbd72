"""Where machine code is kept that was made of functions as they are written: a cache of this user.

Its name is made of the functions' own text, so that a changed function is never answered by an old one. What
is not kept yet is compiled by one process at a time: the others wait and load what it made, in place of doing
the same work beside it. Whoever waits goes on as soon as that process ends, however it ends.
"""

from __future__ import annotations

import fcntl
import hashlib
import os
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from types import FunctionType, ModuleType
from typing import Any

Call = Callable[..., Any]


def code_folder(files: Iterable[str]) -> Path:
    """Where the compiled code of exactly these files is kept; where nothing can be, for this run only."""
    text = b"".join(Path(file).read_bytes() for file in files)
    name = f"{hashlib.sha256(text).hexdigest()[:16]}-{sys.version_info[0]}{sys.version_info[1]}"
    folder = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "panewright" / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return Path(tempfile.mkdtemp(prefix="panewright-"))
    return folder if os.access(folder, os.W_OK) else Path(tempfile.mkdtemp(prefix="panewright-"))


def in_turn(call: Call, folder: Path, file: str) -> Call:
    """A compiled function of a file; its first call here waits while another process compiles it."""
    known = folder / f"{call.__name__}-{_stand(file)}.known"
    begun = False

    def called(*given: object) -> object:
        nonlocal begun
        if begun or known.exists():
            begun = True
            return call(*given)
        with turn(folder):
            answer = call(*given)
            known.touch()
        begun = True
        return answer

    return called


@contextmanager
def turn(folder: Path) -> Iterator[None]:
    """No other process compiles into this folder meanwhile."""
    with (folder / "turn").open("w") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        yield


def _stand(file: str) -> str:
    """Where a file lies and when it was written: compiled code is kept apart by both."""
    there = Path(file).resolve()
    return hashlib.sha256(f"{there} {there.stat().st_mtime_ns}".encode()).hexdigest()[:16]


_made: dict[tuple[str, str], Call] = {}
"""What this process has compiled already, by module and name: another room that calls it takes it so."""


_one_at_a_time = Lock()  # two threads that ask at once would each find half of it


def machine_code(modules: Sequence[ModuleType]) -> dict[str, Call]:
    """The functions of modules by name, compiled; the called modules stand before those that call them.

    The first call of each compiles where nothing is kept; divisions by zero are numpy's. No function may make
    an array: so nobody counts who holds one, which takes up to six times as long as the work itself.
    """
    with _one_at_a_time:
        return _machine_code(modules)


def _machine_code(modules: Sequence[ModuleType]) -> dict[str, Call]:
    import numba

    options: dict[str, Any] = {"cache": True, "error_model": "numpy", "nogil": True, "_nrt": False}
    for count, module in enumerate(modules, 1):
        folder = code_folder(str(each.__file__) for each in modules[:count])
        setattr(numba.config, "CACHE_DIR", str(folder))  # noqa: B010 - it has no such name until it is set
        own = {name: each for name, each in vars(module).items() if isinstance(each, FunctionType)}
        names = {
            **vars(module),
            **{name: _made.get((f.__module__, f.__name__), f) for name, f in own.items()},
        }
        for name, each in own.items():
            if each.__module__ == module.__name__ and (module.__name__, name) not in _made:
                twin = FunctionType(each.__code__, names, name, each.__defaults__)
                twin.__module__, twin.__qualname__ = module.__name__, name
                names[name] = _made[module.__name__, name] = numba.njit(**options)(twin)
    folder = code_folder(str(each.__file__) for each in modules)
    return {
        name: in_turn(call, folder, str(sys.modules[module].__file__))
        for (module, name), call in _made.items()
        if module in {each.__name__ for each in modules}
    }
