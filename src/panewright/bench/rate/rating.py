"""The verdict on a panel: its label, and pass, rework or reject, each rule a `Check`.

The label states the power that the panel as built is predicted to give, cut to a whole step, and a
tolerance. A panel passes where the power rated is no less than the label less its tolerance: the shared risk
of a plain acceptance (JCGM 106:2012, 8.2, recalled), at whose bound the true power is as likely less as more;
`guard` asks for some of the uncertainty on top. What label a panel would bear is told both ways. Beside the
prediction a figure is off only where it differs by more than both uncertainties together, with k = 2:
less proves nothing. A measurement less sure than the rule wants, or with a grave flag, passes nobody: measure
again. Nor does one by an instrument past its calibration, where the shop wants all of them in date.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor, hypot
from typing import Literal

from panewright.bench.rate.budget import COVERAGE, Budget
from panewright.bench.rate.flags import OUT_OF_DATE, Flag
from panewright.bench.rate.known_cells import CellsKnown
from panewright.bench.rate.rated import UNITS, WORDS, Rated
from panewright.cell.key_points import KeyPoints
from panewright.check import Check

Verdict = Literal["pass", "rework", "reject", "measure again"]
SURE = 1.0  #: guard with which a label is surely borne: the power is less in one panel of forty (k = 2)


@dataclass(frozen=True, slots=True)
class Prediction:
    """What the panel as built should give at STC, and how well its cells are known."""

    points: KeyPoints
    cells: CellsKnown

    def of(self, name: str) -> tuple[float, float]:
        """A figure and its standard uncertainty."""
        points, cells = self.points, self.cells
        known = {
            "power_w": (points.power_w, cells.power_share),
            "isc_a": (points.isc_a, cells.isc_share),
            "voc_v": (points.voc_v, cells.voc_share),
            "fill_factor": (points.fill_factor, cells.fill_share),
        }
        value, share = known[name]
        return value, share * value


@dataclass(frozen=True, slots=True)
class Rule:
    """How the shop labels and judges."""

    tolerance_share: float = 0.05  #: on the label, below; common practice for built by hand
    step_w: float = 1.0  #: labels are cut to whole steps
    guard: float = 0.0  #: times the expanded uncertainty that the power must lie above the bound
    most_unsure_share: float = 0.08  #: expanded uncertainty of the power, from which nothing is told
    reject_share: float = 0.80  #: of the prediction: surely less is not sold as it is; common practice
    in_date: bool = False  #: whether nothing passes that an instrument past its calibration read

    def __post_init__(self) -> None:
        if not (0 <= self.tolerance_share < 1 and self.step_w > 0 and 0 <= self.reject_share < 1):
            raise ValueError(f"tolerance and reject are shares under 1, a step is above zero, got {self}")
        if self.guard < 0 or self.most_unsure_share <= 0:
            raise ValueError(f"a guard is 0 or more, the largest uncertainty above zero, got {self}")

    def bears_w(self, power: Budget, guard: float) -> float:
        """The highest label that such a power passes, with so much of its uncertainty taken off. [W]"""
        return max(self.label_w((power.value - guard * power.expanded) / (1 - self.tolerance_share)), 0.0)

    def label_w(self, power_w: float) -> float:
        """Cut to a whole step. [W]

        >>> Rule(step_w=5).label_w(143.6)
        140.0
        """
        return float(self.step_w) * floor(power_w / self.step_w + 1e-9)


@dataclass(frozen=True, slots=True)
class Rating:
    """One serial's label and verdict."""

    label_w: float  #: by the prediction
    bears_w: float | None  #: the highest label that passes by the shop's guard; None where not rated
    surely_bears_w: float | None  #: the same with the whole uncertainty (k = 2) taken off
    guard: float  #: the shop's
    verdict: Verdict
    why: str
    checks: tuple[Check, ...]

    @property
    def borne(self) -> str:
        """What label it would bear by its own power, in a sentence; empty where that was not rated."""
        if self.bears_w is None or self.surely_bears_w is None:
            return ""
        by = f"with the shop's guard of {self.guard:g}" if self.guard else "at an even risk"
        if self.guard >= SURE:
            return f"By its own power it would bear a label of {self.bears_w:g} W {by}."
        surely = f"surely (its whole uncertainty off) {self.surely_bears_w:g} W"
        return f"By its own power it would bear a label of {self.bears_w:g} W {by}, {surely}."


def judge(
    rated: Rated,
    prediction: Prediction,
    rule: Rule | None = None,
    safety: Sequence[Check] = (),
    *,
    flagged: Sequence[Flag] = (),
) -> Rating:
    """Label, verdict and every rule behind it; `safety` is the checklist, `flagged` tells of the readings."""
    by = rule or Rule()
    label = by.label_w(prediction.points.power_w)
    dated = (_in_date(flagged),) if by.in_date else ()
    read = (_sure(rated, by), _good(flagged), *dated)
    held = (_labelled(rated, label, by), *_predicted(rated, prediction))
    verdict, why = _verdict(rated, prediction, by, (read, held, tuple(safety)))
    power = rated.of("power_w").budget
    bears, surely = (by.bears_w(power, guard) if power else None for guard in (by.guard, max(SURE, by.guard)))
    return Rating(label, bears, surely, by.guard, verdict, why, (*read, *held, *safety))


