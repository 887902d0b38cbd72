"""Bin packing instances of E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of
Heuristics 2 (1996) 5, from the OR-Library: 120 sizes from 20 to 100 into bins of 150.

Seen (a public copy of the library's file binpack1): the sizes, and the least numbers of bins 48, 50 and 49.
The triplets are made as the article makes them: bins of 1000 each cut at random into three, the longest from
380 to 490, so that the optimum is known by the making (recalled).
"""

from __future__ import annotations

from random import Random

import pytest

from panewright.cutting.bars.bars import cut_bars
from panewright.cutting.piece import Piece

U120_00 = (
    42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73, 49, 70,
    59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38, 82, 30, 35, 39,
    57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84, 37, 93, 91, 43, 73, 85,
    81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84, 60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96,
    70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39,
)  # fmt: skip
U120_08 = (
    100, 22, 25, 51, 95, 58, 97, 30, 79, 23, 53, 80, 20, 65, 64, 21, 26, 100, 81, 98, 70, 85, 92, 97, 86, 71,
    91, 29, 63, 34, 67, 23, 33, 89, 94, 47, 100, 37, 40, 58, 73, 39, 49, 79, 54, 57, 98, 69, 67, 49, 38, 34,
    96, 27, 92, 82, 69, 45, 69, 20, 75, 97, 51, 70, 29, 91, 98, 77, 48, 45, 43, 61, 36, 82, 89, 94, 26, 35,
    58, 58, 57, 46, 44, 91, 49, 52, 65, 42, 33, 60, 37, 57, 91, 52, 95, 84, 72, 75, 89, 81, 67, 74, 87, 60,
    32, 76, 85, 59, 62, 39, 64, 52, 88, 45, 29, 88, 85, 54, 40, 57,
)  # fmt: skip
U120_19 = (
    49, 95, 38, 62, 63, 97, 42, 62, 100, 43, 44, 77, 97, 94, 68, 23, 50, 36, 89, 58, 97, 27, 64, 65, 54, 58,
    24, 35, 33, 63, 32, 50, 58, 90, 44, 50, 48, 21, 72, 75, 21, 74, 28, 95, 77, 69, 96, 24, 57, 85, 72, 96,
    50, 83, 65, 62, 99, 93, 23, 77, 94, 31, 50, 33, 79, 73, 23, 55, 44, 78, 84, 66, 31, 59, 97, 95, 22, 76,
    90, 66, 29, 100, 90, 92, 50, 49, 47, 43, 37, 40, 60, 52, 54, 99, 34, 46, 88, 97, 85, 39, 32, 51, 95, 54,
    99, 86, 48, 90, 28, 25, 86, 39, 74, 26, 38, 60, 41, 67, 80, 33,
)  # fmt: skip


@pytest.mark.parametrize(("sizes", "bins"), [(U120_00, 48), (U120_08, 50), (U120_19, 49)])
def test_uniform_sizes(sizes, bins):
    assert len(sizes) == 120
    plan = cut_bars([Piece(str(size), float(size), 1) for size in sizes], 150.0, 0.0, 0.0)
    assert (len(plan.bars), plan.proven) == (bins, True)


def triplets(bins: int, seed: int) -> list[int]:
    chance, sizes = Random(seed), []
    for _ in range(bins):
        longest = chance.randint(380, 490)
        middle = chance.randint(250, (1000 - longest) // 2)
        sizes += [longest, middle, 1000 - longest - middle]
    return sizes


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_triplets(seed):
    plan = cut_bars([Piece(str(size), float(size), 1) for size in triplets(20, seed)], 1000.0, 0.0, 0.0)
    assert (len(plan.bars), plan.proven) == (20, True)
