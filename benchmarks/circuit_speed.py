"""Thousands of panels, a year of hours, and arrays that grow: how long the circuit takes.

Every panel has 36 cells that all differ, no result is used twice. The peer of a batch does the same with
general libraries (tables_peer.py); how far it lies from ours is said beside it.
"""

from __future__ import annotations

import warnings
from functools import partial

import numpy as np
import tables_peer
from clock import best_s
from numpy.typing import NDArray
from row import Row

import lots
from panewright.cell.diodes import Diodes
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.trials import Trials, currents_a, most_power

Array = NDArray[np.float64]
CELLS, PANELS, CURVES, PEER_PANELS, POINTS = 36, 4000, 1000, 20, 101
HOURS = 8760


def rows() -> list[Row]:
    """Batches, a year, and growth."""
    return [*batches(), *curves(), year(), *growth()]


def batches() -> list[Row]:
    """Greatest powers, a panel at a time."""
    even = lots.lot((PANELS, CELLS), 1)
    kinds = (
        ("even light, no bypass diode", even, 1, 1500, 1 / 50_000),
        ("even light, two bypass diodes", even, 2, 1500, 1 / 50_000),
        ("shaded, two bypass diodes", lots.shaded(even, 2), 2, 6000, 1 / 8_000),
    )
    return [_batch(*kind) for kind in kinds]


def _batch(name: str, cells: Diodes, substrings: int, points: int, most_s: float) -> Row:
    network = _network(cells, substrings, substrings > 1)
    ours_s = best_s(partial(most_power, Trials(network, cells))) / PANELS
    few = Diodes(*(getattr(cells, field)[:PEER_PANELS] for field in Diodes.__slots__))
    peer = partial(tables_peer.most_power_w, few, substrings, lots.SCHOTTKY, points)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of the peer's own imports
        theirs = peer()
        peer_s = best_s(peer, 3) / PEER_PANELS
    apart = np.median(np.abs(theirs / most_power(Trials(network, few)).power_w - 1))
    words = f"pvlib's law in tables, numpy; {apart:.0e} from ours"
    return Row(f"greatest power of one in {PANELS}, {name}", ours_s, words, peer_s, most_s)


def _network(cells: Diodes, substrings: int, guarded: bool = True) -> Network:
    return lots.network(lots.diodes(cells, 0), substrings, lots.SCHOTTKY if guarded else None)


def curves() -> list[Row]:
    """Curves of 101 points even in voltage, from short circuit to just above open circuit."""
    even, soft = lots.lot((CURVES, CELLS), 1), lots.lot((CURVES, CELLS), 1, soft=True)
    kinds = (
        ("even light, two bypass diodes", even, 2, True),
        ("shaded, two bypass diodes", lots.shaded(even, 2), 2, True),
        ("shaded, cells in reverse", lots.shaded(even, 2), 1, False),
        ("soft cells breaking down", lots.shaded(soft, 2), 1, False),
    )
    volt = np.linspace(0, 22.4, POINTS)
    return [
        Row(
            f"curve of {POINTS} points of one in {CURVES}, {name}",
            best_s(partial(currents_a, Trials(_network(cells, substrings, guarded), cells), volt), 3)
            / CURVES,
            most_s=1 / 2_000,
        )
        for name, cells, substrings, guarded in kinds
    ]


def sunny_cells(seed: int = 5) -> Diodes:
    """A year of hours: light by the sun's height, a pole's shadow that moves over the cells; nights dark."""
    hour = np.arange(HOURS)
    season = np.radians(23.45) * np.sin(2 * np.pi * (hour / 24 - 80) / 365)
    turned = np.radians(15.0) * (hour % 24 - 12)
    latitude = np.radians(50.0)
    height = np.sin(latitude) * np.sin(season) + np.cos(latitude) * np.cos(season) * np.cos(turned)
    chance = np.random.default_rng(seed)
    sun = np.maximum(height, 0.0) ** 1.2 * chance.uniform(0.2, 1.0, HOURS)
    column, row = np.arange(CELLS) // 9, np.arange(CELLS) % 9
    pole = 1.5 + 3.0 * np.tan(np.clip(turned, -1.2, 1.2)) + 4 * season
    depth = np.clip(1.0 - np.abs(column - pole[:, None] - 0.05 * row), 0.0, 1.0)
    one = lots.lot((1, CELLS), seed)
    light = one.light_a * sun[:, None] * (1 - 0.8 * depth)
    return Diodes(light, *(getattr(one, name) for name in Diodes.__slots__[1:]))


def year() -> Row:
    """All hours of a year at their greatest power."""
    cells = sunny_cells()
    network = _network(Diodes(*(np.atleast_2d(getattr(cells, n)[:1]) for n in Diodes.__slots__)), 2)
    lit = int(np.sum(cells.light_a.max(axis=1) > 0))
    seconds = best_s(partial(most_power, Trials(network, cells)), 3)
    return Row(f"a year of {HOURS} hours, {lit} of them lit, a shadow that moves", seconds, most_s=2.0)


def growth() -> list[Row]:
    """The greatest power of one network, a step larger each time; the power by which the time grows."""
    table: list[Row] = []
    for word, sizes in (
        ("cells in two substrings", ((36, 2, 1), (72, 2, 1), (144, 2, 1), (288, 2, 1))),
        ("substrings of 12 cells", ((48, 4, 1), (96, 8, 1), (192, 16, 1), (384, 32, 1))),
        ("strings of 10 panels, 36 cells each", ((720, 20, 2), (1440, 20, 4), (3600, 20, 10))),
    ):
        table += _grown(word, sizes)
    return table


def _grown(word: str, sizes: tuple[tuple[int, int, int], ...]) -> list[Row]:
    seconds = []
    for count, substrings, strings in sizes:
        cells = lots.shaded(lots.lot((1, count), 7), 8, count // 6)
        network = lots.network(lots.diodes(cells, 0), substrings, lots.SCHOTTKY, strings)
        seconds.append(best_s(partial(key_points, network), 1))
    counts = [size[0] for size in sizes]
    power = np.polyfit(np.log(counts), np.log(seconds), 1)[0]
    return [
        Row(f"greatest power, {count} cells, {_units(word, size)}", second, f"grows as cells^{power:.2f}")
        for count, size, second in zip(counts, sizes, seconds, strict=True)
    ]


def _units(word: str, size: tuple[int, int, int]) -> str:
    count, substrings, strings = size
    number = {"cells": count, "substrings": substrings, "strings": strings}[word.split()[0]]
    return f"{number} {word}"
