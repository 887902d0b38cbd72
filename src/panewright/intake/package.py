"""A workbook's package of files, unpacked within bounds: no file however packed can fill the machine.

What a package says of its own sizes is not believed; the letters that come out are counted.
"""

from __future__ import annotations

import zipfile
import zlib
from io import BytesIO

from panewright.intake.bounds import MOST_BYTES, MOST_MEMBERS
from panewright.intake.grid import refuse

_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OSError)
_AGAIN = "Open it in a spreadsheet program and save it again as XLSX, without a password."


class Package:
    """The files of a workbook, read one after another until the bound is reached."""

    def __init__(self, data: bytes, name: str) -> None:
        self.name = name
        self._left = MOST_BYTES
        try:
            self._zip = zipfile.ZipFile(BytesIO(data))
            self.members = frozenset(self._zip.namelist())
        except _BROKEN as broken:
            raise refuse(name, f"The workbook is broken ({broken}).", _AGAIN) from broken
        if len(self.members) > MOST_MEMBERS:
            reason = f"The package holds {len(self.members)} files; a workbook has at most {MOST_MEMBERS}."
            raise refuse(name, reason, _AGAIN)

    def read(self, member: str) -> bytes:
        """One file's bytes; b'' where it is not there."""
        if member not in self.members:
            return b""
        try:
            with self._zip.open(member) as source:
                content = source.read(self._left + 1)
        except _BROKEN as broken:
            raise refuse(self.name, f"{member} in the workbook is broken ({broken}).", _AGAIN) from broken
        self._left -= len(content)
        if self._left < 0:
            reason = f"Unpacked it is more than {MOST_BYTES / 1e6:.0f} MB."
            raise refuse(
                self.name, reason, "Keep only the table of cells, or split the lot into several files."
            )
        return content
