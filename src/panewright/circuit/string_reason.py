"""Why a count of cells in series was chosen, in two to four plain sentences.

What it gives and what is needed; why not one fewer or one more; whether the textbook's 36 for 12 V is
right here.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.battery.window import Window
from panewright.circuit.string_count import COMMON_COUNTS, CountRow, StringAsk


@dataclass(frozen=True, slots=True)
class Told:
    """All that the sentences tell of."""

    ask: StringAsk
    window: Window | None
    rows: tuple[CountRow, ...]
    chosen: CountRow
    acceptable: tuple[int, ...]
    textbook: int | None

    @property
    def direct(self) -> bool:
        """Whether a direct controller holds the string at the battery's voltage."""
        return self.ask.controller is not None and self.ask.controller.kind == "direct"

    def row(self, cells: int) -> CountRow | None:
        """The row of another count, where the table has it."""
        return next((row for row in self.rows if row.cells == cells), None)


def reason(told: Told) -> str:
    """The sentences, for a person."""
    if told.window is None:
        return f"{told.chosen.cells} cells in series, as ordered. No battery is given to hold them against."
    parts = [_opening(told, told.window)]
    if not told.acceptable:
        parts.append(
            "No count holds both ends: enough for the heat is too much for the controller in the cold."
        )
    elif told.direct:
        parts.append(_neighbours(told, told.window))
    else:
        parts.append(_window_words(told))
    return " ".join([*parts, _textbook_words(told)]).strip()


def _volts(value: float) -> str:
    return f"{value:.2f}\u2009V"


def _opening(told: Told, window: Window) -> str:
    """What the count gives in the heat, against what is needed there."""
    row = told.chosen
    pinned = ", as ordered" if told.ask.pinned_in_series or told.ask.cells_wanted else _laid_words(told)
    ends = "enough" if row.holds_hot else "too little"
    lost = row.needed_v - window.absorption_v
    return (
        f"{row.cells} cells in series{pinned}: on the hottest day they give {_volts(row.hot_vmp_v)} at "
        f"maximum power, {ends} for the {_volts(row.needed_v)} that a full charge needs "
        f"(absorption {_volts(window.absorption_v)}, {_volts(lost)} on the way)."
    )


def _laid_words(told: Told) -> str:
    """Where the lay-out took another count than the voltages alone would."""
    if told.ask.laid_out is None:
        return ""
    least = f"by voltage {told.acceptable[0]} would do; " if told.direct and told.acceptable else ""
    why = told.ask.laid_why or "it lays out better"
    return f" (taken for the lay-out; {least}{why})"


def _neighbours(told: Told, window: Window) -> str:
    """One fewer and one more at a direct controller."""
    row, fewer, more = told.chosen, told.row(told.chosen.cells - 1), told.row(told.chosen.cells + 1)
    parts = []
    if fewer is not None:
        end = "would do" if fewer.holds_hot else "never fills the battery on such days"
        parts.append(f"One fewer gives {_volts(fewer.hot_vmp_v)} then and {end}")
    if more is not None and not more.holds_cold:
        parts.append("one more is too much for the controller on the coldest morning")
    elif more is not None:
        gain = max(more.battery_a - row.battery_a, 0.0)
        now = f"the {row.battery_a:.1f}\u2009A which the battery gets at its own {_volts(window.usual_v)}"
        parts.append(f"one more adds {gain:.2f}\u2009A to {now}")
    words = "; ".join(parts)
    return f"{words[:1].upper()}{words[1:]}."


def _window_words(told: Told) -> str:
    """Where the chosen count stands in an MPPT controller's window."""
    cells, acceptable = told.chosen.cells, told.acceptable
    little = "one more or fewer changes little, as the controller turns spare voltage into current"
    place = f"{cells} is not among them"
    if cells in acceptable:
        place = f"{cells} lies among them: {little}"
        if any(cells in group for group in COMMON_COUNTS):
            place = f"{cells} is the usual count nearest their middle: {little}"
        if told.ask.laid_out is not None or told.ask.pinned_in_series or told.ask.cells_wanted:
            place = f"{cells} is among them: {little}"
    return f"Counts from {acceptable[0]} to {acceptable[-1]} hold in heat and cold. {place}."


def _textbook_words(told: Told) -> str:
    """Whether 36 cells for every 12 V is right here."""
    book = told.row(told.textbook or 0)
    if book is None:
        return ""
    rule = f"The textbook's {book.cells} cells for this battery"
    if not book.holds_hot:
        return f"{rule} would be wrong here: they give only {_volts(book.hot_vmp_v)} in the heat."
    if not book.holds_cold:
        bears = f"and the controller bears {_volts(book.most_v)}"
        return f"{rule} would be wrong here: they give {_volts(book.cold_voc_v)} in the cold, {bears}."
    if book.cells == told.chosen.cells:
        return f"{rule} are right here."
    spare = book.cells - told.chosen.cells
    if told.direct and spare > 0:
        return f"{rule} would work, but {spare} of them are not needed at this place."
    return f"{rule} would work too."
