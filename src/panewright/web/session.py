"""Who is at a screen: a signed cookie, given freely on this computer and for the pass phrase elsewhere."""

from __future__ import annotations

import secrets
import time
from dataclasses import dataclass

from itsdangerous import BadSignature, URLSafeTimedSerializer
from starlette.requests import Request
from starlette.responses import Response

from panewright.web.guard import Door

COOKIE = "panewright"
_MOST_S = 30 * 24 * 3600
_MOST_LETTERS = 40
HERE, ELSEWHERE = "here", "elsewhere"


@dataclass(frozen=True, slots=True)
class Session:
    """One screen."""

    screen: str  #: a number of chance, the same as long as the cookie lasts
    who: str = ""  #: the name that a person gave
    place: str = ELSEWHERE

    @property
    def by(self) -> str:
        """Who is written down beside a tick or a reading."""
        return self.who or ("this computer" if self.place == HERE else f"screen {self.screen[:4]}")


class Sessions:
    """Signs and reads sessions."""

    def __init__(self, secret: str) -> None:
        self._signer = URLSafeTimedSerializer(secret, salt="session")
        self._tries: list[float] = []

    def read(self, request: Request) -> Session | None:
        """The session that comes with a request, None without one that may pass this door."""
        door: Door = request.state.door
        raw = request.cookies.get(COOKIE, "")
        try:
            screen, who, place = self._signer.loads(raw, max_age=_MOST_S)
        except (BadSignature, ValueError, TypeError):
            return fresh(HERE) if door.here else None
        session = Session(str(screen), str(who)[:_MOST_LETTERS], str(place))
        return session if door.here or session.place == ELSEWHERE else None

    def write(self, response: Response, session: Session, door: Door) -> None:
        """The cookie with an answer."""
        response.set_cookie(
            COOKIE,
            self._signer.dumps([session.screen, session.who, session.place]),
            max_age=_MOST_S,
            httponly=True,
            samesite="strict",
            secure=door.scheme == "https",
        )

    def may_try(self) -> bool:
        """Whether a pass phrase may be tried now: five in a minute from all screens together."""
        now = time.monotonic()
        self._tries = [then for then in self._tries if now - then < 60.0]
        self._tries.append(now)
        return len(self._tries) <= 5


def fresh(place: str, who: str = "") -> Session:
    """A new screen."""
    return Session(secrets.token_hex(8), " ".join(who.split())[:_MOST_LETTERS], place)
