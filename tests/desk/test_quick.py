"""The first compilation goes on in a process of its own that outlives nobody."""

import fcntl
import os
import subprocess
import sys
import time

CHILD = [sys.executable, "-c", "from panewright.desk.quick import compile_here; compile_here()"]


def begun(folder):
    return subprocess.Popen(CHILD, stdin=subprocess.PIPE, env={**os.environ, "XDG_CACHE_HOME": str(folder)})


def compiling(turn):
    """Whether somebody holds the turn."""
    if not turn.exists():
        return False
    with turn.open("w") as asked:
        try:
            fcntl.flock(asked, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return True
    return False


def test_it_ends_with_the_program_that_began_it(tmp_path):
    child = begun(tmp_path)
    while not compiling(tmp_path / "panewright" / "compiling"):
        time.sleep(0.05)
    time.sleep(1)
    child.stdin.close()  # as when a shop is killed
    assert child.wait(60) == 1


def test_one_compiles_at_a_time(tmp_path):
    (tmp_path / "panewright").mkdir()
    with (tmp_path / "panewright" / "compiling").open("w") as turn:
        fcntl.flock(turn, fcntl.LOCK_EX)
        child = begun(tmp_path)
        try:
            child.wait(4)
            raise AssertionError("it did not wait for its turn")
        except subprocess.TimeoutExpired:
            assert not list(tmp_path.rglob("*.nb?"))
        child.stdin.close()
        assert child.wait(60) == 1
