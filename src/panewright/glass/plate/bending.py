"""A real pane under a real pressure: the dimensionless path with sizes put back."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from panewright.glass.plate.faces import Faces
from panewright.glass.plate.path import WIDEST, load_path
from panewright.units import MM

MPA = 1e6


@dataclass(frozen=True, slots=True)
class Elastic:
    """What bends: a rule book brings its own figures for the same glass."""

    young_pa: float
    poisson: float


@dataclass(frozen=True, slots=True)
class Plate:
    """A rectangle of one thickness; the long side first."""

    long_mm: float
    short_mm: float
    thickness_mm: float
    elastic: Elastic

    def __post_init__(self) -> None:
        if not 0 < self.short_mm <= self.long_mm or not self.thickness_mm > 0:
            raise ValueError(f"a plate has a long and a short side and a thickness, all positive, got {self}")

    def __hash__(self) -> int:
        """Of its sizes: of one size there are two at most, one for each rule book."""
        return hash((self.long_mm, self.short_mm, self.thickness_mm))

    @property
    def aspect(self) -> float:
        """Long side over short side. [-]"""
        return self.long_mm / self.short_mm

    @property
    def load_unit_pa(self) -> float:
        """Pressure at which Q is 1: E t^4/b^4. [Pa]"""
        return float(self.elastic.young_pa * (self.thickness_mm / self.short_mm) ** 4)

    @property
    def stress_unit_mpa(self) -> float:
        """Stress of which the dimensionless one counts: E t^2/b^2. [MPa]"""
        return float(self.elastic.young_pa * (self.thickness_mm / self.short_mm) ** 2 / MPA)

    @property
    def known_pa(self) -> float:
        """Largest pressure at which the plate's path is known; 0 where the sides are too unlike. [Pa]"""
        if self.aspect > WIDEST:
            return 0.0
        return load_path(self.aspect, self.elastic.poisson).limit * self.load_unit_pa


@dataclass(frozen=True, slots=True)
class Bent:
    """How far a pane goes and how hard it is pulled."""

    pressure_pa: float
    deflection_mm: float  #: at the middle
    w_over_t: float
    centre_mpa: float  #: larger principal stress, tension face
    peak_mpa: float  #: largest principal stress on the tension face
    peak_long_mm: float  #: its place from the middle, along the long side
    peak_short_mm: float
    pressed_peak_mpa: float  #: largest principal stress on the pressed face
    known: bool  #: whether the pressure is inside the plate's range; else the figures are of the range's end

    @property
    def worst_mpa(self) -> float:
        """Largest tension on either face. [MPa]"""
        return max(self.peak_mpa, self.pressed_peak_mpa)


@lru_cache(maxsize=1024)
def bend(plate: Plate, pressure_pa: float) -> Bent:
    """Deflection and stresses of a plate under an even pressure.

    >>> pane = Plate(1500, 1000, 3.78, Elastic(71.7e9, 0.22))
    >>> bent = bend(pane, 2400)
    >>> round(bent.deflection_mm, 2), round(bent.peak_mpa, 1)
    (18.06, 35.7)
    """
    known, faces = _faces(plate, pressure_pa)
    extremes, unit = faces.extremes(), plate.stress_unit_mpa
    peak, deep = extremes.peak, faces.centre_deflection
    return Bent(
        pressure_pa=pressure_pa,
        deflection_mm=deep * plate.thickness_mm,
        w_over_t=deep,
        centre_mpa=extremes.centre_stress * unit,
        peak_mpa=peak.stress * unit,
        peak_long_mm=peak.along_long * plate.long_mm / 2,
        peak_short_mm=peak.along_short * plate.short_mm / 2,
        pressed_peak_mpa=extremes.pressed_peak.stress * unit,
        known=known,
    )


@dataclass(frozen=True, slots=True)
class Sagged:
    """How far a pane goes, and no more."""

    deflection_mm: float  #: at the middle
    known: bool  #: as of `Bent`


@lru_cache(maxsize=1024)
def sag(plate: Plate, pressure_pa: float) -> Sagged:
    """The deflection of `bend` alone: its stresses are not looked for.

    >>> round(sag(Plate(1500, 1000, 3.78, Elastic(71.7e9, 0.22)), 2400).deflection_mm, 2)
    18.06
    """
    known, faces = _faces(plate, pressure_pa)
    return Sagged(faces.centre_deflection * plate.thickness_mm, known)


def _faces(plate: Plate, pressure_pa: float) -> tuple[bool, Faces]:
    """Whether the pressure is inside the plate's range, and the state there or at the range's end."""
    path = load_path(min(plate.aspect, WIDEST), plate.elastic.poisson)
    faces = path.faces(min(pressure_pa / plate.load_unit_pa, path.limit))
    return pressure_pa <= plate.known_pa, faces


def area_m2(plate: Plate) -> float:
    """Area of the plate. [m2]"""
    return plate.long_mm * MM * plate.short_mm * MM
