"""The same functions compiled to machine code, for where thousands of panels are asked.

Loading the compiler takes half a second and the first compilation on a machine a minute, so a single design
never does: there the functions run as they are written. What was compiled is kept, see `compiling`.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any, TypeGuard

from panewright.circuit.solver import (
    abreast,
    backward,
    bound,
    bus,
    crest,
    elementary,
    facts,
    forward,
    junction,
    lit,
    many,
    string,
    substring,
    walk,
)
from panewright.compiling import code_folder, in_turn

_MODULES: tuple[ModuleType, ...] = (
    elementary,
    forward,
    backward,
    junction,
    facts,
    abreast,
    substring,
    lit,
    string,
    bus,
    walk,
    bound,
    crest,
    many,
)
"""In the order in which they call each other, the called before the callers."""

_INSTEAD: dict[ModuleType, dict[str, ModuleType]] = {
    backward: {"exp": elementary, "log": elementary},
    forward: {"exp": elementary, "log": elementary},
    substring: {"cells_at": abreast},
}
"""Functions that have a twin of their own, made for cells abreast."""

_ABREAST = (elementary, forward, backward, abreast)  # where a product and a sum may become one instruction
_IN_LOOPS = (elementary, forward, backward)  # written out where they are called, so that loops hold no call
_IN_PLACE = (substring, string, facts)  # one call would hand over forty columns


@cache
def compiled(function: Callable[..., object]) -> Callable[..., object]:
    """A function of the solver, compiled with all that it calls."""
    called = _all()[function.__module__, function.__name__]
    return in_turn(called, _cache_folder(), function.__code__.co_filename)


@cache
def _all() -> dict[tuple[str, str], Callable[..., object]]:
    """Every function of the solver compiled on first use; the interpreted ones stay as they are."""
    import numba

    setattr(numba.config, "CACHE_DIR", str(_cache_folder()))  # noqa: B010 - it has no such name until it is set
    made: dict[tuple[str, str], Callable[..., object]] = {}
    for module in _MODULES:
        instead = {name: getattr(source, name) for name, source in _INSTEAD.get(module, {}).items()}
        called = {
            name: each for name, each in vars(module).items() if isinstance(each, FunctionType)
        } | instead
        twins = {name: made.get((each.__module__, each.__name__), each) for name, each in called.items()}
        names = {**vars(module), **twins}
        way = _way(module)
        for name, each in called.items():
            if _of(each, module) and name not in instead:
                twin = FunctionType(each.__code__, names, name, each.__defaults__)
                twin.__module__, twin.__qualname__ = module.__name__, name
                names[name] = made[module.__name__, name] = way(twin)
    return made


def _way(module: ModuleType) -> Callable[[FunctionType], Callable[..., object]]:
    """How the functions of a module are compiled.

    A division by zero is numpy's: infinity, and no test before each. No function makes an array, so nobody
    counts who holds one; that alone halves the time.
    """
    import numba

    options: dict[str, Any] = {
        "cache": True,
        "error_model": "numpy",
        "fastmath": {"contract"} if module in _ABREAST else False,
        "inline": "always" if module in _IN_LOOPS else "never",
        "forceinline": module in _IN_PLACE,
        "_nrt": False,
    }
    made: Callable[[FunctionType], Callable[..., object]] = numba.njit(**options)
    return made


def _of(each: object, module: ModuleType) -> TypeGuard[FunctionType]:
    return isinstance(each, FunctionType) and each.__module__ == module.__name__


def _cache_folder() -> Path:
    """Where the compiled code of exactly these functions is kept."""
    return code_folder((__file__, *(str(module.__file__) for module in _MODULES)))
