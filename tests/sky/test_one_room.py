"""The sky alone imports pvlib and pandas: they take a second to load, and nobody else has to know them."""

import re
from pathlib import Path

import panewright

SOURCE = Path(panewright.__file__).parent
IMPORTS = re.compile(r"^\s*(?:from|import) (?:pvlib|pandas)\b", re.MULTILINE)


def test_no_other_room_imports_them():
    found = {
        file.relative_to(SOURCE).parts[0]
        for file in SOURCE.rglob("*.py")
        if IMPORTS.search(file.read_text("utf-8"))
    }
    assert found == {"sky"}


def test_the_sky_loads_them_only_when_asked():
    at_once = re.compile(r"^(?:from|import) (?:pvlib|pandas)\b", re.MULTILINE)
    assert [
        file.name for file in (SOURCE / "sky").rglob("*.py") if at_once.search(file.read_text("utf-8"))
    ] == []
