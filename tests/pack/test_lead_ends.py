"""Bare leads: no page speaks of plugs; with plugs the pages, the step and the parts list do."""

import examples
from panewright.pack.bench import Bench
from panewright.pack.steps.close import close_back


def told(name):
    """Every word of every page, and of every list; not the design for programs, which names its fields."""
    return repr([leaf for leaf in examples.packed(name).leaves if leaf.name != "design.json"]).lower()


def test_a_panel_with_bare_leads_has_no_word_of_plugs_in_its_pack():
    words = told("frost-sensor")
    assert "plug" not in words
    assert "socket" not in words
    assert "the leads end bare" in words
    assert "crimp a ferrule on the end of each lead" in words
    assert "a die for ferrules" in words


def test_a_panel_with_plugs_has_them_on_its_pages_and_in_its_step():
    made = examples.made("kiosk")
    assert "Crimp plug and socket" in close_back(Bench(made.design, made.quote)).do
    words = told("kiosk")
    assert "plugs and sockets of one make" in words
    assert "plug and socket for leads" in words
