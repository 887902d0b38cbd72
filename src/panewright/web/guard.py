"""What stands before every page: who may ask, from which page, for how much, and what the page may do.

Host      only the names and addresses of this door: a foreign name that leads here is turned away
Origin    what changes anything must come from a page of this door
body      bounded before it is read, and while it is
policy    no script, style, picture or frame from anywhere but here, none inside the page
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BYTES = 1_200_000  #: of what a page sends
MOST_UPLOAD_BYTES = 20_000_000
MOST_BACKUP_BYTES = 201_000_000  #: a backup in its form; `desk/records/keeping.py` says how large one may be
UPLOADS = {"/serial/photo": MOST_UPLOAD_BYTES, "/photos": MOST_UPLOAD_BYTES, "/files": MOST_UPLOAD_BYTES}
UPLOADS |= {"/cells/take": MOST_UPLOAD_BYTES, "/rate": MOST_UPLOAD_BYTES}
UPLOADS |= {"/records/take": MOST_BACKUP_BYTES}
_CHANGING = frozenset({"POST", "PUT", "PATCH", "DELETE"})
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {
    "content-security-policy": _POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
}


@dataclass(frozen=True, slots=True)
class Door:
    """One way in: this computer alone, or the others in the building."""

    hosts: frozenset[str]  #: as a browser writes them, with the port
    scheme: str = "http"
    here: bool = True  #: only this computer comes in by it

    @classmethod
    def at(cls, names: Iterable[str], port: int, *, scheme: str = "http", here: bool = True) -> Door:
        """The door behind these names."""
        usual = {"http": 80, "https": 443}[scheme]
        hosts = {_bracketed(name) if port == usual else f"{_bracketed(name)}:{port}" for name in names}
        return cls(frozenset(hosts), scheme, here)

    @property
    def origins(self) -> frozenset[str]:
        """What the pages of this door give as their origin."""
        return frozenset(f"{self.scheme}://{host}" for host in self.hosts)


def _bracketed(name: str) -> str:
    return f"[{name}]" if ":" in name else name


class TooMuch(Exception):
    """More was sent than may be."""


class Guard:
    """Turns away what may not come in, and gives every answer its policy."""

    def __init__(self, app: ASGIApp, door: Door) -> None:
        self.app, self.door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
            return
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        scope.setdefault("state", {})["door"] = self.door
        reason = self._refused(scope)
        if reason:
            await PlainTextResponse(reason, 403 if "page" in reason else 400)(
                scope, receive, _with_policy(send)
            )
            return
        try:
            await self.app(scope, _bounded(scope, receive), _with_policy(send))
        except TooMuch:
            await PlainTextResponse("This is too large.", 413)(scope, receive, _with_policy(send))
        except Exception:  # answered and written down without a word of what was typed, in app.py
            return

    def _refused(self, scope: Scope) -> str:
        """Why this may not come in; nothing where it may."""
        headers = Headers(scope=scope)
        if headers.get("host", "").lower() not in self.door.hosts:
            return "This shop does not go by that name."
        if scope["method"] in _CHANGING and headers.get("origin", "") not in self.door.origins:
            return "This does not come from a page of this shop."
        return ""


def _bounded(scope: Scope, receive: Receive) -> Receive:
    most = next((most for path, most in UPLOADS.items() if scope["path"].startswith(path)), MOST_BYTES)
    told = Headers(scope=scope).get("content-length", "0")
    if not told.isdecimal() or int(told) > most:
        raise TooMuch
    read = 0

    async def counted() -> Message:
        nonlocal read
        message = await receive()
        read += len(message.get("body", b""))
        if read > most:
            raise TooMuch
        return message

    return counted


def _with_policy(send: Send) -> Send:
    async def marked(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    return marked
