"""The first order of the README is an order, and it designs; its programme says what stands below it."""

import contextlib
import io
from pathlib import Path

from panewright import desk

README = Path(__file__).parents[2] / "README.md"


def test_the_first_order_of_the_readme_keeps_every_rule():
    text = README.read_text("utf-8").split("```toml\n")[1].split("```")[0]
    made = desk.design(text.encode(), "README.md")
    assert made.design.proven
    assert made.design.electrical.string.chosen == 36


def test_the_circuit_of_the_readme_gives_what_is_printed_there():
    programme, after = README.read_text("utf-8").split("```python\n")[1].split("```\n", 1)
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(compile(programme, "README.md", "exec"), {})
    told = [line.strip() for line in after.strip("\n").split("\n\n")[0].splitlines()]
    assert len(told) == 2
    assert printed.getvalue().splitlines() == told
