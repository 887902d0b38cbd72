"""A photograph: the square code in it, and the picture itself made small and without what else it tells.

A camera writes the place and the day into its files; only the picture is kept. What is no picture, or one of
more than 60 million points, is refused before it is unpacked.
"""

from __future__ import annotations

import warnings
from io import BytesIO

from panewright.errors import Problem, RecordError

MOST_POINTS = 60_000_000
_KINDS = ("JPEG", "PNG", "WEBP")
_LONG_SIDE = 2400


def codes(data: bytes) -> tuple[str, ...]:
    """The words of every code in a photograph, the largest first."""
    import zxingcpp

    picture = _opened(data)
    found = zxingcpp.read_barcodes(picture)
    return tuple(each.text for each in found if each.text.isprintable())


def picture(data: bytes) -> bytes:
    """The picture as a JPEG of at most 2400 points a side, upright, and nothing beside it."""
    from PIL import ImageOps

    image = ImageOps.exif_transpose(_opened(data)).convert("RGB")
    image.thumbnail((_LONG_SIDE, _LONG_SIDE))
    out = BytesIO()
    image.save(out, "JPEG", quality=82)
    return out.getvalue()


def _opened(data: bytes):  # type: ignore[no-untyped-def]
    from PIL import Image

    Image.MAX_IMAGE_PIXELS = MOST_POINTS
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            image = Image.open(BytesIO(data), formats=_KINDS)
            image.draft("RGB", (4000, 4000))
            image.load()
    except Exception as reason:  # whatever a broken picture makes the library say
        cure = "Send a photograph as JPEG, PNG or WebP."
        raise RecordError(
            [Problem("This is no picture that can be read.", cure, key="photograph")]
        ) from reason
    return image
