"""Every kind of leaf becomes a file of its kind, and heavy libraries are loaded only for their own."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from panewright.drawing.listing import Column, Listing
from panewright.pack.leaf import (
    BookLeaf,
    CsvLeaf,
    DxfLeaf,
    RecordLeaf,
    SvgLeaf,
    TemplateLeaf,
    WorkbookLeaf,
)
from panewright.paper import render

PRINT_HASHES = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from conftest import lopsided_drawing, sample_book
from panewright.drawing.listing import Column, Listing
from panewright.pack.leaf import *
from panewright.paper import render

cuts = Listing("cuts", (Column("piece"), Column("n", "", "count")), (("rail", 2),))
leaves = (
    BookLeaf("b", sample_book()),
    TemplateLeaf("t", lopsided_drawing(), "0042", "abc", "A4"),
    DxfLeaf("d", lopsided_drawing(), "metric"),
    WorkbookLeaf("w", (cuts,)),
    CsvLeaf("c", cuts),
    RecordLeaf("r", {"cuts": cuts, "set": {"a", "b", "c"}}),
    SvgLeaf("s", lopsided_drawing()),
)
print([hashlib.sha256(render(leaf)).hexdigest() for leaf in leaves])
"""
LIST = Listing("cuts", (Column("piece"),), (("rail",),))


@pytest.mark.parametrize(
    ("kind", "start"),
    [
        ("book", b"%PDF-"),
        ("template", b"%PDF-"),
        ("dxf", b"  0\nSECTION"),
        ("workbook", b"PK"),
        ("csv", b"piece\r\n"),
        ("record", b"{"),
        ("svg", b"<svg"),
    ],
)
def test_each_leaf_becomes_its_file(kind, start, lopsided, make_book):
    leaves = {
        "book": BookLeaf("b.pdf", make_book()),
        "template": TemplateLeaf("t.pdf", lopsided, "0042", "abc", "A4"),
        "dxf": DxfLeaf("l.dxf", lopsided, "metric"),
        "workbook": WorkbookLeaf("w.xlsx", (LIST,)),
        "csv": CsvLeaf("c.csv", LIST),
        "record": RecordLeaf("d.json", LIST),
        "svg": SvgLeaf("l.svg", lopsided),
    }
    assert render(leaves[kind]).startswith(start)


def test_opening_the_room_loads_no_setter_and_no_workshop_library():
    heavy = "('typst', 'ezdxf', 'xlsxwriter', 'pypdf')"
    asked = f"import sys, panewright.paper; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_another_process_another_seed_and_another_time_zone_give_the_same_bytes():
    said = set()
    for seed, zone in (("0", "UTC"), ("4", "Asia/Tokyo")):
        around = os.environ | {"PYTHONHASHSEED": seed, "TZ": zone}
        asked = [sys.executable, "-c", PRINT_HASHES, str(Path(__file__).parent)]
        done = subprocess.run(asked, capture_output=True, text=True, check=True, env=around)
        said.add(done.stdout)
    assert len(said) == 1
