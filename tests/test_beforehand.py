"""Figures kept beside the code come back, and a spoilt file is named."""

from __future__ import annotations

import numpy as np
import pytest

from panewright.beforehand import read_nearly, read_steps, write_nearly, write_steps

FIGURES = np.array([[[1.0, -200.0], [0.5, 3e-8]], [[-0.25, 0.0], [1e-10, -1.0]]])


def test_whole_steps_come_back_to_half_a_step(tmp_path):
    write_steps(tmp_path / "one.npz", FIGURES, np.array([1.0, 200.0]))
    assert np.abs(read_steps(tmp_path / "one.npz") - FIGURES).max() <= 2e-8


def test_what_is_known_nearly_comes_back_to_seven_digits(tmp_path):
    write_nearly(tmp_path / "one.npy", FIGURES)
    assert read_nearly(tmp_path / "one.npy") == pytest.approx(FIGURES, rel=1e-7)


@pytest.mark.parametrize(("read", "name"), [(read_steps, "one.npz"), (read_nearly, "one.npy")])
def test_a_spoilt_file_is_named_with_the_cure(tmp_path, read, name):
    write_steps(tmp_path / "one.npz", FIGURES, np.array([1.0, 200.0]))
    write_nearly(tmp_path / "one.npy", FIGURES)
    whole = (tmp_path / name).read_bytes()
    for kept in (b"", whole[: len(whole) // 2], b"no such figures", None):
        (tmp_path / name).unlink() if kept is None else (tmp_path / name).write_bytes(kept)
        with pytest.raises(RuntimeError, match=rf"{name} belongs to the program .*install it again"):
            read(tmp_path / name)
