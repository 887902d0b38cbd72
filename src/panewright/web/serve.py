"""The server: this computer's own door, and another for tablets where they are let in."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import socket
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn
from starlette.applications import Starlette

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
    floor = Floor(opening.folder, opening.records)
    app = make_app(floor, others)
    servers = [_server(app, Door.at(_LOCAL, opening.port), "127.0.0.1", opening.port, lifespan="on")]
    if opening.tablets:
        tls = floor.keys.folder if not opening.plain else None
        servers.append(_server(app, tablet_door(opening), opening.tablets, opening.port + 1, tls=tls))
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(_all(servers, ready))


def _server(
    app: Starlette, door: Door, host: str, port: int, *, lifespan: str = "off", tls: Path | None = None
) -> uvicorn.Server:
    config = uvicorn.Config(
        Guard(app, door),
        host=host,
        port=port,
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


async def _all(servers: list[uvicorn.Server], ready: Callable[[], None]) -> None:
    """Both doors, until one is closed."""
    for server in servers:
        server.install_signal_handlers = lambda: None  # type: ignore[attr-defined]
    loop = asyncio.get_running_loop()

    def close() -> None:
        for server in servers:
            server.should_exit = True

    for sign in (signal.SIGINT, signal.SIGTERM):
        loop.add_signal_handler(sign, close)
    tasks = [asyncio.ensure_future(server._serve()) for server in servers]
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
