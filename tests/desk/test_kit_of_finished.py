"""A kit of an order that sells finished panels says what it is."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from panewright.cli.main import cli


def test_the_papers_of_a_kit_that_nobody_ordered_are_told_as_such(tmp_path):
    text = Path("examples/frost-sensor.toml").read_text("utf-8")
    said = {}
    for sold in ("finished panel", "kit"):
        order = tmp_path / f"{sold[:3]}.toml"
        order.write_text(f'{text}\n[kit]\nsold_as = "{sold}"\n', "utf-8")
        found = CliRunner().invoke(cli, ["kit", str(order), "--to", str(tmp_path / sold[:3])])
        assert "kit's papers lie in" in found.output
        said[sold] = found.output
    assert "sells finished panels" in said["finished panel"]
    assert "sells finished panels" not in said["kit"]
