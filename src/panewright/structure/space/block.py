"""Runs solved node by node, as loops: for where thousands of frames are asked (space/compiled.py).

What `joining` does with whole matrices is done here from node to node: a run's far end is solved out first,
and node by node what stands beyond it, until only its corner is left. Then the corners, and back again. Every
function is plain enough to be compiled. All matrices are symmetric, and what is struck out is a 1 on the
diagonal.
"""

from __future__ import annotations

from panewright.structure.space.cuts import Whole
from panewright.structure.space.member import Array

N = 6  #: movements of a node
Work = tuple[Array, Array, Array]  #: room for weights of fixed matrices, their sum, a member with its inside
Solving = tuple[Array, Array, Array, Array, Array, Array, Array, Array]


def weighed(stiff: Array, seat: float, length: float, weights: Array) -> None:
    """How much of each fixed matrix a member has, as in `element`; `stiff` are E times both moments of area
    and the mixed one, G J, G times both areas that bear shear, E times the area."""
    cubed = length * length * length
    weights[0], weights[1], weights[2] = stiff[0] * seat / cubed, stiff[1] / cubed, stiff[2] / cubed
    weights[3], weights[4], weights[5] = stiff[3] * seat / length, stiff[4] / length, stiff[5] / length
    weights[6] = stiff[6] / length
    weights[7], weights[8] = weights[6] / length, weights[6] / (length * length)


def summed(weights: Array, shapes: Array, base: Array) -> None:
    """Fixed matrices by their weights."""
    for e in range(base.shape[0]):
        base[e] = weights[0] * shapes[0, e]
    for k in range(1, 9):
        for e in range(base.shape[0]):
            base[e] += weights[k] * shapes[k, e]


def condensed(whole: Array, size: int) -> None:
    """The inner parts of a member solved out; its load is the column beyond the last."""
    for p in range(size - 1, 2 * N - 1, -1):
        for i in range(p):
            share = whole[i, p] / whole[p, p]
            for j in range(p):
                whole[i, j] -= share * whole[p, j]
            whole[i, size] -= share * whole[p, size]


def membered(
    stiff: Array,
    seat: Array,
    place: Array,
    line: tuple[Array, Array],
    loads: Array,
    shapes: Array,
    spring: Array,
    turned: Array,
    rooms: Work,
    count: int,
    stiffness: Array,
    push: Array,
) -> None:
    """So many members of each run once for each spring, as `element.members` makes them.

    `turned` are 1 for turns, else 0.
    """
    weights, base, whole = rooms
    size = turned.shape[0]
    for r in range(place.shape[0]):
        for m in range(count):
            length = place[r, m + 1] - place[r, m]
            weighed(stiff, seat[r, m], length, weights)
            summed(weights, shapes, base)
            for s in range(spring.shape[0]):
                for i in range(size):
                    here = length if turned[i] else 1.0
                    bears = line[0][r, m] * loads[0, i] + line[1][r, m] * loads[1, i]
                    whole[i, size] = -length * bears * here
                    for j in range(size):
                        held = spring[s] * length * shapes[9, size * i + j]
                        whole[i, j] = (base[size * i + j] + held) * here * (length if turned[j] else 1.0)
                condensed(whole, size)
                for i in range(2 * N):
                    push[s, r, m, i] = whole[i, size]
                    for j in range(2 * N):
                        stiffness[s, r, m, i, j] = whole[i, j]


def parted(a: Array, size: int) -> None:
    """A symmetric matrix replaced by D, on its diagonal, and L, below it, of L D L'.

    D may be less than nothing, as what a bolt gives may be.
    """
    for j in range(size):
        for k in range(j):
            a[j, j] -= a[j, k] * a[j, k] * a[k, k]
        for i in range(j + 1, size):
            found = a[i, j]
            for k in range(j):
                found -= a[i, k] * a[j, k] * a[k, k]
            a[i, j] = found / a[j, j]


def answered(parts: Array, right: Array, size: int, columns: int) -> None:
    """Right sides replaced by what answers them."""
    for i in range(1, size):
        for k in range(i):
            for c in range(columns):
                right[i, c] -= parts[i, k] * right[k, c]
    for i in range(size):
        for c in range(columns):
            right[i, c] /= parts[i, i]
    for i in range(size - 2, -1, -1):
        for k in range(i + 1, size):
            for c in range(columns):
                right[i, c] -= parts[k, i] * right[k, c]


