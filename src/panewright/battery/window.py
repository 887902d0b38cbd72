"""The voltages of a battery while it is charged.

A bank is cells in series: 2 V each in lead-acid, 3.2 V each in lithium iron phosphate (LFP). It is charged
up to its absorption voltage, held there, then held at float. Most of its charging time is spent lower, at
the voltage it takes up by itself under the current it gets: that voltage, and not the panel's best one,
decides what a direct controller delivers.

Lead-acid wants less voltage when warm: the window of 25 degC moves by 3 mV a kelvin and cell, downward
with heat, unless the battery's maker says otherwise (0 to 9 mV). LFP wants no such thing, but must not be
charged below 0 degC. Makers differ by 0.3 V per 12 V and more: their own figures win.

[H] Charge controller handbook, table of voltages at 25 degC per 12 V: seen.
[L] Handbook of a maker of LFP batteries, four cells: seen.
[M] From memory and common practice: the voltage under usual current; LFP cell limit 3.65 V, no charge
    below 0 degC.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.battery.load import Battery, Chemistry
from panewright.check import Check

REFERENCE_C = 25.0  #: the battery temperature at which its voltages are printed
LEAD_VOLTS_PER_K = -0.003  #: of one 2 V cell [H]
LFP_COLDEST_C = 0.0  #: no charge below [M]


@dataclass(frozen=True, slots=True)
class Window:
    """The voltages of one bank while it is charged, at the battery's temperature."""

    cells: int
    twelves: float  #: how many 12 V batteries it is worth
    absorption_v: float
    equalise_v: float | None  #: now and then, flooded and some AGM only
    float_v: float
    usual_v: float  #: where it spends most of its charging time
    empty_v: float  #: loads are cut off here
    most_v: float  #: never above
    battery_c: float
    volts_per_k: float  #: of the whole bank
    source: str


@dataclass(frozen=True, slots=True)
class _Kind:
    """One chemistry, per cell at 25 degC."""

    banks: dict[float, int]  #: nominal voltage of a bank, and its cells
    cells_12v: int
    absorption_v: float
    equalise_v: float | None
    float_v: float
    usual_v: float
    empty_v: float
    most_v: float
    volts_per_k: float
    source: str


_LEAD_BANKS = {6.0: 3, 12.0: 6, 24.0: 12, 36.0: 18, 48.0: 24}
#: named by 3 V a cell, as a stand-in for lead-acid, or truly by 3.2 V
_LFP_BANKS = {12.0: 4, 12.8: 4, 24.0: 8, 25.6: 8, 36.0: 12, 38.4: 12, 48.0: 16, 51.2: 16}
_LEAD_SOURCE = "charge controller handbook, voltages at 25 degC per 12 V (seen)"


def _lead(absorption_12v: float, equalise_12v: float | None, float_12v: float) -> _Kind:
    return _Kind(
        banks=_LEAD_BANKS,
        cells_12v=6,
        absorption_v=absorption_12v / 6,
        equalise_v=None if equalise_12v is None else equalise_12v / 6,
        float_v=float_12v / 6,
        usual_v=13.35 / 6,  # 13.2 to 13.5 V under the usual current [M]
        empty_v=11.1 / 6,  # load disconnect [H]
        most_v=16.0 / 6,  # overvoltage disconnect [H]
        volts_per_k=LEAD_VOLTS_PER_K,
        source=_LEAD_SOURCE,
    )


_KINDS: dict[Chemistry, _Kind] = {
    "flooded": _lead(14.6, 14.8, 13.8),
    "agm": _lead(14.4, 14.6, 13.8),
    "gel": _lead(14.2, None, 13.8),
    "lfp": _Kind(
        banks=_LFP_BANKS,
        cells_12v=4,
        absorption_v=14.1 / 4,
        equalise_v=None,
        float_v=13.4 / 4,
        usual_v=13.3 / 4,  # its long plateau [M]
        empty_v=12.25 / 4,
        most_v=14.4 / 4,
        volts_per_k=0.0,
        source="handbook of a maker of LFP batteries, four cells for 12 V (seen)",
    ),
}


def possible_nominal_v(chemistry: Chemistry) -> tuple[float, ...]:
    """Nominal voltages in which banks of this chemistry can be had. [V]

    >>> possible_nominal_v("gel")
    (6.0, 12.0, 24.0, 36.0, 48.0)
    """
    return tuple(_KINDS[chemistry].banks)


def cells_in(battery: Battery) -> int:
    """Cells in series in the bank; a ValueError says which nominal voltages there are."""
    for volts, cells in _KINDS[battery.chemistry].banks.items():
        if abs(volts - battery.nominal_v) < 1e-6:
            return cells
    choices = ", ".join(f"{volts:g}" for volts in possible_nominal_v(battery.chemistry))
    raise ValueError(
        f"a {battery.chemistry} battery of {battery.nominal_v:g} V cannot be had; there is {choices} V"
    )


def compensated_v(volts: float, cells: int, battery_c: float, volts_per_k: float = LEAD_VOLTS_PER_K) -> float:
    """A voltage printed for 25 degC, at the battery's temperature; `volts_per_k` is of one cell. [V]

    >>> round(compensated_v(14.4, 6, 40.0), 2)
    14.13
    """
    return volts + cells * volts_per_k * (battery_c - REFERENCE_C)


def charge_window(battery: Battery, battery_c: float = REFERENCE_C) -> Window:
    """The bank's voltages while it is charged, at `battery_c`; its maker's figures win. [V]

    >>> charge_window(Battery("agm", 24.0)).absorption_v
    28.8
    """
    kind, cells = _KINDS[battery.chemistry], cells_in(battery)
    per_k = kind.volts_per_k if battery.volts_per_k is None else battery.volts_per_k

    def warm_v(volts: float) -> float:
        return round(compensated_v(volts, cells, battery_c, per_k), 9)

    return Window(
        cells=cells,
        twelves=cells / kind.cells_12v,
        absorption_v=warm_v(
            cells * kind.absorption_v if battery.absorption_v is None else battery.absorption_v
        ),
        equalise_v=None if kind.equalise_v is None else warm_v(cells * kind.equalise_v),
        float_v=warm_v(cells * kind.float_v if battery.float_v is None else battery.float_v),
        usual_v=round(cells * kind.usual_v, 9),
        empty_v=round(cells * kind.empty_v, 9),
        most_v=round(cells * kind.most_v, 9),
        battery_c=battery_c,
        volts_per_k=cells * per_k,
        source="the battery maker's own figure" if battery.absorption_v else kind.source,
    )


def cold_charge_check(battery: Battery, coldest_battery_c: float) -> Check | None:
    """LFP is not charged below freezing; None for lead-acid, which may be."""
    if battery.chemistry != "lfp":
        return None
    return Check(
        rule="how far an LFP battery gets below freezing, where it is not charged",
        demand=max(0.0, LFP_COLDEST_C - coldest_battery_c),
        limit=0.0,
        unit="K",
        source="common practice for LFP cells, from memory",
        cure="Keep the battery where it never freezes, or take one whose own guard cuts the charge.",
        room="battery",
    )


def overvoltage_check(window: Window) -> Check:
    """The absorption voltage stays under what the bank bears."""
    return Check(
        rule="absorption voltage under the battery's limit",
        demand=window.absorption_v,
        limit=window.most_v,
        unit="V",
        source=window.source,
        cure="Set a lower absorption voltage, or a weaker temperature compensation.",
        room="battery",
    )
