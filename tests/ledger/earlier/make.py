"""Keep what a shop's records look like under the schema of today: `python tests/ledger/earlier/make.py`.

Run once before the schema grows, and never again for the same schema: shops hold records made by it.
"""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
sys.path.append(str(HERE.parent))

import full  # noqa: E402

from panewright.ledger.kept import dump, upgrade  # noqa: E402
from panewright.ledger.open import open_ledger  # noqa: E402


def main() -> None:
    """Write the file of this schema, if there is none yet."""
    place = HERE / f"{upgrade.NEWEST}.json"
    if place.exists():
        raise SystemExit(f"{place} is there already")
    with tempfile.TemporaryDirectory() as folder:
        ledger = open_ledger(Path(folder) / "shop.db")
        full.shop(ledger)
        with ledger.reading() as db:
            told = {table.name: list(dump.lines(db, table)) for table in dump.tables(db)}
        ledger.close()
    place.write_text(json.dumps(told, indent=1, ensure_ascii=False) + "\n", "utf-8")


if __name__ == "__main__":
    main()
