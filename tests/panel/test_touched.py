"""A hand and a knee on a design's pane: shown apart, never in the verdict."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.panel.touched import touched
from panewright.shelf.load import load_shelf

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES[:3], ids=lambda path: path.stem)
def test_every_touch_is_told_and_none_counts(path):
    shelf = load_shelf()
    design = design_panel(parse_bytes(path.read_bytes(), path.name, shelf), shelf)
    checks = touched(design.structural.pane, design.order.site.family, design.order.parts.held)
    told = " ".join(check.rule for check in checks)
    assert "one hand" in told
    assert "one knee" in told
    assert not {check.rule for check in checks} & {check.rule for check in design.checks}
