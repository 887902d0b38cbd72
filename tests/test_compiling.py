"""What is compiled once is compiled by one process; the others wait for it and no longer than it lives."""

from __future__ import annotations

import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor

from panewright import compiling
from panewright.battery import lead, lfp, through
from panewright.battery.bank import Bank, store_of
from panewright.battery.load import Battery
from panewright.compiling import in_turn, turn

HOLDS = (
    "import sys, time, pathlib; from panewright.compiling import turn\n"
    "with turn(pathlib.Path(sys.argv[1])): print('held', flush=True); time.sleep(60)"
)


def counted(calls):
    def compiled(figure):
        calls.append(figure)
        return 2 * figure

    return compiled


def test_the_first_call_waits_for_another_process_that_compiles_and_goes_on_when_it_ends(tmp_path):
    other = subprocess.Popen([sys.executable, "-c", HOLDS, str(tmp_path)], stdout=subprocess.PIPE)
    assert other.stdout.readline() == b"held\n"
    calls, told = [], []
    call = in_turn(counted(calls), tmp_path, __file__)
    waiting = threading.Thread(target=lambda: told.append(call(3)))
    waiting.start()
    waiting.join(0.3)
    assert waiting.is_alive()
    assert calls == []
    other.kill()  # not even asked to let go
    other.wait()
    other.stdout.close()
    waiting.join(30)
    assert told == [6]


def test_what_is_known_waits_for_nobody(tmp_path):
    assert in_turn(counted([]), tmp_path, __file__)(3) == 6
    with turn(tmp_path):  # as if another compiled
        assert in_turn(counted([]), tmp_path, __file__)(4) == 8


def test_a_call_that_fails_leaves_nothing_known_and_the_turn_free(tmp_path):
    def compiled():
        raise ZeroDivisionError

    for _ in range(2):
        try:
            in_turn(compiled, tmp_path, __file__)()
        except ZeroDivisionError:
            assert not list(tmp_path.glob("*.known"))
        else:
            raise AssertionError("it did not fail")


def test_the_same_text_elsewhere_or_written_anew_is_compiled_anew(tmp_path):
    for name in ("one.py", "two.py"):
        (tmp_path / name).write_text("# the same")
        in_turn(counted([]), tmp_path, str(tmp_path / name))(1)
    assert len(list(tmp_path.glob("*.known"))) == 2


def test_threads_that_ask_at_once_find_all_of_it(monkeypatch):
    monkeypatch.setattr(compiling, "_made", {})
    modules = (lead, lfp, through)
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(lambda _: compiling.machine_code(modules), range(16)))
    assert {len(each) for each in found} == {len(found[0])}
    store = store_of(Bank(Battery("agm", 12.0), 100.0))
    assert {each["rest_v"](store, 0.5) for each in found} == {through.rest_v(store, 0.5)}
