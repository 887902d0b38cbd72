"""Wrong orders of the order room's own tests, given to the command: exit 2, a sentence, nothing written."""

import importlib.util
from pathlib import Path

import pytest
from click.testing import CliRunner

from panewright.cli.main import cli


def _wrong_orders() -> dict[str, bytes]:
    """Taken from where they are written, so that each is written once."""
    path = Path(__file__).parents[1] / "order" / "test_malformed.py"
    spec = importlib.util.spec_from_file_location("wrong_orders", path)
    assert spec is not None
    assert spec.loader is not None
    source = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(source)
    told = {case[0]: source.written(case[1]).encode() for case in source.CASES}
    told |= {case[0]: case[1].encode() for case in source.BROKEN}
    return told | {case[0]: case[1] for case in source.BYTES}


WRONG = _wrong_orders()


def test_there_are_sixty_wrong_orders_and_more():
    assert len(WRONG) >= 60


@pytest.mark.parametrize("name", sorted(WRONG))
def test_a_wrong_order_is_told_and_nothing_is_written(name, tmp_path):
    order = tmp_path / "order.toml"
    order.write_bytes(WRONG[name])
    result = CliRunner().invoke(cli, ["pack", str(order), "--to", str(tmp_path / "pack")])
    assert result.exit_code == 2
    assert isinstance(result.exception, SystemExit)
    assert "order.toml" in result.stderr.splitlines()[0]
    assert "Traceback" not in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["order.toml"]
