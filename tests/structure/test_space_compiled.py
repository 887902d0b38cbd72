"""Frames solved node by node stand as those solved by whole matrices."""

from contextlib import contextmanager
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.rails.edge_load import split_at_45
from panewright.structure.space import compiled
from panewright.structure.space.conditions import conditions
from panewright.structure.space.figures import figures, sag_mm
from panewright.structure.space.mesh import Rail as CutRail
from panewright.structure.space.mesh import mesh
from panewright.structure.space.ring import stand_quarters
from panewright.structure.space.space_frame import frame_build, frame_runs, outer_mm

SHEET = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
WAYS = conditions("mitred", BEAD)
profiles, joints = st.sampled_from(["angle", "channel", "tube"]), st.sampled_from(["mitred", "welded"])


def frame(profile, size, count, share, joint="mitred"):
    """Halves of a long and a short rail on so many brackets."""
    (seat, long), pane = size, Pane(size[1], 0.7 * size[1], SHEET)
    rail = Rail("any", profile, seat, 1.2 * seat, 0.08 * seat, "6063-T6", 6000)
    outer = outer_mm(long, rail, BEAD)
    held = tuple(np.linspace(share * outer, (1 - share) * outer, count).tolist())
    build = frame_build(rail, pane, BEAD, "EN", joint)
    runs = frame_runs(rail, pane, BEAD, (held, ()), split_at_45(pane, 1000.0))
    return build, (runs[0].half(), runs[1].half())


WRITTEN = {name: getattr(module, name) for name, module in compiled.ENTRIES.items()}


@contextmanager
def loaded(loops):
    """As if the loops were loaded."""
    with pytest.MonkeyPatch.context() as here:
        here.setattr(compiled, "_here", loops)
        yield


def stood_by(loops, build, frames):
    """The frames by the loops."""
    with loaded(loops):
        return stand_quarters(build, frames, WAYS)


@settings(max_examples=40, deadline=None)
@given(profiles, st.tuples(st.floats(20, 60), st.floats(300, 2500)), st.integers(1, 6), joints)
def test_rails_are_cut_by_loops_as_they_are_by_lists(profile, size, count, joint):
    build, runs = frame(profile, size, count, 0.11, joint)
    rail = CutRail(build.stiff_mm, 2 * max(map(abs, build.bolt_mm)), whole=False)
    with loaded(WRITTEN):
        ours = compiled.mesh_by_loops(runs, rail)
    lists = mesh(runs, rail)
    for name in ("place_mm", "points_n", "held", "alone", "seat"):
        assert getattr(ours, name).tolist() == getattr(lists, name).tolist(), name
    for here, there in zip(ours.line_n_mm, lists.line_n_mm, strict=True):
        assert here.tolist() == there.tolist()


def assert_alike(one, other):
    """To the digits that a chain of short members leaves."""
    for way in range(len(WAYS)):
        for figure in range(6):
            here, there = one.moved[way][..., figure], other.moved[way][..., figure]
            assert here == pytest.approx(there, rel=1e-6, abs=1e-7 * np.abs(there).max())
    assert one.ends == pytest.approx(other.ends, rel=1e-5, abs=1e-6 * np.abs(other.ends).max())


@settings(max_examples=12, deadline=None)
@given(
    profiles,
    st.tuples(st.floats(25, 60), st.floats(500, 2000)),
    st.integers(2, 4),
    st.floats(0.1, 0.3),
    joints,
)
def test_loops_as_written_give_the_frame_of_whole_matrices(profile, size, count, share, joint):
    build, halves = frame(profile, size, count, share, joint)
    assert_alike(stood_by(WRITTEN, build, (halves,)), stand_quarters(build, (halves,), WAYS))


def test_compiled_loops_give_the_figures_of_those_written():
    build, halves = frame("angle", (38.0, 1300.0), 3, 0.17)
    frames = halves, frame("angle", (38.0, 1300.0), 3, 0.2)[1]
    assert_alike(stood_by(compiled.compiled(), build, frames), stood_by(WRITTEN, build, frames))


@pytest.mark.parametrize("loops", [WRITTEN, compiled.compiled], ids=["as written", "compiled"])
@pytest.mark.parametrize("profile", ["angle", "channel", "tube"])
def test_loops_read_the_figures_of_whole_tables(loops, profile):
    build, halves = frame(profile, (42.0, 1400.0), 3, 0.2)
    stood = stand_quarters(build, (halves, halves), WAYS)
    told = figures(build, stood, halves, whole=False)
    with loaded(loops if isinstance(loops, dict) else loops()):
        read = figures(build, stood, halves, whole=False)
        sag = sag_mm(build, stood, halves, whole=False)
    for each in fields(told):
        assert getattr(read, each.name) == pytest.approx(getattr(told, each.name), rel=1e-12)
    assert sag == pytest.approx(told.sag_mm, rel=1e-12)


def test_nothing_is_compiled_before_it_is_asked_for():
    assert not compiled.loaded()


@pytest.mark.parametrize("way", ["as written", "compiled"])
@pytest.mark.parametrize("load", [float("nan"), float("inf")])
def test_a_frame_of_nonsense_is_refused_with_the_run_it_stands_in(way, load):
    loops = {} if way == "as written" else compiled.compiled()
    build, (long, short) = frame("angle", (30.0, 900.0), 2, 0.2)
    middle = len(short.load) // 2
    spoilt = replace(
        short, load=(*short.load[:middle], (short.load[middle][0], load), *short.load[middle + 1 :])
    )
    said = rf"no finite answer: {short.length_mm:g} mm of rail .* {load:g} N/mm"
    with pytest.raises(ValueError, match=said), np.errstate(invalid="ignore"):
        stood_by(loops, build, ((long, spoilt),))
