"""Most worth from one plate by cuts from edge to edge: instances of the literature.

Seen (a public collection of cutting data): OF1 and OF2 of J. F. Oliveira and J. S. Ferreira, An improved
version of Wang's algorithm for two-dimensional cutting problems, EJOR 44 (1990) 256; the second of
N. Christofides and C. Whitlock, An algorithm for two-dimensional cutting problems, Operations Research 25
(1977) 30. Seen (a public list of results of M. Hifi and V. Zissimopoulos, EJOR 91 (1996) 553): the optima
2758, 2776 and 3076 where a panel may be cut any number of times. Recalled: the optima 2737, 2690 and 2892
with the numbers given. No panel is turned.
"""

from __future__ import annotations

import pytest

from panewright.cutting import guillotine
from panewright.cutting.guillotine import Kind, Rules, graph
from panewright.cutting.parting import Model, Root

#: worth, width, height, at most
OF1 = (
    (145, 29, 5, 1), (351, 9, 39, 4), (495, 55, 9, 1), (465, 31, 15, 1), (176, 11, 16, 2),
    (483, 23, 21, 3), (406, 29, 14, 4), (304, 16, 19, 3), (324, 9, 36, 2), (88, 22, 4, 2),
)  # fmt: skip
OF2 = (
    (396, 22, 18, 2), (400, 40, 10, 1), (351, 13, 27, 3), (414, 23, 18, 2), (232, 29, 8, 4),
    (64, 16, 4, 1), (423, 47, 9, 1), (361, 19, 19, 4), (208, 13, 16, 2), (576, 36, 16, 4),
)  # fmt: skip
CHW2 = (
    (582, 21, 22, 1), (403, 31, 13, 1), (315, 9, 35, 3), (216, 9, 24, 3), (210, 30, 7, 2),
    (143, 11, 13, 3), (140, 10, 14, 1), (110, 14, 8, 3), (94, 12, 8, 3), (90, 13, 7, 3),
)  # fmt: skip
PLATES = {"OF1": (OF1, (70, 40)), "OF2": (OF2, (70, 40)), "CHW2": (CHW2, (40, 70))}


def most_worth(name: str, any_number: bool) -> tuple[int, bool]:
    rows, plate = PLATES[name]
    many = [(plate[0] // w) * (plate[1] // h) if any_number else most for _, w, h, most in rows]
    kinds = [Kind(w, h, most, False) for (_, w, h, _), most in zip(rows, many, strict=True)]
    made = graph([plate], kinds, Rules(0, 0, 0, single=False, keep=None))
    model = Model(made, [Root(0, 1, 1, plate[0] * plate[1])], kinds, exact=False)
    model.model.Maximize(model.worth([row[0] for row in rows]))
    found = model.solved(60.0)
    return found.value, found.done


@pytest.fixture(autouse=True)
def _room(monkeypatch):
    monkeypatch.setitem(guillotine.MOST_CUTS, False, 100_000)


@pytest.mark.parametrize(("name", "value"), [("OF1", 2737), ("OF2", 2690), ("CHW2", 2892)])
def test_with_the_numbers_given(name, value):
    assert most_worth(name, any_number=False) == (value, True)


@pytest.mark.parametrize(("name", "value"), [("OF1", 2758), ("OF2", 2776), ("CHW2", 3076)])
def test_any_number_of_each(name, value):
    assert most_worth(name, any_number=True) == (value, True)
