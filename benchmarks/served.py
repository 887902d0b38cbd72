"""A real shop, served by the command itself, for tests in a browser, benchmarks and campaigns."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).parents[1] / "examples"
TABLET, PHONE = {"width": 820, "height": 1180}, {"width": 390, "height": 844}


def free_port() -> int:
    """A port that nobody has."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass
class Served:
    """One shop, opened by `panewright open`."""

    folder: Path
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[str] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def open(self) -> None:
        """Open it, and wait until it says so."""
        command = [sys.executable, "-m", "panewright.cli", "open", "--shop", str(self.folder)]
        command += ["--port", str(self.port), "--no-browser"]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONUNBUFFERED": "1"}
        )
        assert self.process.stdout is not None
        assert "The shop is open" in self.process.stdout.readline()

    def kill(self) -> None:
        """As if the plug were pulled."""
        assert self.process is not None
        self.process.kill()
        self.process.wait()
        assert self.process.stdout is not None
        self.process.stdout.close()

    def close(self) -> None:
        """As one closes it in the evening."""
        if self.process is not None and self.process.poll() is None:
            self.process.terminate()
            try:
                self.process.wait(10)
            except subprocess.TimeoutExpired:
                self.process.kill()
        if self.process is not None and self.process.stdout is not None:
            self.process.stdout.close()


def take(page: Any, served: Served, name: str) -> None:
    """Take an example order in, as a person does."""
    page.goto(served.url)
    if not page.locator("#take").is_visible():
        page.get_by_text("A new order").click()
    page.set_input_files("#take", str(EXAMPLES / f"{name}.toml"))
    page.get_by_role("button", name="Take this file").click()
    page.wait_for_url("**/orders/*")


def until(holds: Callable[[], Any], most_s: float = 20.0) -> Any:
    """Wait until something holds."""
    end = time.monotonic() + most_s
    while time.monotonic() < end:
        if found := holds():
            return found
        time.sleep(0.05)
    raise AssertionError("it never came to be")