def moved_by_bolt(block: Array, bolt: Array, rows: bool) -> None:
    """Rows, or columns, of a node seen by the movement of its bolt's line."""
    inward, up = bolt[0], bolt[1]
    for i in range(N):
        if rows:
            block[4, i] -= up * block[0, i]
            block[5, i] += inward * block[0, i]
            block[3, i] += up * block[1, i] - inward * block[2, i]
        else:
            block[i, 4] -= up * block[i, 0]
            block[i, 5] += inward * block[i, 0]
            block[i, 3] += up * block[i, 1] - inward * block[i, 2]


def joined(
    stiffness: Array, push: Array, points: Array, lever: float, blocks: tuple[Array, Array, Array]
) -> None:
    """Members of a run joined at its nodes: blocks of each node, of each with the next, and loads.

    `points` are forces that press at nodes, with a lever about the rail's line.
    """
    own, beside, load = blocks
    nodes = load.shape[0]
    for n in range(nodes):
        for i in range(N):
            load[n, i] = 0.0
            for j in range(N):
                own[n, i, j] = 0.0
        load[n, 2], load[n, 3] = -points[n], -points[n] * lever
    for m in range(nodes - 1):
        for i in range(N):
            load[m, i] += push[m, i]
            load[m + 1, i] += push[m, N + i]
            for j in range(N):
                own[m, i, j] += stiffness[m, i, j]
                own[m + 1, i, j] += stiffness[m, N + i, N + j]
                beside[m, i, j] = stiffness[m, i, N + j]


def chained(
    stiffness: Array,
    push: Array,
    points: tuple[Array, float],
    held: Array,
    alone: Array,
    gives: Array,
    along: bool,
    bolt: Array,
    blocks: tuple[Array, Array, Array],
) -> None:
    """Blocks of a run, as `joined` has them, by the movements its nodes are solved by.

    With brackets that hold `along` the rail or do not; what may move else, as in `holds`.
    """
    joined(stiffness, push, points[0], points[1], blocks)
    own, beside, load = blocks
    nodes = load.shape[0]
    for n in range(nodes):
        if held[n]:
            moved_by_bolt(own[n], bolt, True)
            moved_by_bolt(own[n], bolt, False)
            if n < nodes - 1:
                moved_by_bolt(beside[n], bolt, True)
            if n > 0:
                moved_by_bolt(beside[n - 1], bolt, False)
            load[n, 4] -= bolt[1] * load[n, 0]
            load[n, 5] += bolt[0] * load[n, 0]
            load[n, 3] += bolt[1] * load[n, 1] - bolt[0] * load[n, 2]
        for i in range(N):
            give = gives[i - 1] if i == 1 or i == 2 else 0.0
            bends = give != 0.0 and alone[n]
            if bends:
                own[n, i, i] += (0.5 if n == nodes - 1 else 1.0) / give
            stopped = held[n] and ((i == 0 and along) or ((i == 1 or i == 2) and not bends))
            if stopped or (n == nodes - 1 and (i == 0 or i > 3)):
                load[n, i] = 0.0
                for j in range(N):
                    own[n, i, j] = own[n, j, i] = 0.0
                    if n < nodes - 1:
                        beside[n, i, j] = 0.0
                    if n > 0:
                        beside[n - 1, j, i] = 0.0
                own[n, i, i] = 1.0


def solved_out(own: Array, beside: Array, load: Array, back: Array) -> None:
    """From the last node to the corner: what is left in `own[0]` and `load[0]` is the corner's alone.

    `back[n]` then tells node n + 1: its first six columns by the movement of node n, the last by the load.
    """
    nodes = load.shape[0]
    for n in range(nodes - 1, 0, -1):
        parted(own[n], N)
        right = back[n - 1]
        for i in range(N):
            for j in range(N):
                right[i, j] = beside[n - 1, j, i]
            right[i, N] = load[n, i]
        answered(own[n], right, N, N + 1)
        for i in range(N):
            for j in range(N + 1):
                found = 0.0
                for k in range(N):
                    found += beside[n - 1, i, k] * right[k, j]
                if j < N:
                    own[n - 1, i, j] -= found
                else:
                    load[n - 1, i] -= found


