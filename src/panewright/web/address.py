"""Names in addresses: whatever a person writes on a lot, a meter or a panel is one part of an address.

Servers unpack an address before they look where its parts end, and browsers drop parts of nothing but points.
So what would end a part, or be dropped, is packed in a way of the shop's own, behind a wave.
"""

from __future__ import annotations

import re
from urllib.parse import quote

from starlette.convertors import Convertor, register_url_convertor
from starlette.requests import Request

_ENDS = re.compile(r"[/%~]|^\.+$")
_PACKED = re.compile(r"~([0-9A-F]{2})")


def part(name: object) -> str:
    """A name as one part of an address.

    >>> part("23/05"), part("A #1"), part(".."), part("50%")
    ('23~2F05', 'A%20%231', '~2E~2E', '50~25')
    """
    packed = _ENDS.sub(lambda found: "".join(f"~{ord(each):02X}" for each in found[0]), str(name))
    return quote(packed, safe="")


def address(request: Request) -> str:
    """Where a request went, as it was written.

    What the server unpacked of it would not lead there once more.
    """
    raw: bytes = request.scope.get("raw_path") or quote(request.scope["path"]).encode()
    return raw.partition(b"?")[0].decode("ascii", "replace")


class Name(Convertor[str]):
    """The name that such a part says: `{mark:name}` in a route."""

    regex = "[^/]+"

    def convert(self, value: str) -> str:
        """The name itself.

        >>> Name().convert("23~2F05")
        '23/05'
        """
        return _PACKED.sub(lambda found: chr(int(found[1], 16)), value)

    def to_string(self, value: str) -> str:
        """As `part` packs it."""
        return part(value)


register_url_convertor("name", Name())
