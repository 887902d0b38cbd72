"""Laws of an account: it adds up, and nothing joined gives more than its cells by themselves."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points as cell_key_points
from panewright.circuit.account import Account, Term, account, own_sum_w
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 1.1 * 0.0256925704, 0.003, 20.0, breakdown_siemens=0.005, breakdown_v=-18.0)
SCHOTTKY = Bypass("Schottky", 5e-6, 1.05 * 0.0256925704, 0.01, rated_a=15.0, reverse_v=45.0)

lights = st.lists(st.floats(0, 1), min_size=4, max_size=4)
joints = st.floats(0, 0.05)


def _panel(shares, ohm=0.0, bypass=None, lead=0.0):
    """Two substrings of two cells in series."""
    cells = tuple(replace(CELL, light_a=share * CELL.light_a) for share in shares)
    parts = tuple(Substring(cells[k : k + 2], (ohm,) * 2, bypass) for k in (0, 2))
    return Network((String(parts),), lead_ohm=lead)


def _stages(shares, ohm, lead):
    return (
        ("together", _panel((1.0,) * 4)),
        ("shade", _panel(shares)),
        ("diodes", _panel(shares, bypass=SCHOTTKY)),
        ("joints", _panel(shares, ohm, SCHOTTKY)),
        ("leads", _panel(shares, ohm, SCHOTTKY, lead)),
    )


@settings(max_examples=30, deadline=None)
@given(lights, joints, joints)
def test_the_terms_add_up_and_each_is_the_difference_of_two_circuits(shares, ohm, lead):
    stages = _stages(shares, ohm, lead)
    found = account(stages)
    assert found.start_w + sum(term.watts for term in found.terms) == pytest.approx(found.end_w, abs=1e-9)
    assert found.gains_w + found.losses_w == pytest.approx(found.end_w - found.start_w, abs=1e-9)
    powers = [key_points(network).power_w for _, network in stages]
    assert [term.watts for term in found.terms[1:]] == [b - a for a, b in pairwise(powers)]
    assert [term.words for term in found.terms] == [words for words, _ in stages]


@settings(max_examples=30, deadline=None)
@given(lights, joints)
def test_cells_together_never_give_more_than_each_by_itself(shares, ohm):
    for bypass in (None, SCHOTTKY):
        network = _panel(shares, ohm, bypass)
        assert key_points(network).power_w <= own_sum_w(network) + 1e-9


@settings(max_examples=30, deadline=None)
@given(lights, joints, joints)
def test_resistance_never_gains(shares, ohm, lead):
    found = account(_stages(shares, ohm, lead))
    assert all(term.watts <= 1e-9 for term in found.terms if term.words in ("shade", "joints", "leads"))


def test_equal_cells_lose_nothing_by_standing_together():
    found = account((("together", _panel((1.0,) * 4)),))
    assert found.start_w == pytest.approx(4 * cell_key_points(CELL).power_w)
    assert found.terms[0].watts == pytest.approx(0, abs=1e-9)


def test_diodes_gain_where_a_cell_lies_in_the_shade():
    found = account(_stages((1.0, 1.0, 0.1, 1.0), 0.0, 0.0))
    gain = {term.words: term.watts for term in found.terms}["diodes"]
    assert gain > 0.5
    assert found.gains_w == pytest.approx(gain)


def test_an_account_in_the_dark_is_nothing_and_one_of_no_stages_a_mistake():
    dark = account((("together", _panel((0.0,) * 4)),))
    assert dark == Account(0.0, (Term("together", 0.0),), 0.0)
    assert dark.share(dark.terms[0]) == 0
    with pytest.raises(ValueError, match="a stage or more"):
        account(())


def test_a_broken_string_takes_all_that_was_there():
    whole = _panel((1.0,) * 4)
    broken = Network((replace(whole.strings[0], tail_ohm=float("inf")),))
    found = account((("together", whole), ("string broken", broken)))
    assert found.end_w == pytest.approx(0.0, abs=1e-9)  # a picoampere through the break
    assert found.terms[1].watts == pytest.approx(-key_points(whole).power_w)
