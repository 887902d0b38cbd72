"""Bytes become letters: UTF-8, UTF-16, or the Windows letters of Western Europe.

A file may have lines of both habits, pasted together out of two programs. Each line then counts by itself,
and the person is told which. Bytes that no text has are refused with the row they stand in.
"""

from __future__ import annotations

import codecs
import re

from panewright.intake.bounds import MOST_BYTES
from panewright.intake.grid import refuse

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_NO_TEXT = re.compile("[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f\ufffe\uffff]")
_TYPE_IT = "Type the figures into a table; a picture of one cannot be read."
_SAVE_IT = "Save the table itself as CSV or XLSX."
_STARTS = (
    (b"%PDF", "a PDF", "Ask for the table itself, or copy it into a spreadsheet and save that as CSV."),
    (b"\xd0\xcf\x11\xe0", "a workbook of the old kind (XLS)", "Open it and save it as XLSX."),
    (b"PK\x03\x04", "a packed file", "Unpack it first, or send the workbook as XLSX."),
    (b"\x1f\x8b", "a packed file", "Unpack it first."),
    (b"\x89PNG", "a picture", _TYPE_IT),
    (b"\xff\xd8\xff", "a picture", _TYPE_IT),
    (b"{\\rtf", "a text with pages (RTF)", _SAVE_IT),
    (b"<!DOC", "a page of the web", _SAVE_IT),
    (b"<html", "a page of the web", _SAVE_IT),
    (b"<?xml", "an XML file", _SAVE_IT),
)


def as_text(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """The file's letters, and what was settled on the way.

    >>> as_text("Zelle;Überlänge".encode("cp1252"), "lot.csv")
    ('Zelle;Überlänge', ('The letters are of Windows-1252.',))
    """
    _refuse_other_kinds(data, name)
    text, notes = _decoded(data, name)
    if not text.strip():
        raise refuse(name, "The file is empty.", "Save the table again; a header and a row are the least.")
    if found := _NO_TEXT.search(text):
        row = text.count("\n", 0, found.start()) + 1
        reason = f"There is a byte in it that no text has (number {ord(found.group())})."
        raise refuse(
            name, reason, "Save the table again as CSV in UTF-8.", line=row, value=ascii(found.group())
        )
    return text, notes


def _refuse_other_kinds(data: bytes, name: str) -> None:
    if len(data) > MOST_BYTES:
        reason = f"The file has {len(data) / 1e6:.0f} MB; at most {MOST_BYTES / 1e6:.0f} MB are read."
        raise refuse(name, reason, "Split the table into files of fewer rows.")
    for start, kind, cure in _STARTS:
        if data.lstrip()[: len(start)].lower() == start.lower():
            raise refuse(name, f"This is {kind}, not a table, whatever its name says.", cure)


def _decoded(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _as(data[len(mark) :], encoding, name), ()
    if guessed := _without_mark(data):
        return _as(data, guessed, name), (f"The letters are of {guessed.upper()}.",)
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError:
        return _by_lines(data)


def _as(data: bytes, encoding: str, name: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as broken:
        row = data[: broken.start].decode(encoding, "replace").count("\n") + 1
        reason = f"It begins as {encoding.upper()}, but its bytes are none from here on."
        raise refuse(name, reason, "Save the table again as CSV in UTF-8.", line=row) from broken


def _without_mark(data: bytes) -> str:
    """UTF-16 shows by a zero in every other byte of plain words."""
    head = data[:4000]
    half = len(head) // 2
    if half and head[1::2].count(0) > 0.6 * half and not head[::2].count(0):
        return "utf-16-le"
    if half and head[::2].count(0) > 0.6 * half and not head[1::2].count(0):
        return "utf-16-be"
    return ""


def _by_lines(data: bytes) -> tuple[str, tuple[str, ...]]:
    """Each line by itself: UTF-8 where it can be, else Windows-1252."""
    lines, windows, wide = [], [], 0
    for number, line in enumerate(data.split(b"\n"), start=1):
        try:
            lines.append(line.decode("utf-8"))
            wide += not line.isascii()
        except UnicodeDecodeError:
            lines.append(line.decode("cp1252", "replace").replace("\ufffd", "?"))
            windows.append(number)
    if not wide:
        return "\n".join(lines), ("The letters are of Windows-1252.",)
    shown = ", ".join(map(str, windows[:10])) + (" and more" if len(windows) > 10 else "")
    mixed = f"The letters are mixed: UTF-8, but Windows-1252 in rows {shown}. Each row was read by its own."
    return "\n".join(lines), (mixed,)
