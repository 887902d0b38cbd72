"""The schema that the steps of the upgrade make is the one that the tables tell of."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlalchemy import CheckConstraint, inspect

from panewright.ledger.open import open_ledger
from panewright.ledger.tables import METADATA


def test_tables_and_upgrade_agree(nowhere):
    ledger = open_ledger(nowhere)
    with ledger.reading() as db:
        context = MigrationContext.configure(db, opts={"compare_type": True, "target_metadata": METADATA})
        assert compare_metadata(context, METADATA) == []
    ledger.close()


def test_every_check_and_key_is_in_the_database_under_its_name(nowhere):
    ledger = open_ledger(nowhere)
    with ledger.reading() as db:
        look = inspect(db)
        for name, table in METADATA.tables.items():
            assert {each["name"] for each in look.get_check_constraints(name)} == {
                str(each.name) for each in table.constraints if isinstance(each, CheckConstraint)
            }, name
            assert {each["name"] for each in look.get_foreign_keys(name)} == {
                str(each.name) for each in table.foreign_key_constraints
            }, name
    ledger.close()


def test_an_installed_package_has_every_step_of_the_schema(tmp_path):
    """The steps are found in the wheel, without a settings file and without the checkout."""
    root = Path(__file__).parents[2]
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path / "wheel")]
    subprocess.run(command, cwd=root, check=True, capture_output=True)
    (wheel,) = (tmp_path / "wheel").iterdir()
    zipfile.ZipFile(wheel).extractall(tmp_path / "installed")
    code = "from panewright.ledger import open; open.open_ledger('shop.db').close(); print(open.__file__)"
    around = {**os.environ, "PYTHONPATH": str(tmp_path / "installed")}
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, env=around, check=True, capture_output=True, text=True
    )
    assert ran.stdout.startswith(str(tmp_path / "installed"))
    assert (tmp_path / "shop.db").stat().st_size > 0


def test_sqlite_syncs_every_commit_and_keeps_its_keys(tmp_path):
    """WAL, FULL, foreign keys, and no old bytes left: on every connection there is."""
    ledger = open_ledger(tmp_path / "shop.db")
    with ledger.reading() as one, ledger.reading() as two:
        for db in (one, two):
            names = ("journal_mode", "synchronous", "foreign_keys", "secure_delete")
            told = [db.exec_driver_sql(f"PRAGMA {name}").scalar_one() for name in names]
            assert told == ["wal", 2, 1, 1]
    ledger.close()
