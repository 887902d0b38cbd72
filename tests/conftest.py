"""Outside programs: a test that compares with one fails where it is missing, unless PEERS=none.

Modules beside this file can be imported by the tests of every room.
"""

from __future__ import annotations

import gc
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent))

# As the program itself does: matrices this small gain nothing from threads, which wait by spinning and took
# up to five times the processor's time. Said before numpy is loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# The gate draws the same few examples each time; the long campaigns of `make proof` draw fresh ones. Speed is
# measured in benchmarks/, not here: a busy machine makes no test fail.
settings.register_profile("gate", derandomize=True, deadline=None, max_examples=50)
settings.load_profile("gate")

PACKAGES = ("distributed",)  #: outside programs that are opened as a package
PROGRAMS = ("ngspice", "ccx", "postgres", "cc", "chromium", *PACKAGES)  #: all that some test runs
BESIDE_THE_PATH = "/usr/lib/postgresql"  #: where Debian puts a server's programs


COMPILE = [sys.executable, "-c", "from panewright.desk.quick import compile_here; compile_here()"]


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """Side by side, a file's tests stay with one process: what they share is made once, not in each."""
    if config.getoption("numprocesses", None) and config.option.dist in ("no", "load"):
        config.option.dist, config.option.loadscopereorder = (
            "loadfile",
            False,
        )  # the browser's are not the last


def pytest_configure(config: pytest.Config) -> None:
    """Side by side, the solver is compiled once, while the tests are still being collected."""
    if config.getoption("numprocesses", None) and not hasattr(config, "workerinput"):
        config.compiles = subprocess.Popen(COMPILE, stdin=subprocess.PIPE, stderr=subprocess.DEVNULL)


def pytest_unconfigure(config: pytest.Config) -> None:
    """It ends with the tests."""
    if child := getattr(config, "compiles", None):
        child.stdin.close()
        child.wait()


@pytest.hookimpl(tryfirst=True)
def pytest_collection() -> None:
    """While tests are collected nearly all that is made stays: it is seldom looked through."""
    gc.set_threshold(500_000, 50, 1000)


def pytest_collection_finish() -> None:
    """What is collected stays to the end: to look it through for rubbish took a tenth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 10, 10)


@pytest.fixture(scope="session")
def empty_shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop in which nothing happened, to be copied: a twentieth of the time of making one."""
    from panewright.desk.shop.shop import Shop

    folder = tmp_path_factory.mktemp("empty") / "shop"
    Shop.open(folder).close()
    return folder


def _there(program: str) -> bool:
    beside = Path(BESIDE_THE_PATH).glob(f"*/bin/{program}")
    package = program in PACKAGES and importlib.util.find_spec(program) is not None
    return package or shutil.which(program) is not None or any(beside)


def _missing(item: pytest.Item) -> tuple[str, ...]:
    wanted = (name for mark in item.iter_markers("peer") for name in mark.args)
    return tuple(name for name in wanted if not _there(name))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """With PEERS=none, take out the tests whose program is missing."""
    if os.environ.get("PEERS") != "none":
        return
    absent = [item for item in items if _missing(item)]
    config.hook.pytest_deselected(items=absent)
    items[:] = [item for item in items if item not in absent]


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Fail at once, and say what to install, where a program is missing."""
    if missing := _missing(item):
        cure = "run tests/peers.sh, or say PEERS=none"
        pytest.fail(f"{', '.join(missing)} is not installed: {cure}", pytrace=False)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name what was not run; said by the main process, which collects nothing when tests run side by side."""
    if os.environ.get("PEERS") == "none":
        for program in (name for name in PROGRAMS if not _there(name)):
            terminalreporter.write_line(f"NOT RUN: tests that compare with {program}; it is not installed")
