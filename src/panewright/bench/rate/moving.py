"""Coefficients that may be off, and the procedure gone through again with them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from panewright.bench.rate.budget import Input, Values
from panewright.bench.rate.heat import Heat
from panewright.curve.moved.choice import Given
from panewright.curve.moved.coefficients import Coefficient, Coefficients, Series
from panewright.curve.moved.corrections import OneDiode, move_1, move_2, move_4
from panewright.curve.moved.interpolation import move_3
from panewright.curve.moved.moved import STC, Moved, Procedure
from panewright.errors import BenchError, Problem

Read = Callable[[Coefficients], Coefficient]

_ALL: dict[str, tuple[str, Read]] = {
    "alpha": ("1/K", lambda by: by.alpha_per_k),
    "beta": ("1/K", lambda by: by.beta_per_k),
    "Rs of procedure 1": ("ohm", lambda by: by.first.ohm),
    "kappa of procedure 1": ("ohm/K", lambda by: by.first.kappa_ohm_k),
    "Rs of procedure 2": ("ohm", lambda by: by.second.ohm),
    "kappa of procedure 2": ("ohm/K", lambda by: by.second.kappa_ohm_k),
    "B1": ("", lambda by: by.b1),
    "B2": ("", lambda by: by.b2),
}
_BY: dict[Procedure, tuple[str, ...]] = {
    "1": ("alpha", "beta", "Rs of procedure 1", "kappa of procedure 1"),
    "2": ("alpha", "beta", "Rs of procedure 2", "kappa of procedure 2", "B1", "B2"),
    "3": (),
    "4": (),
}


def coefficient_inputs(given: Given, heat: Heat, procedure: Procedure) -> Iterator[Input]:
    """Those of the coefficients that the procedure uses, or by which the heat was told."""
    by = given.coefficients
    names = _BY[procedure] if by else ()
    for name in names:
        assert by is not None
        unit, read = _ALL[name]
        yield Input(name, read(by).sigma, unit, read(by).whence)
    if heat.by_voc is not None and "beta" not in names:
        beta = heat.by_voc.beta_per_k
        yield Input("beta", beta.sigma, "1/K", beta.whence)
    if procedure == "4" and given.one_diode:
        one = given.one_diode
        yield Input("series resistance", one.series_ohm.sigma, "ohm", one.series_ohm.whence)
        yield Input("gap of a cell", one.gap_v.sigma, "V", one.gap_v.whence)
        yield Input("alpha", one.alpha_per_k.sigma, "1/K", one.alpha_per_k.whence)


def with_coefficients(given: Given, off: Values) -> Given:
    """What is known of the panel, off by so much."""
    by, one = given.coefficients, given.one_diode
    return replace(
        given, coefficients=_off(by, off) if by else None, one_diode=_diode_off(one, off) if one else None
    )


def moved_by(procedure: Procedure, given: Given) -> Moved:
    """The first curve at STC by that procedure."""
    first, by = given.curves[0], given.coefficients
    if procedure == "3":
        return move_3(given.curves, STC)
    if procedure == "4" and given.one_diode:
        return move_4(first, given.one_diode, STC)
    if by is None:
        reason = f"Procedure {procedure} asks for coefficients, and none are known."
        raise BenchError([Problem(reason, "Give the panel's coefficients, or those of its nameplate.")])
    return (move_1 if procedure == "1" else move_2)(first, by, STC)


def _off(by: Coefficients, off: Values) -> Coefficients:
    def moved(name: str) -> Coefficient:
        own = _ALL[name][1](by)
        return replace(own, value=own.value + off.get(name, 0.0))

    return replace(
        by,
        alpha_per_k=moved("alpha"),
        beta_per_k=moved("beta"),
        first=Series(moved("Rs of procedure 1"), moved("kappa of procedure 1")),
        second=Series(moved("Rs of procedure 2"), moved("kappa of procedure 2")),
        b1=moved("B1"),
        b2=moved("B2"),
    )


def _diode_off(one: OneDiode, off: Values) -> OneDiode:
    def moved(name: str, own: Coefficient) -> Coefficient:
        return replace(own, value=own.value + off.get(name, 0.0))

    return replace(
        one,
        series_ohm=moved("series resistance", one.series_ohm),
        gap_v=moved("gap of a cell", one.gap_v),
        alpha_per_k=moved("alpha", one.alpha_per_k),
    )
