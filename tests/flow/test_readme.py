"""The first order of the README is an order, and it designs."""

from pathlib import Path

from panewright import desk

README = Path(__file__).parents[2] / "README.md"


def test_the_first_order_of_the_readme_keeps_every_rule():
    text = README.read_text("utf-8").split("```toml\n")[1].split("```")[0]
    made = desk.design(text.encode(), "README.md")
    assert made.design.proven
    assert made.design.electrical.string.chosen == 36
