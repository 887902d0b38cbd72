"""What a bench asks the desk for: a serial as it is."""

from pathlib import Path

import pytest

from panewright import desk
from panewright.errors import BuiltError
from panewright.panel.happened import Happened

KIOSK = Path(__file__).parents[2] / "examples" / "kiosk.toml"


def test_a_serial_to_which_nothing_happened_is_the_design():
    made = desk.design(KIOSK.read_bytes(), KIOSK.name)
    built = desk.build(made, Happened(made.design.label.serials[0]))
    assert built.checks == made.design.checks
    with pytest.raises(BuiltError, match="no such serial"):
        desk.build(made, Happened("nobody's"))
