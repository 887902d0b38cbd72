"""Insulation and continuity, as a list with limits: what is done before a panel leaves the bench.

    withstanding    1000 V and twice the system voltage for a minute, without breaking down; 500 V where the
                    system has 50 V at most (IEC 61215-2 MQT 03, recalled)
    insulation      40 Mohm m2, at 500 V or the system voltage, whichever is more; 400 Mohm under 0.1 m2 (the
                    same)
    wet             40 Mohm m2 in water (MQT 15, recalled); not every shop can
    earth           0.1 ohm from any rail to the earth point, at 2.5 times the fuse (IEC 61730-2 MST 13,
                    recalled)
    bypass diodes   each conducts forward and blocks backward: 0.15 to 0.9 V on a meter's diode range (common
                    practice, no source)
    polarity        in light, the meter's red lead on the plus end: 0.4 V a cell in series and more, which a
                    bright window gives; below zero the leads are exchanged (common practice, no source)
    strings         each by itself in one light, the others covered or not yet joined: the weakest carries
                    nine tenths of the strongest (common practice, no source)
    leads           each pulled for a minute, by a spring balance: what a gland of its size holds
                    (`enclosure/relief.py`)

A meter's own bench test at a milliampere proves continuity, not that a bond carries a fault. What was not
measured is a check without a limit: it never passes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.check import Check

LOW_SYSTEM_V = 50.0
LEAST_AREA_M2 = 0.1
INSULATION_MOHM_M2 = 40.0
SMALL_MOHM = 400.0
EARTH_OHM = 0.1
FUSE_TIMES = 2.5
DROP_V = (0.15, 0.9)
BRIGHT_V = 0.4
EVEN_SHARE = 0.9

_MQT03 = "IEC 61215-2 MQT 03 (recalled)"
_MST13 = "IEC 61730-2 MST 13 (recalled)"
_DANGER = "Hands off while the tester is on: it drives a lethal voltage."


@dataclass(frozen=True, slots=True)
class Asked:
    """What of a panel decides the limits."""

    area_m2: float
    system_v: float  #: largest that the label allows
    fuse_a: float  #: largest that the label allows
    rails: int = 4
    diodes: int = 0
    cells: int = 1  #: in series
    strings: int = 1
    leads: int = 2
    pull_n: float = 30.0  #: that each lead's clamp must hold

    def __post_init__(self) -> None:
        if not (self.area_m2 > 0 and self.system_v > 0 and self.fuse_a > 0):
            raise ValueError(f"area, system voltage and fuse are above zero, got {self}")


@dataclass(frozen=True, slots=True)
class Tried:
    """What was read; None or nothing where it was not."""

    withstood_v: float | None = None  #: the test voltage borne for a minute; 0 where it broke down
    insulation_mohm: float | None = None
    insulation_v: float | None = None  #: at which it was read
    wet_mohm: float | None = None
    earth_ohm: tuple[float, ...] = ()  #: each rail to the earth point
    earth_a: float | None = None  #: current of that test
    drops_v: tuple[float, ...] = ()  #: of each bypass diode on a meter's diode range
    ends_v: float | None = None  #: in light, the red lead on the end that is marked plus
    strings_a: tuple[float, ...] = ()  #: of each string by itself, in one light
    pulled_n: tuple[float, ...] = ()  #: that each lead has borne


def withstand_v(system_v: float) -> float:
    """The test voltage between cells and frame. [V]

    >>> withstand_v(48.0), withstand_v(600.0)
    (500.0, 2200.0)
    """
    return 500.0 if system_v <= LOW_SYSTEM_V else 1000.0 + 2 * system_v


def needed_mohm(area_m2: float) -> float:
    """Insulation that a panel of that area needs. [Mohm]

    >>> needed_mohm(0.05), needed_mohm(1.6)
    (400.0, 25.0)
    """
    return SMALL_MOHM if area_m2 < LEAST_AREA_M2 else INSULATION_MOHM_M2 / area_m2


def checklist(asked: Asked, tried: Tried, wet: bool = False) -> tuple[Check, ...]:
    """Every rule of the list; `wet` where the shop holds the panel under water."""
    drowned = _wet(asked, tried) if wet else ()
    bonds = *_bonds(asked, tried), *_diodes(asked, tried)
    return (*_insulation(asked, tried), *drowned, *bonds, *_continuity(asked, tried), _leads(asked, tried))


def safe(checks: tuple[Check, ...]) -> bool:
    """Whether every one holds; a panel that does not must not be sold or joined to others."""
    return all(check.passed for check in checks)


def _insulation(asked: Asked, tried: Tried) -> Iterator[Check]:
    yield Check(
        rule="voltage withstood between cells and frame",
        demand=withstand_v(asked.system_v),
        limit=tried.withstood_v,
        unit="V",
        source=_MQT03,
        cure=_cure(tried.withstood_v, f"Find where it broke through, mend, test again. {_DANGER}"),
        room="bench",
    )
    yield Check(
        rule="insulation between cells and frame",
        demand=needed_mohm(asked.area_m2),
        limit=tried.insulation_mohm,
        unit="Mohm",
        source=_MQT03,
        cure=_cure(tried.insulation_mohm, "Find where ribbon, flux or damp reaches the frame."),
        room="bench",
    )
    yield Check(
        rule="voltage of the insulation reading",
        demand=max(500.0, asked.system_v),
        limit=tried.insulation_v,
        unit="V",
        source=_MQT03,
        cure=_cure(tried.insulation_v, f"Read it again at the higher voltage. {_DANGER}"),
        room="bench",
    )


def _wet(asked: Asked, tried: Tried) -> Iterator[Check]:
    yield Check(
        rule="insulation in water",
        demand=needed_mohm(asked.area_m2),
        limit=tried.wet_mohm,
        unit="Mohm",
        source="IEC 61215-2 MQT 15 (recalled)",
        cure=_cure(tried.wet_mohm, "Dry it, look for voids in bead and box, seal, test again."),
        room="bench",
    )


def _bonds(asked: Asked, tried: Tried) -> Iterator[Check]:
    whole = len(tried.earth_ohm) >= asked.rails
    yield Check(
        rule="earth to each rail",
        demand=max(tried.earth_ohm, default=0.0),
        limit=EARTH_OHM if whole else None,
        unit="ohm",
        source=_MST13,
        cure=_cure(0.0 if whole else None, "Bare the metal under the toothed washer of the worst rail."),
        room="bench",
    )
    yield Check(
        rule="current of the earth test",
        demand=FUSE_TIMES * asked.fuse_a,
        limit=tried.earth_a,
        unit="A",
        source=_MST13,
        cure=_cure(tried.earth_a, "Test again with the higher current; a meter's milliampere proves little."),
        room="bench",
    )


def _diodes(asked: Asked, tried: Tried) -> Iterator[Check]:
    if not asked.diodes:
        return
    read = len(tried.drops_v) >= asked.diodes
    mend = "Near 0 V it is shorted, no reading is open or turned: replace it."
    yield Check(
        rule="bypass diodes that do not conduct as they should",
        demand=float(sum(not DROP_V[0] <= drop <= DROP_V[1] for drop in tried.drops_v)),
        limit=0.0 if read else None,
        unit="diodes",
        source="common practice: 0.15 to 0.9 V on a meter's diode range, the panel in the dark",
        cure=_cure(0.0 if read else None, mend),
        room="bench",
    )


def _continuity(asked: Asked, tried: Tried) -> Iterator[Check]:
    turned = tried.ends_v is not None and tried.ends_v < 0
    yield Check(
        rule="voltage at the ends of the leads, red on plus",
        demand=BRIGHT_V * asked.cells,
        limit=tried.ends_v,
        unit="V",
        source=f"common practice: {BRIGHT_V:g} V a cell in a bright window or more light",
        cure=_cure(tried.ends_v, "The leads are exchanged: mark them anew, or join them the other way round.")
        if turned or tried.ends_v is None
        else "Take it into more light; if it stays, look for an open joint, or a cell turned.",
        room="bench",
    )
    read = tried.strings_a if len(tried.strings_a) >= asked.strings else ()
    yield Check(
        rule="weakest string beside the strongest",
        demand=EVEN_SHARE,
        limit=min(read) / max(read) if read and max(read) > 0 else 0.0 if read else None,
        unit="of it",
        source="common practice: strings of one panel, each by itself in one light",
        cure=_cure(1.0 if read else None, "Look for an open joint or a ribbon off in the weakest string."),
        room="bench",
    )


def _leads(asked: Asked, tried: Tried) -> Check:
    read = tried.pulled_n if len(tried.pulled_n) >= asked.leads else ()
    return Check(
        rule="pull that every lead has borne",
        demand=asked.pull_n,
        limit=min(read, default=None),
        unit="N",
        source="IEC 62444 by the lead's diameter, a minute (recalled)",
        cure=_cure(min(read, default=None), "Seat the clamp on the whole sheath, tighten it, pull again."),
        room="bench",
    )


def _cure(read: float | None, mend: str) -> str:
    return mend if read is not None else "It was not measured. Measure it before the panel leaves the bench."
