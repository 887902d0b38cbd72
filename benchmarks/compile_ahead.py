"""Compiles ahead what great catalogues run, so that the first one is as quick as the next.

`python benchmarks/compile_ahead.py`, about ten seconds; `make` does it once when it sets up. What is compiled
is kept in the user's cache by the text of its functions, see `panewright.compiling`.
"""

from __future__ import annotations

from pathlib import Path

from panewright.catalogue.carriage import travels
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import part_done, parts_of
from panewright.shelf.load import load_shelf

_RANGE = Path(__file__).with_name("catalogue.toml")


def main() -> None:
    """The first part of a great range, as one of its processes does it."""
    shelf = load_shelf()
    family = parse_family(_RANGE.read_bytes(), _RANGE.name, shelf)
    part_done(parts_of(family)[0], Asked(shelf, family.quantities, travels, many=True))


if __name__ == "__main__":
    main()
