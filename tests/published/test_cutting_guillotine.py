"""Sheets of the literature with known best values, by cuts from edge to edge, no panel turned.

OF1, OF2: J. F. Oliveira, J. S. Ferreira, An improved version of Wang's algorithm for two-dimensional cutting
problems, EJOR 44 (1990) 256; sizes and values seen in a public copy (datasets of two-dimensional cutting,
classic instances), best values 2737 and 2690 recalled.
CW2: N. Christofides, C. Whitlock, An algorithm for two-dimensional cutting problems, Operations Research 25
(1977) 30, second problem (OR-Library cgcut2); sizes and values seen in the same copy, best value 2892 seen in
a public list of best values for the OR-Library's three files.
W1: P. Y. Wang, Two algorithms for constrained two-dimensional cutting stock problems, Operations Research 31
(1983) 573; sizes seen in the same copy, best value recalled as area 33 x 69 = 2277, no waste.
CU1: D. Fayard, M. Hifi, V. Zissimopoulos, An efficient approach for large-scale two-dimensional guillotine
cutting stock problems, JORS 49 (1998) 1270; sizes seen in the same copy, best value 12330 recalled.
GCUT1: J. E. Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, JORS 36 (1985) 297,
first problem, of each size as many as one likes; sizes seen in a public copy of the OR-Library's file, best
value 56460 recalled.
"""

from __future__ import annotations

import pytest

from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheets import fill_sheet

Row = tuple[int, int, int, int]  # width, height, how many at most, worth

OF1 = (
    (29, 5, 1, 145), (9, 39, 4, 351), (55, 9, 1, 495), (31, 15, 1, 465), (11, 16, 2, 176),
    (23, 21, 3, 483), (29, 14, 4, 406), (16, 19, 3, 304), (9, 36, 2, 324), (22, 4, 2, 88),
)  # fmt: skip
OF2 = (
    (22, 18, 2, 396), (40, 10, 1, 400), (13, 27, 3, 351), (23, 18, 2, 414), (29, 8, 4, 232),
    (16, 4, 1, 64), (47, 9, 1, 423), (19, 19, 4, 361), (13, 16, 2, 208), (36, 16, 4, 576),
)  # fmt: skip
CW2 = (
    (21, 22, 1, 582), (31, 13, 1, 403), (9, 35, 3, 315), (9, 24, 3, 216), (30, 7, 2, 210),
    (11, 13, 3, 143), (10, 14, 1, 140), (14, 8, 3, 110), (12, 8, 3, 94), (13, 7, 3, 90),
)  # fmt: skip
W1 = tuple(
    (w, h, n, w * h)
    for w, h, n in (
        (31, 43, 1), (30, 41, 1), (29, 39, 1), (28, 38, 1), (27, 37, 1), (26, 36, 1), (25, 35, 2),
        (24, 34, 2), (33, 23, 3), (32, 22, 2), (31, 21, 3), (29, 18, 3), (17, 27, 2), (16, 25, 4),
        (15, 24, 3), (23, 14, 4), (21, 12, 3), (19, 11, 4), (9, 17, 1),
    )
)  # fmt: skip
CU1 = tuple(
    (w, h, n, w * h)
    for w, h, n in (
        (23, 44, 6), (20, 56, 9), (24, 41, 6), (38, 57, 3), (23, 57, 4), (58, 49, 1), (51, 79, 1),
        (43, 35, 3), (39, 68, 2), (21, 65, 2), (24, 80, 3), (50, 61, 3), (45, 59, 2), (42, 69, 1),
        (54, 68, 1), (29, 75, 3), (24, 39, 7), (22, 42, 2), (56, 53, 1), (24, 49, 1), (20, 66, 5),
        (45, 53, 4), (23, 50, 8), (34, 75, 1), (38, 28, 3),
    )
)  # fmt: skip
GCUT1 = tuple(
    (w, h, (250 // w) * (250 // h), w * h)
    for w, h in (
        (167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148),
        (87, 141), (69, 165),
    )
)  # fmt: skip
KNOWN = (
    ("OF1", (70, 40), OF1, 2737),
    ("OF2", (70, 40), OF2, 2690),
    ("CW2", (40, 70), CW2, 2892),
    ("W1", (33, 69), W1, 2277),
    ("CU1", (100, 125), CU1, 12330),
    ("GCUT1", (250, 250), GCUT1, 56460),
)


@pytest.mark.parametrize(("name", "size", "rows", "best"), KNOWN, ids=[known[0] for known in KNOWN])
def test_the_best_value_is_met_and_proven(name, size, rows, best):
    panels = [Panel(str(i), float(w), float(h), n, turns=False) for i, (w, h, n, _) in enumerate(rows)]
    cut, most = fill_sheet(panels, Sheet(*map(float, size)), Cutter(), [float(row[3]) for row in rows])
    worth = sum(rows[int(placed.panel.name)][3] for placed in cut.panels)
    assert (worth, round(most)) == (best, best), name
