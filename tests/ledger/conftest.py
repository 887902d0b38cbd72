"""The same tests on SQLite and on a real PostgreSQL server, started here and thrown away afterwards."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from sqlalchemy import Engine, create_engine, event, text

from panewright.ledger.open import Ledger, open_ledger

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[2] / "benchmarks"))

import full
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


@dataclass(frozen=True)
class Filled:
    """Records in which every table holds something: a file or a database to copy, and what belongs to it."""

    name: str
    files: Path
    panel: str  #: the serial they are about


@pytest.fixture(scope="session")
def full_template(server: str, template: str, tmp_path_factory: pytest.TempPathFactory) -> Filled:
    """A database of them."""
    files = tmp_path_factory.mktemp("full") / "files"
    _said(server, f"CREATE DATABASE filled TEMPLATE {template}")
    return Filled("filled", files, _fill(server.format(name="filled"), files))


@pytest.fixture(scope="session")
def full_pattern(pattern: Path, tmp_path_factory: pytest.TempPathFactory) -> Filled:
    """The same as a file."""
    shop = tmp_path_factory.mktemp("full")
    file = str(shutil.copy(pattern, shop / "shop.db"))
    return Filled(file, shop / "files", _fill(file, shop / "files"))


def _fill(where: str, files: Path) -> str:
    ledger = open_ledger(where, files=files)
    panel = full.shop(ledger)
    ledger.close()
    return panel


@pytest.fixture
def filled(request: pytest.FixtureRequest) -> Filled | None:
    """What a test marked `full` begins with; writing it takes longer than most tests."""
    if request.node.get_closest_marker("full") is None:
        return None
    on_file = request.node.callspec.params["where"] == "sqlite"
    return request.getfixturevalue("full_pattern" if on_file else "full_template")  # type: ignore[no-any-return]


@pytest.fixture
def panel(filled: Filled) -> str:
    """The serial that full records are about."""
    return filled.panel


@pytest.fixture(params=DATABASES)
def where(request: pytest.FixtureRequest, tmp_path: Path, filled: Filled | None) -> Iterator[str]:
    """The place of records with the newest schema, empty or of a full shop: a path, or a URL."""
    if filled:
        shutil.copytree(filled.files, tmp_path / "shop" / "files")
    if request.param == "sqlite":
        shop = tmp_path / "shop"
        shop.mkdir(exist_ok=True)
        shutil.copy(filled.name if filled else request.getfixturevalue("pattern"), shop / "shop.db")
        yield str(shop / "shop.db")
    else:
        yield from _database(
            request, f"TEMPLATE {filled.name if filled else request.getfixturevalue('template')}"
        )


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
