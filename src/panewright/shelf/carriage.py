"""What carriage takes: foam that is cut to pads, and carriers with their limits and prices.

A foam's dynamic curve is told by two figures after the stress-energy method [B]: peak stress = stress times
e^(energy of the drop / energy), both for one volume of foam. Any thickness and any drop height follow.

[B] Burgess, stress-energy method for cushion curves of closed-cell foam (method recalled).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import Literal, cast

from panewright.shelf.key import Fault, Key
from panewright.shelf.reading import Reading
from panewright.units import UnitError, read

CarrierKind = Literal["parcel", "freight"]
_BAND = re.compile(r"(?P<mass>.+?\b(?:kg|lb|t|g|oz))\s+(?P<price>\d{1,7}(?:\.\d{1,2})?)")
_CURRENCY = re.compile(r"[A-Z]{3}")


@dataclass(frozen=True, slots=True)
class Foam:
    """A foam sold in sheets, by its dynamic curve and by what it bears for weeks."""

    name: str
    density_kg_m3: float
    stress_pa: float  #: peak stress towards no energy at all
    energy_pa: float  #: drop energy in a volume of foam at which it serves best [J/m3]
    most_energy_pa: float  #: where its curve ends
    most_static_pa: float  #: more would make it creep by over a tenth


@dataclass(frozen=True, slots=True)
class Band:
    """A price up to a mass."""

    to_kg: float
    price: Decimal


@dataclass(frozen=True, slots=True)
class Carrier:
    """One way of sending, with its limits. Girth is twice the sum of the two shorter sides."""

    name: str
    kind: CarrierKind
    longest_mm: float
    girth_mm: float | None  #: length plus girth; None where the carrier does not ask
    most_kg: float
    divisor_cm3_kg: float  #: volume that is charged as one kilogram
    bands: tuple[Band, ...]  #: of one piece, the lightest first; none where each charge must be asked
    currency: str
    source: str


FOAM = (
    Key("foam", "density", "density", "", "35 kg/m3", True, least="5 kg/m3", most="400 kg/m3"),
    Key(
        "foam",
        "stress",
        "pressure",
        "peak stress of its curve towards no energy",
        "64 kPa",
        True,
        least="1 kPa",
        most="2 MPa",
    ),
    Key(
        "foam",
        "energy",
        "pressure",
        "drop energy by volume at which it serves best",
        "60 kPa",
        True,
        least="1 kPa",
        most="2 MPa",
    ),
    Key(
        "foam",
        "most_energy",
        "pressure",
        "where its curve ends",
        "99 kPa",
        True,
        least="1 kPa",
        most="5 MPa",
    ),
    Key(
        "foam",
        "most_static",
        "pressure",
        "it may bear for weeks; creep of a tenth",
        "17 kPa",
        True,
        least="100 Pa",
        most="1 MPa",
    ),
)
CARRIER = (
    Key("carrier", "name", "text", "as people call it", "Parcel, door to door", True, most=60),
    Key("carrier", "kind", "choice", "", "parcel", True, choices=("parcel", "freight")),
    Key("carrier", "longest", "size", "longest side", "1750 mm", True, least="100 mm", most="20 m"),
    Key("carrier", "girth", "size", "length plus girth", "3 m", least="300 mm", most="60 m"),
    Key("carrier", "most_mass", "mass", "of one piece", "31.5 kg", True, least="0.5 kg", most="30 t"),
    Key(
        "carrier",
        "divisor",
        "specific volume",
        "volume charged as a kilogram",
        "5000 cm3/kg",
        True,
        least="500 cm3/kg",
        most="50000 cm3/kg",
    ),
    Key(
        "carrier",
        "prices",
        "text",
        "of one piece up to each mass; asked for each time if left out",
        "10 kg 14.00; 31.5 kg 28.00",
        most=2000,
    ),
    Key("carrier", "currency", "text", "of its prices", "EUR", True, most=3),
    Key("carrier", "source", "text", "where the figures come from", "tariff of May", True),
)


def foam(name: str, row: Reading) -> Foam:
    """A foam with its curve."""
    if row.number("most_energy") < row.number("energy"):
        raise Fault("Its curve ends before its best place.", "Mend energy and most_energy.", "most_energy")
    return Foam(name, *(row.number(key.name) for key in FOAM))


def carrier(name: str, row: Reading) -> Carrier:
    """A carrier with its limits and prices."""
    currency, most_kg, prices = row.word("currency"), row.number("most_mass"), row.word("prices")
    bands = read_bands(prices) if prices else ()
    if not _CURRENCY.fullmatch(currency):
        raise Fault("It is no currency.", 'Write three capitals, such as currency = "EUR".', "currency")
    if bands and bands[-1].to_kg < most_kg:
        cure = f'Add a price up to "{most_kg:g} kg", or lower most_mass.'
        raise Fault("Its prices end before the mass it takes.", cure, "prices")
    return Carrier(
        name,
        cast(CarrierKind, row.word("kind")),
        row.number("longest"),
        row.number("girth") or None,
        most_kg,
        row.number("divisor"),
        bands,
        currency,
        row.word("source"),
    )


def read_bands(text: str) -> tuple[Band, ...]:
    """Masses with their prices, each mass above the one before.

    >>> read_bands("10 kg 14.00; 31.5 kg 28")
    (Band(to_kg=10.0, price=Decimal('14.00')), Band(to_kg=31.5, price=Decimal('28')))
    """
    bands = tuple(_band(part.strip()) for part in text.split(";") if part.strip())
    if not bands:
        raise Fault("No price is written.", f"Add {_example()}.", "prices")
    if any(later.to_kg <= band.to_kg for band, later in pairwise(bands)):
        raise Fault("A mass is not above the one before it.", "Write the lightest first.", "prices")
    return bands


def _band(part: str) -> Band:
    found = _BAND.fullmatch(part)
    try:
        if found is None:
            raise UnitError("no band", "")
        return Band(read(found["mass"], "mass"), Decimal(found["price"]))
    except UnitError as mistake:
        cure = f"Write a mass with its unit and a price for each, as in {_example()}."
        raise Fault(f"{part[:40]} is no mass with a price.", cure, "prices") from mistake


def _example() -> str:
    return next(key for key in CARRIER if key.name == "prices").assignment()
