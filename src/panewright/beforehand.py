"""Figures reckoned beforehand: how they are written to the files beside the code, and read again.

Two ways. Whole steps, for figures of several kinds that are as exact as what they were reckoned from: each is
counted in ten-thousand-millionths of the largest of its kind. And floats as they are, for what is known
nearly. A file belongs to the program; one that is missing or cut off is a fault of its installation and is
told so.
"""

from __future__ import annotations

import zipfile
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_STEP = 1e-10  # of the largest figure of a kind


def write_steps(file: Path, figures: Array, sizes: Array) -> None:
    """Keep figures in whole steps of their kind's size: the sign last, the lowest digits first.

    `sizes` are the largest of each kind, along the figures' last axis.
    """
    steps = np.round(figures / (sizes * _STEP)).astype(np.int64).ravel()
    steps = np.where(steps < 0, -2 * steps - 1, 2 * steps)
    digits: list[NDArray[np.uint8]] = []
    while not digits or steps.any():
        digits.append((steps % 256).astype(np.uint8))
        steps = steps // 256
    np.savez_compressed(file, digits=np.array(digits), sizes=sizes, shape=np.array(figures.shape))


def read_steps(file: Path) -> Array:
    """What `write_steps` kept."""
    try:
        with file.open("rb") as opened, np.load(opened) as kept:
            digits, sizes, shape = kept["digits"], kept["sizes"], kept["shape"]
    except (OSError, EOFError, KeyError, ValueError, zipfile.BadZipFile) as mistake:
        raise _spoilt(file, mistake) from mistake
    steps = np.zeros(digits.shape[1], np.int64)
    for digit in digits[::-1]:
        steps = steps * 256 + digit
    steps = np.where(steps % 2, -(steps // 2) - 1, steps // 2)
    return np.asarray(steps.reshape(shape) * (sizes * _STEP))


def write_nearly(file: Path, figures: Array) -> None:
    """Keep figures that are known nearly, to seven digits."""
    np.save(file, figures.astype(np.float32))


def read_nearly(file: Path) -> Array:
    """What `write_nearly` kept."""
    try:
        with file.open("rb") as opened:
            return np.asarray(np.load(opened), np.float64)
    except (OSError, EOFError, ValueError) as mistake:
        raise _spoilt(file, mistake) from mistake


def _spoilt(file: Path, mistake: Exception) -> RuntimeError:
    return RuntimeError(f"{file} belongs to the program and cannot be read ({mistake}); install it again")