def _sure(rated: Rated, rule: Rule) -> Check:
    power = rated.of("power_w").budget
    return Check(
        rule="uncertainty of the power rated",
        demand=power.expanded / power.value if power else float("inf"),
        limit=rule.most_unsure_share,
        unit="of it (k = 2)",
        source="the shop's own rule; budget by JCGM 100",
        cure=_surer(rated) if power else rated.of("power_w").why_not,
        room="bench",
    )


def _surer(rated: Rated) -> str:
    """Which term to better first."""
    worst = rated.budgets.of("power_w").terms[0]
    return f"Better the largest term first: {worst.input.name}, {worst.share:.0%} of the variance."


def _good(flagged: Sequence[Flag]) -> Check:
    """Whether the measurement may pass a panel at all."""
    grave = [each for each in flagged if each.grave]
    return Check(
        rule="grave flags of the measurement",
        demand=float(len(grave)),
        limit=0.0,
        unit="flags",
        source="common practice: 500 W/m2 at least, light within 5 %, nothing past the meter's range",
        cure=f"{' '.join(each.told for each in grave)} Read it again.".strip(),
        room="bench",
    )


def _in_date(flagged: Sequence[Flag]) -> Check:
    """The rule of a shop that passes nothing that an instrument past its calibration read."""
    late = [each.told for each in flagged if each.name == OUT_OF_DATE]
    return Check(
        rule="instruments past their calibration",
        demand=float(len(late)),
        limit=0.0,
        unit="instruments",
        source="the shop's own rule; ISO/IEC 17025, 6.4.6, wants them calibrated, recalled",
        cure=f"{' '.join(late)} Have it calibrated, or read again with one that is in date.".strip(),
        room="bench",
    )


def _labelled(rated: Rated, label_w: float, rule: Rule) -> Check:
    power = rated.of("power_w").budget
    tolerance = f"{100 * rule.tolerance_share:.3g}%"
    return Check(
        rule="power rated against the label",
        demand=label_w * (1 - rule.tolerance_share) + (rule.guard * power.expanded if power else 0.0),
        limit=power.value if power else None,
        unit="W",
        source=f"label {label_w:g} W less {tolerance}, {_guarded(rule)} (JCGM 106, recalled)",
        cure="Find the fault, or give it the label that it bears.",
        room="bench",
    )


def _guarded(rule: Rule) -> str:
    """Who bears what is not known of the power."""
    if rule.guard:
        return f"guard {rule.guard:g} of its uncertainty"
    return "no guard: at the bound it is as likely less as more"


_CURES = {
    "power_w": "Look at Isc, Voc and fill factor: whichever is short names the fault.",
    "isc_a": "Short: a shadow, dirt, a cracked or a weaker cell. Over: look at the light and the ammeter.",
    "voc_v": "Short by 0.6 V: a cell missing or turned; by a third or half: a shorted diode; else the heat.",
    "fill_factor": "Short: a poor joint, a cracked ribbon, unequal cells, a shunt: look at both slopes.",
}


def _predicted(rated: Rated, prediction: Prediction) -> Iterator[Check]:
    """Each figure against the panel as built; too much is as suspect as too little, but for the power."""
    for name, cure in _CURES.items():
        budget = rated.of(name).budget
        value, sigma = prediction.of(name)
        off = 0.0 if budget is None else value - budget.value
        what = WORDS[name]
        yield Check(
            rule=f"{what} rated against the prediction",
            demand=max(off, 0.0) if name == "power_w" else abs(off),
            limit=COVERAGE * hypot(sigma, budget.sigma) if budget else None,
            unit=UNITS[name] or "of 1",
            source="the panel's own circuit; both uncertainties with k = 2",
            cure=cure if budget else rated.of(name).why_not,
            room="bench",
        )


def _verdict(
    rated: Rated,
    prediction: Prediction,
    rule: Rule,
    checks: tuple[tuple[Check, ...], tuple[Check, ...], tuple[Check, ...]],
) -> tuple[Verdict, str]:
    """The gravest that is proven; what was not rated or not tested proves nothing, and passes nothing."""
    (sure, *fit), (labelled, *predicted), safety = checks
    power = rated.of("power_w").budget
    floor_w = rule.reject_share * prediction.points.power_w
    if power and power.value + power.expanded < floor_w:
        under = (
            f"{power.value:.4g} W is surely under {floor_w:.4g} W, {rule.reject_share:.0%} of the prediction"
        )
        return "reject", f"{under}: not to be sold, unless its fault is found and can be mended."
    if broken := [check for check in safety if check.covered and not check.passed]:
        return "rework", f"Not safe to sell: {broken[0].rule}. {broken[0].cure}"
    if short := [check for check in predicted if check.covered and not check.passed]:
        return "rework", f"{short[0].rule}: surely off. {short[0].cure}"
    if not sure.passed:
        return "measure again", f"The power is not known well enough. {sure.cure}"
    if unfit := [check for check in fit if not check.passed]:
        return "measure again", unfit[0].cure
    if not labelled.passed:
        return "rework", f"{labelled.rule}: too little. {labelled.cure}"
    if unread := [check for check in safety if not check.passed]:
        return "measure again", f"{unread[0].rule[0].upper()}{unread[0].rule[1:]}: {unread[0].cure}"
    return "pass", "Every rule holds."