def walked_back(back: Array, held: Array, bolt: Array, moved: Array) -> None:
    """From the corner's movement, in `moved[0]`, to every node's; then seen at the shear centre."""
    nodes = moved.shape[0]
    for n in range(1, nodes):
        for i in range(N):
            found = back[n - 1, i, N]
            for j in range(N):
                found -= back[n - 1, i, j] * moved[n - 1, j]
            moved[n, i] = found
    for n in range(nodes):
        if held[n]:
            moved[n, 0] += bolt[0] * moved[n, 5] - bolt[1] * moved[n, 4]
            moved[n, 1] += bolt[1] * moved[n, 3]
            moved[n, 2] -= bolt[0] * moved[n, 3]


def at_ends(stiffness: Array, push: Array, moved: Array, ends: Array) -> None:
    """Forces on both ends of each member."""
    for m in range(ends.shape[0]):
        for i in range(2 * N):
            found = -push[m, i]
            for j in range(N):
                found += stiffness[m, i, j] * moved[m, j] + stiffness[m, i, N + j] * moved[m + 1, j]
            ends[m, i] = found


def cornered(left: Array, load: Array, maps: Array, turn: float, moved: Array, room: Array) -> None:
    """Movements of the ends of two runs that meet in a corner; `room` is 7 by 8."""
    size = N + 1
    room[:] = 0.0
    room[N, N] = turn
    for r in range(2):
        for a in range(size):
            for i in range(N):
                if maps[r, i, a] == 0.0:
                    continue
                room[a, size] += maps[r, i, a] * load[r, i]
                for b in range(size):
                    for j in range(N):
                        room[a, b] += maps[r, i, a] * left[r, i, j] * maps[r, j, b]
    parted(room[:, :size], size)
    answered(room[:, :size], room[:, size:], size, 1)
    for r in range(2):
        for i in range(N):
            found = 0.0
            for a in range(size):
                found += maps[r, i, a] * room[a, size]
            moved[r, i] = found


def copied(to: Array, to_load: Array, left: Array, load: Array) -> None:
    """A corner's stiffness and load kept."""
    for i in range(N):
        to_load[i] = load[i]
        for j in range(N):
            to[i, j] = left[i, j]


def stood(
    parts: tuple[Array, Array],
    points: tuple[Array, float],
    held: Array,
    alone: Array,
    bolts: tuple[Array, Array],
    ways: tuple[Array, Array, Array],
    runs: Whole,
    maps: Array,
    rooms: Solving,
    count: int,
    moved: Array,
    ends: Array,
) -> None:
    """Every frame in every condition; axes as in `ring.Stood`, but runs of all frames one after the other.

    Runs have so many members. `points` are forces at nodes and their lever, `bolts` where bolts lie and what
    they give, `ways` the spring, the corner's stiffness and the hold along the rail of each condition.
    `rooms` are for the blocks of one run, what tells the way back for each spring, hold and run, their
    corners, whether they are known, and one corner.
    """
    stiffness, push = parts
    bolt, gives = bolts
    spring_of, turn, along = ways
    own, beside, load, back, left, pushed, known, corner = rooms
    blocks = own, beside, load[: count + 1]
    known[:] = 0.0
    for w in range(len(turn)):
        s, a = spring_of[w], 1 if along[w] else 0
        for f in range(len(runs) // 2):
            for side in range(2):
                r = runs[2 * f + side]
                if known[s, a, r] == 0.0:
                    known[s, a, r] = 1.0
                    run, pressed = (stiffness[s, r], push[s, r]), (points[0][r], points[1])
                    chained(*run, pressed, held[r], alone[r], gives, a == 1, bolt, blocks)
                    solved_out(own, beside, blocks[2], back[s, a, r])
                    copied(left[s, a, r], pushed[s, a, r], own[0], load[0])
                copied(corner[side], corner[2, side], left[s, a, r], pushed[s, a, r])
            cornered(corner[:2], corner[2], maps, turn[w], moved[w, 2 * f : 2 * f + 2, 0], corner[3])
            for side in range(2):
                r, at = runs[2 * f + side], 2 * f + side
                walked_back(back[s, a, r], held[r], bolt, moved[w, at, : count + 1])
                at_ends(stiffness[s, r], push[s, r], moved[w, at], ends[w, at, :count])
