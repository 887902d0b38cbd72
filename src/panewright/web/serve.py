"""The server: this computer's own door, and another for tablets where they are let in."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import os
import shutil
import signal
import socket
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn
from starlette.applications import Starlette

from panewright.errors import FolderError, Problem
from panewright.web.app import Others, make_app
from panewright.web.floor import Floor
from panewright.web.guard import Door, Guard

_LOCAL = ("127.0.0.1", "localhost")


@dataclass(frozen=True, slots=True)
class Opening:
    """How the shop is opened."""

    folder: Path
    port: int
    records: str = ""
    tablets: str = ""  #: the address in the building at which tablets come in; empty for this computer alone
    plain: bool = False  #: tablets without TLS


def tablet_door(opening: Opening) -> Door:
    """The door for tablets."""
    names = (opening.tablets, socket.gethostname().lower(), f"{socket.gethostname().lower()}.local")
    scheme = "http" if opening.plain else "https"
    return Door.at(names, opening.port + 1, scheme=scheme, here=False)


def own_address() -> str:
    """This computer's address in the building, by which way a packet would leave; none is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("10.255.255.255", 9))
            return str(probe.getsockname()[0])
        except OSError:
            return ""


def serve(opening: Opening, others: Others | None, ready: Callable[[], None]) -> None:
    """Serve until the process is told to end."""
    logging.getLogger("uvicorn").setLevel(
        logging.CRITICAL + 1
    )  # what a person must know is told in sentences
    tempfile.tempdir = str(_scratch(opening.folder))
    floor = Floor(opening.folder, opening.records)
    app = make_app(floor, others)
    doors = [(_server(app, Door.at(_LOCAL, opening.port), lifespan="on"), _bound("127.0.0.1", opening.port))]
    if opening.tablets:
        tls = floor.keys.folder if not opening.plain else None
        doors.append((_server(app, tablet_door(opening), tls=tls), _bound(opening.tablets, opening.port + 1)))
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(_all(doors, ready))


def make_folder(folder: Path) -> None:
    """The shop's folder, made where it is missing; `FolderError` where it cannot be one."""
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as reason:
        cure = "Name another with --shop."
        said = f"The shop's folder cannot be made: {reason.strerror or reason}."
        raise FolderError([Problem(said, cure, file=str(folder))]) from reason


def _scratch(folder: Path) -> Path:
    """Where large uploads lie until they are read: in the shop's own folder, emptied at every opening."""
    scratch = folder / "cache" / "scratch"
    shutil.rmtree(scratch, ignore_errors=True)
    scratch.mkdir(parents=True, mode=0o700)
    return scratch


def _bound(host: str, port: int) -> socket.socket:
    """A door's own place in the network, `FolderError` where another program has it."""
    # With neither of these an answer's head goes out at once and its body waits 40 ms for the other side.
    place = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    place.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    place.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    try:
        place.bind((host, port))
    except OSError as reason:
        place.close()
        cure = "Close it, or name another with --port."
        raise FolderError([Problem(f"Another program has port {port}.", cure, key="port")]) from reason
    return place


def _server(app: Starlette, door: Door, *, lifespan: str = "off", tls: Path | None = None) -> uvicorn.Server:
    config = uvicorn.Config(
        Guard(app, door),
        lifespan=lifespan,  # type: ignore[arg-type]
        log_config=None,
        access_log=False,
        server_header=False,
        ws="none",
        timeout_graceful_shutdown=1,
        limit_concurrency=400,
        ssl_certfile=str(tls / "shop.pem") if tls else None,
        ssl_keyfile=str(tls / "shop.key") if tls else None,
    )
    return uvicorn.Server(config)


async def _all(doors: list[tuple[uvicorn.Server, socket.socket]], ready: Callable[[], None]) -> None:
    """Both doors, until one is closed."""
    servers = [server for server, _ in doors]
    for server in servers:
        server.install_signal_handlers = lambda: None  # type: ignore[attr-defined]
    loop = asyncio.get_running_loop()

    def close() -> None:
        for server in servers:
            server.should_exit = True

    for sign in (signal.SIGINT, signal.SIGTERM):
        loop.add_signal_handler(sign, close)
    tasks = [asyncio.ensure_future(server._serve([place])) for server, place in doors]
    while not all(server.started for server in servers) and not any(task.done() for task in tasks):
        await asyncio.sleep(0.005)
    if all(server.started for server in servers):
        ready()
    await asyncio.gather(*tasks)
    _leave()


def _leave() -> None:
    """The records are closed; threads that still load or wait hold nothing up."""
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(0)
