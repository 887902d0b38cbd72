"""Panes to buy: how many of which size. Heated glass fits one size only, so it is bought and kept by it.

What is cut from a sheet (annealed glass, acrylic) stays one pool by area; its sizes are told.
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from panewright.glass.pane import Pane
from panewright.price.bill import STEPS, Need
from panewright.price.money import up_to
from panewright.structure.panes.cut_glass import HEATED

Net = tuple[Decimal, Need]  #: what an order still takes, nothing lost, and of what
_SIZE = re.compile(r", [\d.]+ × [\d.]+ mm$")
_ROUNDED = 0.1  #: [panes] areas are kept to a hundredth of a square metre: no pane is bought for that


def by_size(need: Need, pane: Pane) -> Need:
    """A front with its sides in millimetres; of heated glass the name tells them too, on each list."""
    if need.use != "sheet":
        return need
    size = f"{_mm(pane.long_mm)} × {_mm(pane.short_mm)} mm"
    heated = pane.sheet.treatment in HEATED
    return replace(need, name=f"{need.name}, {size}" if heated else need.name, size=size)


def _mm(side_mm: float) -> str:
    return f"{round(side_mm, 1):g}"


def is_sized(need: Need) -> bool:
    """Whether the name tells the size."""
    return need.use == "sheet" and bool(need.size) and need.name.endswith(f", {need.size}")


def without_size(name: str) -> str:
    """A part's name on the shelf.

    >>> without_size("4 mm clear tempered, 1185.5 × 500 mm"), without_size("4 mm clear tempered")
    ('4 mm clear tempered', '4 mm clear tempered')
    """
    return _SIZE.sub("", name)


def on_the_shelf(need: Need) -> str:
    """The name by which the shelf sells it."""
    return without_size(need.name) if is_sized(need) else need.shelf_name or need.name


def whole_panes(nets: Iterable[Net]) -> Decimal:
    """What panes of one size take with what is lost: whole panes, in the amount that is sold.

    >>> glass = Need("glass", "clear, 1000 × 550 mm", Decimal("0.55"), "square metre", None, Decimal("0.1"),
    ...     size="1000 × 550 mm", use="sheet")
    >>> whole_panes([(Decimal("1.65"), glass)])  # 3 panes and a tenth of each: 4
    Decimal('2.20')
    """
    told = tuple(nets)
    panes = _panes(told)
    area = sum((_whole(net, need) * (1 + need.waste) * need.one for net, need in told), Decimal(0))
    if not panes:
        return Decimal(0)
    whole = math.ceil(float(panes) - 1e-6)
    return up_to(area * whole / panes, STEPS.get(told[0][1].sold_by, Decimal(1)))


def _panes(nets: Iterable[Net]) -> Decimal:
    """Panes with the share that is lost. [panes]"""
    return sum((_whole(net, need) * (1 + need.waste) for net, need in nets), Decimal(0))


def _whole(net: Decimal, need: Need) -> int:
    """Whole panes of one order, nothing lost. [panes]"""
    return math.ceil(float(net / need.one) - _ROUNDED) if need.one > 0 else 0


def said(nets: Iterable[Net], gross: Decimal, buy: Decimal) -> str:
    """Panes to buy of heated glass; of what is cut from a sheet the panes that are asked, size by size."""
    told = tuple(each for each in nets if each[1].use == "sheet" and each[1].size)
    if not told:
        return ""
    if is_sized(told[0][1]):
        share = float(math.ceil(float(_panes(told)) - 1e-6) * buy / gross) if gross else 0.0
        return _count(math.ceil(share - _ROUNDED))
    return "asked: " + ", ".join(_asked(told))


def _asked(nets: Iterable[Net]) -> list[str]:
    sizes: dict[str, int] = defaultdict(int)
    for net, need in nets:
        sizes[need.size] += _whole(net, need)
    return [f"{_count(panes)} {size}" for size, panes in sizes.items() if panes]


def _count(panes: int) -> str:
    return f"{panes} pane" if panes == 1 else f"{panes} panes"
