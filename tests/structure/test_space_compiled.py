"""Frames solved node by node stand as those solved by whole matrices."""

from contextlib import contextmanager
from dataclasses import astuple, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.rails.edge_load import split_at_45
from panewright.structure.space import compiled, cuts, worst
from panewright.structure.space.conditions import conditions
from panewright.structure.space.figures import sag_mm
from panewright.structure.space.mesh import Rail as CutRail
from panewright.structure.space.mesh import mesh
from panewright.structure.space.ring import stand_quarters
from panewright.structure.space.space_frame import _on_each, frame_build, frame_runs, outer_mm

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


WRITTEN = {"worst": worst.worst}


@contextmanager
def loaded(loops):
    """As if the loops were loaded."""
    with pytest.MonkeyPatch.context() as here:
        here.setattr(compiled, "_here", loops)
        yield


def read_by(loops, build, frames):
    """The frames by the loops."""
    with loaded(loops):
        return compiled.read_by_loops(build, frames, WAYS)


@settings(max_examples=40, deadline=None)
@given(profiles, st.tuples(st.floats(20, 60), st.floats(300, 2500)), st.integers(1, 6), joints)
def test_rails_are_cut_by_loops_as_they_are_by_lists(profile, size, count, joint):
    build, runs = frame(profile, size, count, 0.11, joint)
    lists = mesh(runs, CutRail(build.stiff_mm, 2 * max(map(abs, build.bolt_mm)), whole=False))
    net = compiled.net_for(runs)
    members = cuts.cut(*compiled.told_of(runs, build), *net)
    assert members == lists.seat.shape[1]
    _, place, line, *rows = net
    assert place[:, : members + 1].tolist() == lists.place_mm.tolist()
    for name, row in zip(("points_n", "held", "alone", "seat"), rows, strict=True):
        there = getattr(lists, name)
        assert row[:, : there.shape[1]].tolist() == there.tolist(), name
    for here, there in zip(line, lists.line_n_mm, strict=True):
        assert here[:, :members].tolist() == there.tolist()


def assert_alike(read, stood):
    """To the digits that a chain of short members leaves."""
    ends = stood.ends.reshape(len(WAYS), -1, *stood.ends.shape[3:])
    moved = stood.moved.reshape(len(WAYS), -1, *stood.moved.shape[3:])
    assert read.members == ends.shape[2]
    for way in range(len(WAYS)):
        for figure in range(6):
            here, there = read.moved[way, :, : read.members + 1, figure], moved[way, ..., figure]
            assert here == pytest.approx(there, rel=1e-6, abs=1e-7 * np.abs(there).max())
    assert read.ends[:, :, : read.members] == pytest.approx(ends, rel=1e-5, abs=1e-6 * np.abs(ends).max())


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
    assert_alike(read_by(WRITTEN, build, (halves,)), stand_quarters(build, (halves,), WAYS))


def test_compiled_loops_give_the_figures_of_those_written():
    build, halves = frame("angle", (38.0, 1300.0), 3, 0.17)
    frames = halves, frame("angle", (38.0, 1300.0), 3, 0.2)[1]
    ours, theirs = read_by(compiled.compiled(), build, frames), read_by(WRITTEN, build, frames)
    assert ours.told == pytest.approx(theirs.told, rel=1e-6)
    assert ours.members == theirs.members


def bounds(frame):
    """All figures of both sides."""
    return [number for side in astuple(frame) for each in side for number in flat(each)]


def flat(each):
    return [each] if isinstance(each, float) else [number for one in each for number in flat(one)]


@pytest.mark.parametrize("loops", [WRITTEN, compiled.compiled], ids=["as written", "compiled"])
@pytest.mark.parametrize(("profile", "count"), [("angle", 3), ("channel", 2), ("tube", 4)])
def test_loops_read_the_figures_of_whole_tables(loops, profile, count):
    rail, pane = Rail("any", profile, 42.0, 50.0, 3.4, "6063-T6", 6000), Pane(1400.0, 980.0, SHEET)
    outer = outer_mm(pane.long_mm, rail, BEAD)
    sets = tuple(
        tuple(np.linspace(share * outer, (1 - share) * outer, count).tolist()) for share in (0.15, 0.22)
    )
    tables = _on_each.__wrapped__(rail, pane, BEAD, sets, ("EN", "mitred", split_at_45(pane, 1.0)))
    with loaded(loops if isinstance(loops, dict) else loops()):
        read = _on_each.__wrapped__(rail, pane, BEAD, sets, ("EN", "mitred", split_at_45(pane, 1.0)))
    for here, there in zip(read, tables, strict=True):
        assert bounds(here) == pytest.approx(bounds(there), rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("loops", [WRITTEN, compiled.compiled], ids=["as written", "compiled"])
def test_the_sag_alone_is_that_of_all_figures(loops):
    build, halves = frame("angle", (42.0, 1400.0), 3, 0.2)
    with loaded(loops if isinstance(loops, dict) else loops()):
        whole = compiled.read_by_loops(build, (halves, halves), WAYS)
        alone = compiled.read_by_loops(build, (halves, halves), WAYS, sag_only=True)
    assert alone.sag_mm.tolist() == whole.sag_mm.tolist()
    stood = stand_quarters(build, (halves, halves), WAYS)
    sags = sag_mm(build, stood, halves, whole=False).max(axis=0)
    assert alone.sag_mm == pytest.approx(sags, rel=1e-6)


def test_nothing_is_compiled_before_it_is_asked_for():
    assert not compiled.loaded()


def stood_by_matrices(build, frames):
    return stand_quarters(build, frames, WAYS)


def read_as_written(build, frames):
    return read_by(WRITTEN, build, frames)


def read_compiled(build, frames):
    return read_by(compiled.compiled(), build, frames)


@pytest.mark.parametrize("way", [stood_by_matrices, read_as_written, read_compiled])
@pytest.mark.parametrize("load", [float("nan"), float("inf")])
def test_a_frame_of_nonsense_is_refused_with_the_run_it_stands_in(way, load):
    build, (long, short) = frame("angle", (30.0, 900.0), 2, 0.2)
    middle = len(short.load) // 2
    spoilt = replace(
        short, load=(*short.load[:middle], (short.load[middle][0], load), *short.load[middle + 1 :])
    )
    said = rf"no finite answer: {short.length_mm:g} mm of rail .* {load:g} N/mm"
    with pytest.raises(ValueError, match=said), np.errstate(invalid="ignore"):
        way(build, ((long, spoilt),))
