"""The same tests on SQLite and on a real PostgreSQL server, started here and thrown away afterwards."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine, create_engine, event, text

from panewright.ledger.open import Ledger, open_ledger

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[2] / "benchmarks"))

from postgres_server import HASTY, started

DATABASES = ("sqlite", pytest.param("postgresql", marks=pytest.mark.peer("postgres")))
UNCHANGING = re.compile(
    r"\s*(UPDATE|DELETE|REPLACE|TRUNCATE)\b(?! alembic_version)(?! FROM alembic_version)", re.I
)


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The URL of a server without the database's name; it listens on a socket in its own folder only."""
    with started(HASTY) as url:
        yield url


def _said(server: str, *sentences: str) -> None:
    url = server.format(name="postgres").replace("postgresql:", "postgresql+psycopg:")
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as db:
        for each in sentences:
            db.execute(text(each))
    engine.dispose()


@pytest.fixture(scope="session")
def template(server: str) -> str:
    """A database with the schema, to be copied: faster than making it for each test."""
    _said(server, "CREATE DATABASE pattern")
    open_ledger(server.format(name="pattern")).close()
    return "pattern"


@pytest.fixture(scope="session")
def pattern(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same as a file."""
    file = tmp_path_factory.mktemp("pattern") / "shop.db"
    open_ledger(file).close()
    return file


@pytest.fixture(params=DATABASES)
def where(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The place of records with the newest schema and nothing in them: a path, or a URL."""
    if request.param == "sqlite":
        shop = tmp_path / "shop"
        shop.mkdir()
        shutil.copy(request.getfixturevalue("pattern"), shop / "shop.db")
        yield str(shop / "shop.db")
    else:
        yield from _database(request, f"TEMPLATE {request.getfixturevalue('template')}")


@pytest.fixture(params=DATABASES)
def nowhere(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The same without a schema."""
    if request.param == "sqlite":
        yield str(tmp_path / "empty" / "shop.db")
    else:
        yield from _database(request, "")


def _database(request: pytest.FixtureRequest, how: str) -> Iterator[str]:
    server, name = request.getfixturevalue("server"), f"t{os.urandom(6).hex()}"
    _said(server, f"CREATE DATABASE {name} {how}")
    yield server.format(name=name)
    _said(server, f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def ledger(where: str, tmp_path: Path) -> Iterator[Ledger]:
    """Open records, empty."""
    opened = open_ledger(where, files=tmp_path / "shop" / "files")
    yield opened
    opened.close()


@pytest.fixture(autouse=True)
def only_added_to(request: pytest.FixtureRequest) -> Iterator[None]:
    """No test of the records makes them change or delete a row, but where it says that it erases."""
    seen: list[str] = []

    def look(_db, _cursor, statement, *_rest) -> None:  # type: ignore[no-untyped-def]
        if UNCHANGING.match(statement):
            seen.append(statement)

    event.listen(Engine, "before_cursor_execute", look)
    yield
    event.remove(Engine, "before_cursor_execute", look)
    if request.node.get_closest_marker("erases") is None:
        assert seen == []
