"""A pack over an earlier one: old leaves go, a stranger's files stay and are never written over."""

import json
import os
from pathlib import Path

import pytest

from panewright import desk
from panewright.desk import folder
from panewright.desk.packed import earlier, gone, record_first, refuse_others
from panewright.errors import FolderError

EXAMPLES = Path(__file__).parents[2] / "examples"


def lay(room, files):
    content = {name: name.encode() for name in files}
    content["design.json"] = json.dumps({"leaves": [*files, "design.json"]}).encode()
    refuse_others(room, content)
    folder.write_all(room, record_first(content), gone(room, content))


def test_leaves_that_the_new_pack_has_not_are_taken_away(tmp_path):
    lay(tmp_path, ["book.pdf", "clip.dxf"])
    (tmp_path / "holiday.jpg").write_bytes(b"mine")
    lay(tmp_path, ["book.pdf", "frame.dxf"])
    assert {path.name for path in tmp_path.iterdir()} == {
        "book.pdf",
        "frame.dxf",
        "design.json",
        "holiday.jpg",
    }


def test_a_makers_own_file_of_that_name_is_not_written_over(tmp_path):
    (tmp_path / "book.pdf").write_bytes(b"mine")
    with pytest.raises(FolderError, match=r"holds book\.pdf, of no pack .* nothing was changed"):
        lay(tmp_path, ["book.pdf"])
    assert [path.name for path in tmp_path.iterdir()] == ["book.pdf"]
    assert (tmp_path / "book.pdf").read_bytes() == b"mine"


@pytest.mark.parametrize("told", [b"", b"[]", b'{"leaves": 3}', b"\xff"])
def test_a_record_that_is_none_tells_of_no_pack(tmp_path, told):
    (tmp_path / "design.json").write_bytes(told)
    assert earlier(tmp_path) is None


def test_no_record_reaches_out_of_its_folder(tmp_path):
    (tmp_path / "design.json").write_bytes(b'{"leaves": ["../away.txt", "a/b", "book.pdf", 3]}')
    assert earlier(tmp_path) == {"book.pdf"}


def test_a_plug_pulled_between_two_files_leaves_a_folder_that_the_next_pack_knows(tmp_path, monkeypatch):
    moved, replace = [], os.replace
    monkeypatch.setattr("pathlib.Path.replace", lambda path, to: _pulled(moved, replace, path, to))
    with pytest.raises(KeyboardInterrupt):
        lay(tmp_path, ["book.pdf", "clip.dxf"])
    monkeypatch.undo()
    assert {path.name for path in tmp_path.iterdir()} == {"design.json", "book.pdf"}
    lay(tmp_path, ["book.pdf"])
    assert {path.name for path in tmp_path.iterdir()} == {"design.json", "book.pdf"}


def _pulled(moved, replace, path, to):
    if len(moved) == 2:
        raise KeyboardInterrupt
    moved.append(to)
    replace(path, to)


def test_the_record_of_a_pack_names_every_file_of_it(tmp_path):
    made = desk.design((EXAMPLES / "frost-sensor.toml").read_bytes(), "frost-sensor.toml")
    names = desk.write_pack(made, tmp_path)
    assert earlier(tmp_path) == set(names) == {path.name for path in tmp_path.iterdir()}
