"""Price lists kept in the shop's folder: the oldest make room, a spoilt one is no list."""

from __future__ import annotations

import os
from dataclasses import replace

import pytest

from panewright.desk import price_lists
from panewright.desk.ranges import Failed, Held, Priced
from panewright.errors import RecordError

HELD = Held("4 × 6", "125 mm", "3 mm", "63 W", "1 m", "5 kg", "30 m/s", "parcel", "", ("90", "80"), "1.4")
SEEN = Priced(
    "Sheds", "1 of 2 hold.", "There.", ("Take care.",), ("One", "Each of 5"), (HELD,),
    (Failed("4 × 9", "glass", "Thicker."),), (("catalogue.pdf", b"%PDF"), ("catalogue.csv", b"a,b\n")),
)  # fmt: skip


def test_what_is_kept_comes_back_the_same(tmp_path):
    mark = price_lists.keep(tmp_path, "[range]\n", SEEN)
    found = price_lists.find(tmp_path, mark)
    assert (found.text, found.seen) == ("[range]\n", replace(SEEN, files=()))
    assert price_lists.file(tmp_path, mark, "catalogue.pdf") == b"%PDF"
    assert price_lists.newest(tmp_path) == found


def test_the_same_again_is_one_and_another_is_two(tmp_path):
    marks = [price_lists.keep(tmp_path, text, SEEN) for text in ("a", "a", "b")]
    assert marks[0] == marks[1] != marks[2]
    assert {each.mark for each in price_lists.kept(tmp_path)} == set(marks)


def test_the_oldest_make_room(tmp_path):
    for n in range(price_lists.MOST + 3):
        mark = price_lists.keep(tmp_path, f"range {n}", SEEN)
        os.utime(tmp_path / "catalogues" / f"{mark}.zip", (1000 + n, 1000 + n))
    price_lists.keep(tmp_path, "the last", SEEN)
    texts = [each.text for each in price_lists.kept(tmp_path)]
    assert len(texts) == price_lists.MOST
    assert texts[:2] == ["the last", f"range {price_lists.MOST + 2}"]


def test_large_ones_make_room_but_for_the_last(tmp_path, monkeypatch):
    monkeypatch.setattr(price_lists, "MOST_BYTES", 10)
    for text in ("a", "b"):
        price_lists.keep(tmp_path, text, SEEN)
    assert len(price_lists.kept(tmp_path)) == 1


@pytest.mark.parametrize("mark", ["", "0" * 16, "../shop", "x" * 16])
def test_what_is_not_kept_is_told(tmp_path, mark):
    price_lists.keep(tmp_path, "a", SEEN)
    with pytest.raises(RecordError, match="gone"):
        price_lists.find(tmp_path, mark)


@pytest.mark.parametrize("name", ["catalogue.xlsx", "seen.json", "range.toml", "../a"])
def test_no_other_paper_is_taken_along(tmp_path, name):
    mark = price_lists.keep(tmp_path, "a", SEEN)
    with pytest.raises(RecordError, match="no such paper"):
        price_lists.file(tmp_path, mark, name)


@pytest.mark.parametrize("spoil", [lambda data: data[:-40], lambda _: b"", lambda _: b"PK"])
def test_a_spoilt_one_is_no_list(tmp_path, spoil):
    mark = price_lists.keep(tmp_path, "a", SEEN)
    path = tmp_path / "catalogues" / f"{mark}.zip"
    path.write_bytes(spoil(path.read_bytes()))
    assert price_lists.kept(tmp_path) == ()
    assert price_lists.newest(tmp_path) is None
