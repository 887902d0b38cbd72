"""`panewright open`: the shop on this computer, and for tablets in the building where they are let in."""

from __future__ import annotations

import datetime
import threading
import webbrowser
from dataclasses import replace

import click
import segno

from panewright.desk.records.place import Place
from panewright.web.app import Others
from panewright.web.keys import Keys
from panewright.web.serve import Opening, make_folder, own_address, serve, tablet_door


def open_shop(shop: Place, port: int, *, tablets: bool, plain: bool, browser: bool) -> None:
    """Open the shop and serve it until it is closed."""
    opening = Opening(shop.folder.resolve(), port, shop.records)
    make_folder(opening.folder)
    others = None
    if tablets:
        opening = replace(opening, tablets=_address(), plain=plain)
        others = _let_in(opening)
    serve(opening, others, lambda: _opened(opening, others, browser))


def _address() -> str:
    """Where tablets find this computer."""
    address = own_address()
    if not address:
        raise click.ClickException("This computer is in no network that tablets could come in by.")
    return address


def _let_in(opening: Opening) -> Others:
    """Pass phrase and certificate for tablets; asked for here, on the shop's own computer."""
    keys = Keys(opening.folder / "keys")
    if not keys.has_phrase:
        click.echo("Tablets come in by a pass phrase. A few words that belong to nobody are best.")
        keys.set_phrase(click.prompt("Pass phrase", hide_input=True, confirmation_prompt=True))
    door = tablet_door(opening)
    address = f"{door.scheme}://{opening.tablets}:{opening.port + 1}/"
    if opening.plain:
        _warn()
        return Others(address, _picture(address))
    names = sorted({host.rpartition(":")[0] for host in door.hosts})
    fingerprint = keys.certificate(tuple(names), datetime.datetime.now(datetime.UTC))[2]
    return Others(address, _picture(address), fingerprint)


def _warn() -> None:
    click.echo("WARNING: without TLS whoever is in this network can read and change all of it, and read")
    click.echo("the pass phrase as it is typed.")
    click.confirm("Serve it without a lock all the same?", abort=True)


def _opened(opening: Opening, others: Others | None, browser: bool) -> None:
    url = f"http://127.0.0.1:{opening.port}/"
    click.echo(f"The shop is open: {url}  (Ctrl-C closes it)")
    if others:
        click.echo(f"Tablets: {others.address}")
        segno.make(others.address, micro=False).terminal(compact=True)
        if others.fingerprint:
            click.echo(f"Its certificate was made here. Fingerprint (SHA-256):\n  {others.fingerprint}")
    if browser:
        threading.Thread(target=webbrowser.open, args=(url,), daemon=True).start()


def _picture(address: str) -> str:
    code = segno.make(address, micro=False)
    return str(code.svg_inline(border=2, omitsize=True, svgclass=None, lineclass=None))
