"""The figures on the label which others rely on: greatest system voltage, largest series fuse.

The open-circuit voltage on the coldest bright morning rules the first, the short-circuit current under
bright cloud the second: 1.25 times for the light, 1.25 again because fuses must not carry their rating for
hours. The label states the largest fuse behind which the panel is still safe.

[690.7] NEC table 690.7(A), crystalline silicon, for cells without a coefficient: public transcription (seen).
[690.8] NEC 690.8 and 690.9: 1.5625 Isc (seen). Sizes below 15 A: cartridges for photovoltaics of
        IEC 60269-6, common in the trade; from 15 A: NEC 240.6(A), from memory.
"""

from __future__ import annotations

from panewright.check import Check

SYSTEM_STEPS_V = (35.0, 60.0, 120.0, 300.0, 600.0, 1000.0, 1500.0)  #: 35, 60 and 120 V: edges of touch safety
TOUCH_V = 60.0  #: dry hands bear so much direct current (IEC 60364-4-41, recalled); in the wet less
FUSES_A = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100)
FUSE_FACTOR = 1.5625  #: of Isc [690.8]

#: lower end of each band of ambient temperature, and the factor on Voc [690.7]
_COLD_BANDS = (
    (25, 1.0),
    (20, 1.02),
    (15, 1.04),
    (10, 1.06),
    (5, 1.08),
    (0, 1.1),
    (-5, 1.12),
    (-10, 1.14),
    (-15, 1.16),
    (-20, 1.18),
    (-25, 1.2),
    (-30, 1.21),
    (-35, 1.23),
    (-40, 1.25),
)


def cold_factor(coldest_c: float) -> float:
    """Factor on Voc of silicon whose coefficient nobody knows. [-] [690.7]

    >>> cold_factor(-12)
    1.16
    """
    if coldest_c < -40:
        raise ValueError(f"the table of cold factors ends at -40 degC, asked for {coldest_c:g} degC")
    return next(factor for lower, factor in _COLD_BANDS if coldest_c >= lower)


def cold_voc_v(voc_stc_v: float, coldest_c: float, voc_per_k: float | None = None) -> float:
    """Open-circuit voltage on the coldest morning, cell as cold as the air. [V]

    By the coefficient where there is one, or else by the table, which stays above common cells. [690.7]

    >>> round(cold_voc_v(22.4, -12.0), 3), round(cold_voc_v(22.4, -12.0, -0.0034), 5)
    (25.984, 25.21792)
    """
    if voc_per_k is None:
        return voc_stc_v * cold_factor(coldest_c)
    return voc_stc_v * (1 + voc_per_k * (coldest_c - 25.0))


def label_system_v(cold_voc_v: float, pinned_v: float | None = None) -> float:
    """Greatest system voltage for the label: as pinned, or the least step that holds the cold Voc. [V]"""
    if pinned_v is not None:
        return pinned_v
    for step_v in SYSTEM_STEPS_V:
        if cold_voc_v <= step_v:
            return step_v
    raise ValueError(
        f"{cold_voc_v:.0f} V is above every system voltage, the last is {SYSTEM_STEPS_V[-1]:g} V"
    )


def label_fuse_a(isc_a: float) -> float:
    """Largest series fuse for the label: the next size as sold above 1.5625 Isc, or the last there is. [A]

    >>> label_fuse_a(8.55)
    15.0
    """
    needed_a = FUSE_FACTOR * isc_a
    return float(next((size for size in FUSES_A if needed_a <= size * (1 + 1e-12)), FUSES_A[-1]))


def fuse_size_check(isc_a: float) -> Check:
    """The label's fuse carries the panel's current under bright cloud for hours."""
    return Check(
        rule="series fuse of the label carries the current",
        demand=FUSE_FACTOR * isc_a,
        limit=label_fuse_a(isc_a),
        unit="A",
        source="NEC 690.9, 1.5625 Isc; fuse sizes end at 100 A here",
        cure="Put fewer strings side by side in one panel.",
        room="enclosure",
    )


def system_voltage_check(cold_voc_v: float, system_v: float) -> Check:
    """The label's system voltage holds the panel's own open-circuit voltage on the coldest morning."""
    return Check(
        rule="open-circuit voltage under the label's system voltage",
        demand=cold_voc_v,
        limit=system_v,
        unit="V",
        source="NEC 690.7, IEC 61730-1",
        cure="Ask for a higher system_voltage in [load], or leave it out.",
        room="enclosure",
    )
