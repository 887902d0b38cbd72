"""Binomial tails that have been in print for long.

[W] S. S. Wilks, Determination of sample sizes for setting tolerance limits, Annals of Mathematical Statistics
    12, 1941, p. 91; its sample sizes for 95 % of the values with 95 % confidence, as quoted everywhere since:
    59, 93, 124 for the first, second and third value from the end (recalled).
[P] The problem Samuel Pepys put to Isaac Newton in 1693: at least one six of 6 dice, two of 12, three of 18:
    0.6651, 0.6187, 0.5973 (recalled; S. M. Stigler, Statistical Science 21, 2006, p. 400).
[T] A table of the binomial law, p = 0.1: at most one of 10, 0.7361; at most two of 20, 0.6769 (recalled).
"""

import pytest

from panewright.lots.buying.needed import chance_enough, needed
from panewright.lots.buying.rate import Rate


@pytest.mark.parametrize(("good", "bought"), [(1, 59), (2, 93), (3, 124)])
def test_wilks_sample_sizes(good, bought):
    assert needed(good, [Rate.known("all but one in twenty", 0.95)], 0.95).cells == bought


@pytest.mark.parametrize(("dice", "sixes", "chance"), [(6, 1, 0.6651), (12, 2, 0.6187), (18, 3, 0.5973)])
def test_pepys_dice(dice, sixes, chance):
    assert chance_enough(dice, sixes, [Rate.known("no six", 5 / 6)]) == pytest.approx(chance, abs=5e-5)


@pytest.mark.parametrize(("bought", "good", "chance"), [(10, 9, 0.7361), (20, 18, 0.6769)])
def test_a_table_of_the_binomial_law(bought, good, chance):
    assert chance_enough(bought, good, [Rate.known("bench", 0.1)]) == pytest.approx(chance, abs=5e-5)
