"""The label's mass and the parts list read one list."""

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
    assert any("back sheet" in what or "board" in what for what, _ in made.design.structural.mass.parts)
