"""The schema that the steps of the upgrade make is the one that the tables tell of."""

from __future__ import annotations

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
