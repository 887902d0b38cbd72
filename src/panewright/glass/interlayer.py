"""What binds two plies of glass: how much shear it passes on, which falls with heat and with time.

ASTM takes a shear modulus for temperature and duration, [D]; EN 16612 sorts interlayers into families of
stiffness with a coefficient for each kind of load, [N]. The two are never mixed. What no table tells is
taken as nothing: the plies then act apart.

[D] shear moduli by temperature and duration of plasticised polyvinyl butyral and of an ionoplast, as the
    structural glass design guide of the engineers' associations (NCSEA) prints them; seen in the data of an
    open program that carries its tables. EVA: no table seen, so none.
[N] EN 16612 annex D, coefficient omega by family and load (recalled, not seen): the row of hot places for
    wind, because a pane over cells is hot; the row of unheated roofs for snow; nothing for lasting loads.
    That PVB is of family 1, an ionoplast of family 2 and EVA of family 0 is recalled as well.
"""

from __future__ import annotations

from bisect import bisect_left
from math import exp, log

from panewright.glass.load import LoadKind
from panewright.glass.pane import Interlayer

_DAY = 86400.0
_YEAR = 365.25 * _DAY
_PVB_S = (3.0, 60.0, 3600.0, _DAY, 30 * _DAY, _YEAR)
_PVB_MPA: dict[float, tuple[float, ...]] = {  # degC: MPa at those durations, [D]
    20.0: (8.06, 1.64, 0.840, 0.508, 0.372, 0.266),
    30.0: (0.971, 0.753, 0.441, 0.281, 0.069, 0.052),
    40.0: (0.610, 0.455, 0.234, 0.234, 0.052, 0.052),
    50.0: (0.440, 0.290, 0.052, 0.052, 0.052, 0.052),
}
_IONOPLAST_S = (1.0, 3.0, 60.0, 3600.0, _DAY, 30 * _DAY, 10 * _YEAR)
_IONOPLAST_MPA: dict[float, tuple[float, ...]] = {  # the same, [D]
    10.0: (240.0, 236.0, 225.0, 206.0, 190.0, 171.0, 153.0),
    20.0: (217.0, 211.0, 195.0, 169.0, 146.0, 112.0, 86.6),
    24.0: (200.0, 193.0, 173.0, 142.0, 111.0, 73.2, 26.0),
    30.0: (151.0, 141.0, 110.0, 59.9, 49.7, 11.6, 5.31),
    40.0: (77.0, 63.0, 30.7, 9.28, 4.54, 3.29, 2.95),
    50.0: (36.2, 26.4, 11.3, 4.20, 2.82, 2.18, 2.00),
    60.0: (11.8, 8.18, 3.64, 1.70, 1.29, 1.08, 0.97),
    70.0: (3.77, 2.93, 1.88, 0.84, 0.59, 0.48, 0.45),
    80.0: (1.55, 1.32, 0.83, 0.32, 0.25, 0.21, 0.18),
}
_TABLES = {
    "pvb": (_PVB_S, _PVB_MPA),
    "ionoplast": (_IONOPLAST_S, _IONOPLAST_MPA),
}
_OMEGA: dict[Interlayer, dict[LoadKind, float]] = {  # [N]
    "pvb": {"wind": 0.1, "snow": 0.1},
    "ionoplast": {"wind": 0.6, "snow": 0.3},
}
#: how warm an interlayer over cells is taken: in a gust the wind cools the pane; a calm day at the record
#: heat is hotter; under snow it is cold, and no table is read below its coldest row
WARM_C: dict[LoadKind, float] = {"wind": 50.0, "snow": 10.0, "own weight": 80.0, "combined": 80.0}


def shear_modulus_pa(interlayer: Interlayer, at_c: float, duration_s: float) -> float:
    """Shear modulus left after so long at so many degrees; 0 past the table's warm or long end. [Pa]

    Between entries on the logarithm of modulus and time, and of temperature as it is. Colder than the
    table, or shorter, counts as its coldest row and its shortest time: the true modulus is higher.

    >>> shear_modulus_pa("pvb", 50.0, 3.0), shear_modulus_pa("pvb", 51.0, 3.0)
    (440000.0, 0.0)
    """
    if interlayer not in _TABLES:
        return 0.0
    durations, rows = _TABLES[interlayer]
    warm = tuple(rows)
    if at_c > warm[-1] or duration_s > durations[-1]:
        return 0.0
    at_c, duration_s = max(at_c, warm[0]), max(duration_s, durations[0])
    i = max(1, bisect_left(warm, at_c))
    low, high = (log(_at(durations, rows[warm[k]], duration_s)) for k in (i - 1, i))
    share = (at_c - warm[i - 1]) / (warm[i] - warm[i - 1])
    return round(exp(low + share * (high - low)) * 1e6, 6)


def _at(durations: tuple[float, ...], moduli: tuple[float, ...], duration_s: float) -> float:
    """Modulus in one row. [MPa]"""
    i = max(1, bisect_left(durations, duration_s))
    share = log(duration_s / durations[i - 1]) / log(durations[i] / durations[i - 1])
    return float(moduli[i - 1] * (moduli[i] / moduli[i - 1]) ** share)


def omega(interlayer: Interlayer, kind: LoadKind) -> float:
    """EN 16612's coefficient of shear transfer, 0 apart and 1 as one; 0 where none is told. [-]

    >>> omega("ionoplast", "wind"), omega("pvb", "own weight"), omega("eva", "wind")
    (0.6, 0.0, 0.0)
    """
    return _OMEGA.get(interlayer, {}).get(kind, 0.0)
