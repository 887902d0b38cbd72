"""Files are written whole or not at all."""

import os
import resource
from pathlib import Path

import pytest

from panewright.desk import folder
from panewright.errors import FolderError


def test_a_pack_replaces_the_last_one_and_leaves_strangers_alone(tmp_path):
    (tmp_path / "book.pdf").write_bytes(b"old")
    (tmp_path / "holiday.jpg").write_bytes(b"mine")
    folder.write_all(tmp_path, {"book.pdf": b"new", "cuts.csv": b"1"})
    found = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert found == {"book.pdf": b"new", "cuts.csv": b"1", "holiday.jpg": b"mine"}


def test_a_disk_that_fills_up_leaves_the_old_pack_whole(tmp_path, monkeypatch):
    (tmp_path / "book.pdf").write_bytes(b"old")

    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FolderError, match="No space left on device"):
        folder.write_all(tmp_path, {"book.pdf": b"new"})
    assert [path.name for path in tmp_path.iterdir()] == ["book.pdf"]
    assert (tmp_path / "book.pdf").read_bytes() == b"old"


def test_a_file_where_the_folder_should_be_is_told_with_a_cure(tmp_path):
    (tmp_path / "pack").write_bytes(b"a file")
    with pytest.raises(FolderError, match="--to"):
        folder.write_all(tmp_path / "pack", {"book.pdf": b"new"})


def test_a_new_order_never_overwrites(tmp_path):
    mine = tmp_path / "mine.toml"
    mine.write_bytes(b"precious")
    with pytest.raises(FolderError, match="is there already"):
        folder.write_new(mine, b"template")
    assert mine.read_bytes() == b"precious"


@pytest.mark.parametrize("path", [Path("/nowhere/order.toml"), Path("/"), Path("a\0b")])
def test_an_order_that_cannot_be_read_is_told_by_name(path):
    with pytest.raises(FolderError, match="cannot be used"):
        folder.read(path)


def test_a_missing_file_is_asked_for_by_what_it_should_be():
    with pytest.raises(FolderError, match="Name an array file"):
        folder.read(Path("/nowhere/roof.toml"), "array")


def test_a_huge_file_is_refused_before_it_is_read_whole(tmp_path):
    huge = tmp_path / "film.mov"
    huge.write_bytes(b"x" * (folder.MOST_BYTES + 1))
    with pytest.raises(FolderError, match="larger than 1 MB"):
        folder.read(huge)


def test_a_folder_in_the_way_of_a_file_is_told_before_anything_is_written(tmp_path):
    (tmp_path / "cuts.csv").mkdir()
    with pytest.raises(FolderError, match="is a folder"):
        folder.write_all(tmp_path, {"book.pdf": b"new", "cuts.csv": b"1"})
    assert [path.name for path in tmp_path.iterdir()] == ["cuts.csv"]


def test_a_folder_made_in_vain_does_not_stay(tmp_path, monkeypatch):
    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FolderError):
        folder.write_all(tmp_path / "pack", {"book.pdf": b"new"})
    assert list(tmp_path.iterdir()) == []


def test_what_a_pulled_plug_left_is_cleared_after_a_day_and_not_before(tmp_path):
    old, young = tmp_path / ".writing-old", tmp_path / ".writing-young"
    for left in (old, young):
        left.mkdir()
        (left / "book.pdf").write_bytes(b"half")
    os.utime(old, (0, 0))
    folder.write_all(tmp_path, {"book.pdf": b"new"})
    assert sorted(path.name for path in tmp_path.iterdir()) == [".writing-young", "book.pdf"]


def test_a_new_file_that_the_disk_cannot_hold_leaves_nothing_behind(tmp_path):
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))
    try:
        with pytest.raises(FolderError, match="File too large"):
            folder.write_new(tmp_path / "new.toml", b"x" * 5000)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(tmp_path.iterdir()) == []


def test_what_is_no_plain_file_is_not_written_over(tmp_path):
    os.mkfifo(tmp_path / "book.pdf")
    with pytest.raises(FolderError, match="no file to write over"):
        folder.write_all(tmp_path, {"book.pdf": b"new"})
    assert [each.name for each in tmp_path.iterdir()] == ["book.pdf"]
    assert (tmp_path / "book.pdf").is_fifo()
