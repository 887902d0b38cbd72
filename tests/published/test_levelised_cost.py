"""Simple levelised cost of energy, as a national laboratory writes it (form seen; figures derived from it).

Degradation: Jordan and Kurtz 2013, median 0.5 % a year (seen); what remains of it: derived.
"""

from decimal import Decimal

import pytest

from panewright.array.worth import Life, Outlay, capital_recovery, energy_worth, per_kwh, simple_per_kwh

OUTLAY, KWH, LIFE = Outlay(Decimal(2000), Decimal(20)), 1500.0, Life(25, 0.05)


@pytest.mark.parametrize(
    ("rate", "years", "crf"), [(0.05, 25, 0.0709524573), (0.07, 20, 0.0943929257), (0.0, 25, 0.04)]
)
def test_capital_is_recovered_by_the_formula(rate, years, crf):
    assert capital_recovery(rate, years) == pytest.approx(crf, abs=5e-11)


def test_the_simple_form_gives_its_example():
    assert round(simple_per_kwh(OUTLAY, KWH, LIFE), 8) == Decimal("0.10793661")


def test_the_whole_form_gives_its_example_with_half_a_percent_a_year():
    assert per_kwh(OUTLAY, KWH, LIFE) == Decimal("0.113145898")


def test_without_degradation_both_forms_are_one():
    assert per_kwh(OUTLAY, KWH, Life(25, 0.05, 0.0)) == simple_per_kwh(OUTLAY, KWH, Life(25, 0.05, 0.0))


def test_a_panel_that_loses_half_a_percent_gives_94_percent_in_the_mean_of_25_years():
    assert energy_worth(Life(25, 0.0)) / 25 == pytest.approx(0.94223806, abs=5e-9)
