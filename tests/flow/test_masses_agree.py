"""The label's mass and the parts list read one list."""

import math

import pytest

import examples
from panewright import desk


@pytest.mark.parametrize("name", examples.NAMES)
def test_the_mass_on_the_label_is_that_of_the_parts_list(name):
    made = examples.made(name)
    listed = sum(line.mass_kg for line in made.quote.lines)
    assert made.design.label.mass_kg == pytest.approx(listed, rel=1e-6)
    assert made.design.label.mass_kg == made.design.structural.mass.total_kg


@pytest.mark.parametrize("encapsulation", ["film", "air gap"])
def test_every_way_of_closing_has_its_mass(encapsulation):
    text = (examples.FOLDER / "henhouse.toml").read_text("utf-8")
    made = desk.design(f'{text}\n[parts]\nencapsulation = "{encapsulation}"\n'.encode(), "x")
    listed = sum(line.mass_kg for line in made.quote.lines)
    assert made.design.label.mass_kg == pytest.approx(listed, rel=1e-6)
    assert_taken_as_cut(made)
    assert any("back sheet" in what or "board" in what for what, _ in made.design.structural.mass.parts)


def assert_taken_as_cut(made):
    """The parts list takes of back and film what the papers say to cut: a board is larger than its pane."""
    closing, lines = made.design.closing, {line.name: line for line in made.quote.lines}
    back_m2 = math.prod(closing.back_mm) / 1e6
    assert float(lines[closing.back.name].one) == pytest.approx(back_m2, abs=1e-6)
    assert lines[closing.back.name].mass_kg == pytest.approx(back_m2 * closing.back.mass_kg_m2, rel=1e-6)
    if sheet := closing.film_sheet:
        films_m2 = 2 * sheet.long_mm * sheet.short_mm / 1e6
        assert float(lines[closing.laminating.film.name].one) == pytest.approx(films_m2, abs=1e-6)


def test_a_poured_panel_takes_the_back_sheet_that_lies_between_its_seats():
    assert_taken_as_cut(examples.made("henhouse"))
