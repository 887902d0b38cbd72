"""The design by which panels are begun, as the records keep it."""

from __future__ import annotations

import json
from importlib.metadata import version as program_version
from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.orders.designs import DesignMade


def design_record(made: Made, number: str, version: int) -> DesignMade:
    """A design as the records keep it: figures, checks, and the shelf as it was."""
    from panewright import desk
    from panewright.ledger.orders.designs import DesignMade

    tables = files("panewright.shelf") / "tables"
    shelf = {
        each.name: each.read_text("utf-8") for each in sorted(tables.iterdir(), key=lambda each: each.name)
    }
    figures = json.loads(desk.as_json(made))
    return DesignMade(
        order=number,
        version=version,
        revision=made.design.revision,
        program=program_version("panewright"),
        shelf=json.dumps(shelf),
        figures=json.dumps(figures),
        checks=json.dumps([str(check) for check in made.design.checks]),
        serials=made.design.label.serials,
        proven=made.design.proven,
    )
