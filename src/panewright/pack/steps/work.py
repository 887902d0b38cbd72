"""Which kinds of work of the price stand behind which steps at the bench."""

from __future__ import annotations

from typing import TypeAlias

Behind: TypeAlias = tuple[tuple[str, ...], tuple[str, ...]]

WORK: tuple[Behind, ...] = (
    (("sort-cells",), ("Look over", "Cut cells")),
    (("cut-rails",), ("Cut the rails", "Cut back the seats")),
    (("drill-rails",), ("Mark, drill",)),
    (("join-frame",), ("Join the corners", "Weld the corners", "Cut the back board", "Drill and slit")),
    (("clean-pane",), ("Clean the glass",)),
    (("set-pane",), ("Lay the bead", "Set the pane")),
    (("tab-cells",), ("Cut and bend", "Tab")),
    (("string-column",), ("Lay out", "Read the voltage")),
    (("join-columns",), ("Solder the bus", "Cut, bend and sleeve")),
    (("bypass-diodes",), ("Fit the bypass",)),
    (("polarity", "insulation"), ("Check polarity",)),
    (
        ("encapsulate", "close-back"),
        ("Mix, pour", "Close the back", "Join the tails", "Crimp", "Fix the brackets"),
    ),
    (("label", "measure-sun"), ("Clean, label",)),
)
"""Keys of steps, and how the names of the kinds of work begin; steps that share a kind stand together."""

ONCE: tuple[Behind, ...] = ((("trial-patch",), ("Pour a trial patch",)),)
"""What is done once for an order: no pace is learnt of it from the minutes of a panel."""
