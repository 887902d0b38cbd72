"""Tablets let in for real: a pass phrase asked at the terminal, code and fingerprint shown, TLS served."""

import hashlib
import os
import pty
import re
import signal
import socket
import ssl
import sys
import time

import pytest
from served import TABLET, free_port

from panewright.web.serve import own_address

pytestmark = [
    pytest.mark.peer("chromium"),
    pytest.mark.skipif(not own_address(), reason="this computer is in no network"),
]

PRINT = r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}"
PHRASE = "seven quiet herons wade"


class Terminal:
    """The command at a terminal of its own, as a person has it."""

    def __init__(self, folder, port):
        self.process, self.line = pty.fork()
        if self.process == 0:
            command = [sys.executable, "-m", "panewright.cli", "open", "--tablets", "--no-browser"]
            os.execvp(sys.executable, [*command, "--shop", str(folder), "--port", str(port)])
        self.said = ""

    def wait_for(self, words, most_s=60.0):
        end = time.monotonic() + most_s
        while not re.search(words, self.said):
            assert time.monotonic() < end, self.said
            self.said += os.read(self.line, 4096).decode("utf-8", "replace")

    def type(self, words):
        os.write(self.line, f"{words}\n".encode())

    def close(self):
        os.kill(self.process, signal.SIGTERM)
        os.waitpid(self.process, 0)
        os.close(self.line)


@pytest.fixture
def opened(tmp_path):
    port = free_port()
    terminal = Terminal(tmp_path / "shop", port)
    terminal.wait_for("Pass phrase")
    terminal.type(PHRASE)
    terminal.wait_for("Repeat for confirmation")
    terminal.type(PHRASE)
    terminal.wait_for(PRINT)
    yield terminal, port
    terminal.close()


def certificate(host, port):
    """What the server really shows."""
    asked = ssl.create_default_context()
    asked.check_hostname, asked.verify_mode = False, ssl.CERT_NONE
    with socket.create_connection((host, port)) as plain, asked.wrap_socket(plain) as line:
        return hashlib.sha256(line.getpeercert(binary_form=True)).hexdigest().upper()


def test_a_tablet_comes_in_over_tls_by_the_pass_phrase_alone(opened, browser):
    terminal, port = opened
    address = f"https://{own_address()}:{port + 1}/"
    assert address in terminal.said
    assert PHRASE not in terminal.said
    told = re.search(PRINT, terminal.said)[0]
    assert told.replace(":", "") == certificate(own_address(), port + 1)

    tablet = browser.new_context(viewport=TABLET, ignore_https_errors=True).new_page()
    tablet.goto(f"{address}shelf")
    assert tablet.url.startswith(f"{address}enter")
    tablet.get_by_label("Pass phrase").fill("seven quiet herons fade")
    tablet.get_by_role("button", name="Come in").click()
    assert "That is not the pass phrase" in tablet.locator("#told").inner_text()
    tablet.get_by_label("Pass phrase").fill(PHRASE)
    tablet.locator("#who").fill("Ann")
    tablet.get_by_role("button", name="Come in").click()
    tablet.wait_for_url("**/shelf")
    cookie = next(each for each in tablet.context.cookies() if each["httpOnly"])
    assert cookie["secure"]
    assert cookie["sameSite"] == "Strict"

    tablet.goto(f"{address}here")
    assert told in tablet.locator("main").inner_text()
    assert address in tablet.locator("main").inner_text()
    assert tablet.locator(".code svg").is_visible()
    tablet.goto(address)
    tablet.get_by_text("A new order").click() if not tablet.locator("#new-number").is_visible() else None
    tablet.locator("#new-number").fill("T-1")
    tablet.get_by_role("button", name="Begin this order").click()
    tablet.wait_for_url("**/orders/T-1")
    tablet.context.close()

    here = browser.new_context(viewport=TABLET).new_page()
    here.goto(f"http://127.0.0.1:{port}/")
    assert here.get_by_text("T-1").first.is_visible()
    here.context.close()


def test_a_stranger_without_the_phrase_sees_nothing_and_is_slowed(opened, browser):
    _, port = opened
    address = f"https://{own_address()}:{port + 1}/"
    stranger = browser.new_context(viewport=TABLET, ignore_https_errors=True).new_page()
    for path in ("serial", "papers", "customers", "lots", "live", "kept/x"):
        answer = stranger.request.get(address + path, max_redirects=0)
        assert answer.status in (303, 401)
        assert "T-1" not in answer.text()
    stranger.goto(f"{address}enter")
    for _ in range(30):
        stranger.get_by_label("Pass phrase").fill("is it this one?")
        stranger.get_by_role("button", name="Come in").click()
        if "Too many tries" in stranger.locator("#told").inner_text():
            break
    assert "Too many tries" in stranger.locator("#told").inner_text()
    stranger.context.close()
