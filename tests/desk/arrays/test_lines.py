"""What the command says of an array: words and figures that a maker can read and that agree."""

import re

import pytest

from panewright.desk.arrays.lines import lines
from planned import SITE, plan

CUT = SITE[SITE.index("[controller]") :]
STRAIGHT = """[controller]
kind = "direct"
most = "100 V"
[pump]
volts = "24 V"
current = "8 A"
rpm = 2800
winding = "250 mohm"
most_volts = "45 V"
flow = "50 l/min"
head = "12 m"
shut_head = "20 m"
shaft = "150 W"
lift = "6 m"
rubs = "1.5 m"
"""


def told(*changes):
    return list(lines(plan(*changes)))


def below(said, title):
    """Lines of one section."""
    first = said.index(title) + 1
    last = next((n for n in range(first, len(said)) if not said[n]), len(said))
    return said[first:last]


@pytest.fixture(scope="module")
def usual():
    return told()


def test_the_first_lines_say_what_comes_in_and_what_comes_out(usual):
    found = re.match(r"(\d+) kWh a year at the controller's inputs, (\d+) behind the controller", usual[1])
    assert int(found[2]) < int(found[1])
    assert usual[2].startswith("Weather: ")
    assert not any(line[:1].islower() for line in usual)


def test_limits_stand_by_what_they_judge_and_broken_ones_first(usual):
    groups = [line.strip() for line in below(usual, "Limits") if re.match(r"  [A-Z]", line)]
    assert groups[0] == "Strings at the controller"
    assert {"Plugs and sockets", "The battery", "Run controller to battery"} <= set(groups)
    broken = told(('volts = "12 V"', 'volts = "24 V"'), ("[battery]", 'battery = "12 V"\n[battery]'))
    limits = below(broken, "Limits")
    assert limits[1].strip() == "The battery"
    assert "TOO MUCH" in limits[2]
    assert "The bank has 24 V, the controller charges 12 V" in limits[3]


def test_strings_have_the_signs_of_pages_and_book(usual):
    """Letters, as in the drawing: the check of a fuse and its line name the same string."""
    signs = [found[1] for line in below(usual, "Strings") if (found := re.search(r"string (\w+):", line))]
    assert signs == [chr(ord("A") + n) for n in range(len(signs))]
    assert signs
    fuses = [re.search(r"string (\w+):", line)[1] for line in below(usual, "Fuses of the strings")]
    assert fuses == signs


def test_each_check_is_told_once(usual):
    assert sum(", holds (" in line for line in below(usual, "Limits")) == len(plan().checks)


def test_nothing_less_than_nothing_is_told(usual):
    assert not any(re.search(r"-0(\.0+)?(?![\d.])", line) for line in usual)


def test_a_generator_is_told_only_where_there_is_one(usual):
    assert not any("generator" in line for line in usual)
    helped = told(("[[load]]", '[generator]\npower = "200 W"\n[[load]]'))
    assert any("the generator runs" in line for line in helped)


def test_a_pump_without_a_controller_has_none_in_its_words():
    said = told((CUT, STRAIGHT))
    shown = [line for line in said if not line.lstrip().startswith(("controller.", "cable.", "money."))]
    assert any("down to the pump" in line for line in shown)
    assert not any("to the controller" in line or "controller's" in line for line in shown)
