"""The first compilation goes on in a process of its own that outlives nobody."""

import fcntl
import os
import subprocess
import sys
import time

from panewright.circuit.solver.compiled import _cache_folder
from panewright.compiling import turn

CHILD = [sys.executable, "-c", "from panewright.desk.quick import compile_here; compile_here()"]


def begun(folder):
    return subprocess.Popen(CHILD, stdin=subprocess.PIPE, env={**os.environ, "XDG_CACHE_HOME": str(folder)})


def compiling(held):
    """Whether somebody holds the turn."""
    with held.open("w") as asked:
        try:
            fcntl.flock(asked, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return True
    return False


def test_it_ends_with_the_program_that_began_it(tmp_path):
    child = begun(tmp_path)
    while not any(compiling(each) for each in tmp_path.rglob("turn")):
        time.sleep(0.05)
    time.sleep(1)
    child.stdin.close()  # as when a shop is killed
    assert child.wait(60) == 1


def test_one_compiles_at_a_time(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    with turn(_cache_folder()):
        child = begun(tmp_path)
        try:
            child.wait(4)
            raise AssertionError("it did not wait for its turn")
        except subprocess.TimeoutExpired:
            assert not list(tmp_path.rglob("*.nb?"))
        child.stdin.close()
        assert child.wait(60) == 1
