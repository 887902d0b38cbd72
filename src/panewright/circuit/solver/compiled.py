"""The same functions compiled to machine code, for where thousands of panels are asked.

Loading the compiler takes half a second and the first compilation on a machine some more, so a single design
never does: there the functions run as they are written. What was compiled is kept in a cache of this user,
under a name made of the functions' own text, so that a changed function is never answered by an old one.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from types import FunctionType, ModuleType
from typing import TypeGuard

from panewright.circuit.solver import bound, bus, crest, junction, many, string, substring, walk

_MODULES: tuple[ModuleType, ...] = (junction, substring, string, bus, walk, bound, crest, many)
"""In the order in which they call each other, the called before the callers."""


@cache
def compiled(function: Callable[..., object]) -> Callable[..., object]:
    """A function of the solver, compiled with all that it calls."""
    return _all()[function.__module__, function.__name__]


@cache
def _all() -> dict[tuple[str, str], Callable[..., object]]:
    """Every function of the solver compiled on first use; the interpreted ones stay as they are."""
    import numba

    setattr(numba.config, "CACHE_DIR", str(_cache_folder()))  # noqa: B010 - it has no such name until it is set
    made: dict[tuple[str, str], Callable[..., object]] = {}
    for module in _MODULES:
        known = {name: twin for (_, name), twin in made.items() if name in vars(module)}
        names = {**vars(module), **known}
        for each in [each for each in vars(module).values() if _of(each, module)]:
            twin = FunctionType(each.__code__, names, each.__name__, each.__defaults__)
            twin.__module__, twin.__qualname__ = each.__module__, each.__qualname__
            # numpy's way with a division by zero: infinity, and no test before each
            made[module.__name__, each.__name__] = numba.njit(cache=True, error_model="numpy")(twin)
            names[each.__name__] = made[module.__name__, each.__name__]
    return made


def _of(each: object, module: ModuleType) -> TypeGuard[FunctionType]:
    return isinstance(each, FunctionType) and each.__module__ == module.__name__


def _cache_folder() -> Path:
    """Where the compiled code of exactly these functions is kept; where nothing can be, for this run only."""
    text = b"".join(Path(str(module.__file__)).read_bytes() for module in _MODULES)
    name = f"{hashlib.sha256(text).hexdigest()[:16]}-{sys.version_info[0]}{sys.version_info[1]}"
    folder = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "panewright" / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return Path(tempfile.mkdtemp(prefix="panewright-"))
    return folder if os.access(folder, os.W_OK) else Path(tempfile.mkdtemp(prefix="panewright-"))
