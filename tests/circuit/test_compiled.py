"""Where compiled functions are kept, and that no changed one is answered by an old one."""

from panewright.circuit.solver import compiled, junction


def test_the_cache_is_named_after_the_functions_own_text(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    first = compiled._cache_folder()
    changed = tmp_path / "junction.py"
    changed.write_text("# another text")
    monkeypatch.setattr(junction, "__file__", str(changed))
    assert first.is_dir()
    assert first.parent == compiled._cache_folder().parent == tmp_path / "panewright"
    assert first != compiled._cache_folder()


def test_where_nothing_can_be_kept_a_folder_of_this_run_serves(monkeypatch, tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("in the way")
    monkeypatch.setenv("XDG_CACHE_HOME", str(blocked))
    folder = compiled._cache_folder()
    assert folder.is_dir()
    assert blocked not in folder.parents
