"""How many cells to buy so that enough good ones are left.

Each cell breaks at the bench with the same chance and independently of the others. The number that
break before the wanted number of good ones is reached follows the negative binomial law

    P(k broken) = C(n + k - 1, k) (1 - p)^n p^k

and the number bought is the smallest that is enough in the wanted share of all orders.
"""

from __future__ import annotations

from math import exp, lgamma, log

BREAKAGE = 0.03  #: share of cells that break; common practice at a hand bench, no source
SURE = 0.95  #: share of orders in which the spare cells must be enough


def cells_to_buy(needed: int, breakage: float = BREAKAGE, sure: float = SURE) -> int:
    """Cells to buy so that `needed` good ones are left with a chance of `sure`.

    >>> cells_to_buy(36)
    39
    >>> cells_to_buy(36, breakage=0.0)
    36
    """
    if needed <= 0 or breakage <= 0:
        return max(needed, 0)
    enough, spare = 0.0, 0
    while True:
        enough += _chance(needed, spare, breakage)
        if enough >= sure:
            return needed + spare
        spare += 1


def _chance(needed: int, broken: int, breakage: float) -> float:
    """Chance that exactly so many break before `needed` good ones are there."""
    ways = lgamma(needed + broken) - lgamma(needed) - lgamma(broken + 1)
    return exp(ways + needed * log(1 - breakage) + broken * log(breakage))
