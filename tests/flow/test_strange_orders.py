"""Orders at the edge of sense: each gives a design with its pack, or a mistake told; never a traceback."""

from pathlib import Path

import pytest

from panewright import desk
from panewright.errors import OrderError
from panewright.pack.pack import make_pack
from panewright.paper.leaf import render

README = Path(__file__).parents[2] / "README.md"
FENCE = (README.parent / "examples" / "fence.toml").read_bytes()


def order(**sections: str) -> bytes:
    """The README's order with lines put behind it, one section each, or keys of [site] put before."""
    text = README.read_text("utf-8").split("```toml\n")[1].split("```")[0]
    for section, lines in sections.items():
        text = text + lines if section == "site" else f"{text}\n[{section}]\n{lines}\n"
    return text.encode()


def count(cells: int, more: str = "") -> bytes:
    """An order of so many cells in series and no battery."""
    head = f'order = {{ name = "Edge" }}\nload = {{ cells = {cells} }}\ncell = {{ name = "125 mm mono" }}\n'
    site = README.read_text("utf-8").split("[site]")[1].split("```")[0]
    return f"{head}\n[site]{site}\n{more}".encode()


STRANGE = {
    "one cell": count(1),
    "two cells on many brackets": count(2, "[parts]\nbrackets = 12"),
    "four hundred cells": count(400),
    "a hundred cells": count(100),
    "one long column": count(60, "[layout]\ncolumns = 1"),
    "two hundred rows": count(200, "[layout]\nrows = 200"),
    "sixteen strings": count(12, "[layout]\nstrings = 16"),
    "a pane slender as a lath": order(layout="columns = 2"),
    "brackets at the very end": order(parts='bracket_from_end = "0 mm"'),
    "brackets on the corner screws": order(parts='bracket_from_end = "25 mm"'),
    "a bead too narrow": order(parts='bite = "3 mm"'),
    "a tube": order(parts='rail = "tube 30 x 30 x 2 mm"'),
    "a channel": order(parts='rail = "channel 40 x 30 x 3 mm"'),
    "film": order(parts='encapsulation = "film"'),
    "air": order(parts='encapsulation = "air gap"'),
    "acrylic in inches": order(parts='front = "acrylic"').replace(
        b'name = "Shed light"', b'name = "Shed light", units = "us", paper = "Letter"'
    ),
    "polycarbonate": order(parts='front = "polycarbonate"'),
    "a fastest mile": FENCE.replace(b'"3 s gust"', b'"fastest mile"'),
    "a mean of an hour": FENCE.replace(b'"3 s gust"', b'"1 h mean"'),
    "on a tower": order(site='height = "200 m"\n', mounting='on = "ground ballast"'),
    "on a mast": order(site='height = "100 m"\n', mounting='on = "post"'),
    "on two sides": order(parts='held = "two long sides"'),
    "laminated": order(parts='glass = "4 + 4 mm low-iron tempered, laminated"'),
    "welded": order(parts='corner = "welded"'),
    "riveted laps": order(parts='corner = "lapped"\ncorner_fastener = "rivet 4.8 stainless"'),
    "a pole in a corner": order(site='mounting = "pole"\n'),
    "a wall's corner": order(site='mounting = "wall"\nzone = "corner"\n').replace(b'"45 deg"', b'"90 deg"'),
}


@pytest.mark.parametrize("name", sorted(STRANGE))
def test_a_strange_order_gives_a_whole_pack(name):
    made = desk.design(STRANGE[name], "strange.toml")
    files = {leaf.name: render(leaf) for leaf in make_pack(made.design, made.quote).leaves}
    assert all(files.values())
    assert all(check.cure for check in made.design.checks if not check.passed)


@pytest.mark.parametrize(
    ("wrong", "key", "line"),
    [
        (order(layout="columns = 5\ncells_in_series = 36"), "layout.columns", True),
        (order(layout="bypass_diodes = 7"), "layout.bypass_diodes", True),
        (order(parts='bracket_from_end = "1500 mm"'), "parts.bracket_from_end", True),
    ],
)
def test_what_only_the_design_can_find_is_told_at_its_key_and_line(wrong, key, line):
    with pytest.raises(OrderError) as told:
        desk.design(wrong, "strange.toml")
    (problem,) = told.value.problems
    assert problem.key == key
    assert problem.file == "strange.toml"
    assert (problem.line is not None) == line
    assert problem.reason
    assert problem.cure


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("brackets at the very end", "holes clear of the rail's ends"),
        ("brackets on the corner screws", "holes apart from each other"),
        ("two cells on many brackets", "brackets side by side"),
        ("a bead too narrow", "least bite"),
        ("a pane slender as a lath", "sides of the pane alike enough"),
    ],
)
def test_what_cannot_be_built_fails_the_check_that_says_so(name, rule):
    checks = {check.rule: check for check in desk.design(STRANGE[name], "strange.toml").design.checks}
    assert not checks[rule].passed
