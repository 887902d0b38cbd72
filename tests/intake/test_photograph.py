"""Photographs: the code in them, and nothing but the picture kept."""

from io import BytesIO

import pytest
import segno
from PIL import Image

from panewright.errors import RecordError
from panewright.intake.photograph import codes, picture


def scene(words, angle=0.0, size=(1600, 1200)):
    """A label with a code, lying turned on a bench."""
    out = BytesIO()
    segno.make(words, error="m", micro=False).save(out, kind="png", scale=9, border=4)
    label = Image.open(out).convert("RGB").rotate(angle, expand=True, fillcolor="#c8b89a", resample=3)
    bench = Image.new("RGB", size, "#c8b89a")
    bench.paste(label, (300, 250))
    shot = BytesIO()
    bench.save(shot, "JPEG", quality=70)
    return shot.getvalue()


@pytest.mark.parametrize("angle", [0, 13, 90, 200])
def test_a_code_is_read_however_the_label_lies(angle):
    assert codes(scene("JL-0042", angle)) == ("JL-0042",)


def test_a_picture_without_a_code_has_none():
    out = BytesIO()
    Image.new("RGB", (400, 300), "white").save(out, "PNG")
    assert codes(out.getvalue()) == ()


def test_a_picture_that_would_unpack_to_too_much_is_refused():
    out = BytesIO()
    Image.new("1", (12_000, 12_000)).save(out, "PNG")
    assert len(out.getvalue()) < 100_000
    for read in (codes, picture):
        with pytest.raises(RecordError):
            read(out.getvalue())


def test_a_kept_picture_stands_upright():
    out, exif = BytesIO(), Image.Exif()
    exif[0x0112] = 6  # the camera was held on its side
    Image.new("RGB", (400, 100), "navy").save(out, "JPEG", exif=exif)
    assert Image.open(BytesIO(picture(out.getvalue()))).size == (100, 400)
