"""[pump]: a pump that the panels drive by day, straight or behind a controller."""

from __future__ import annotations

from math import sqrt

from panewright.order.answers import Answers
from panewright.order.site.site import Lift

_WATER_N_M3, _HOUR_S = 998.2 * 9.80665, 3600.0
_BEST = 0.92  # no centrifugal pump turns more of its shaft's power into water


def read_pump(answers: Answers) -> Lift | None:
    """The section; None where there is none."""
    if "pump" not in answers.source.tables:
        return None
    for other in ("battery", "generator"):
        if other in answers.source.tables:
            cure = f"Drop [pump] and write it as a [[load]], or drop [{other}]."
            answers.wrong("pump", "A pump here runs by day, without a battery.", cure)
    volts = answers.number("pump.volts")
    answers.assume("pump.most_volts", f"{1.25 * volts:.4g} V", "a quarter over its plate; its sheet says it")
    lift = Lift(
        volts,
        answers.number("pump.current"),
        answers.count("pump.rpm"),
        answers.number("pump.winding"),
        float(answers.exact("pump.friction")),
        float(answers.exact("pump.start")),
        answers.number("pump.most_volts"),
        answers.number("pump.flow"),
        answers.number("pump.head"),
        answers.number("pump.shut_head"),
        answers.number("pump.shaft"),
        answers.number("pump.lift"),
        answers.number("pump.rubs"),
    )
    _judge(answers, lift)
    return lift


def _judge(answers: Answers, lift: Lift) -> None:
    """What no motor and no pump is."""
    if lift.rated_a * lift.winding_ohm >= lift.rated_v:
        reason = (
            f"At {lift.rated_a:g} A the winding alone would take {lift.rated_a * lift.winding_ohm:.3g} V."
        )
        answers.wrong("pump.winding", reason, "Measure it again: tenths of an ohm are usual.")
    if lift.start_share < lift.friction_share:
        answers.wrong(
            "pump.start", "A motor that stands rubs no less than one that turns.", "Exchange the two."
        )
    if lift.head_m >= lift.shut_m:
        answers.wrong(
            "pump.head", "Its head falls with the flow: shut it lifts highest.", "Exchange the two."
        )
    elif lift.shut_m > 0 and _best_share(lift) >= _BEST:
        reason = f"It would make {_best_share(lift):.0%} of its shaft's power into water; none does."
        answers.wrong("pump.shaft", reason, "Read its curve again: flow, heads or power are off.")
    if lift.lift_m >= lift.shut_m > lift.head_m:
        reason = f"It is to lift {lift.lift_m:g} m, and reaches {lift.shut_m:g} m at its rated turns."
        answers.wrong("pump.lift", reason, "Take a pump for that height.")


def _best_share(lift: Lift) -> float:
    """Of the shaft's power, what is in the water at the best flow."""
    falls = (lift.shut_m - lift.head_m) / lift.flow_m3_h**2
    return _WATER_N_M3 * sqrt(lift.shut_m / (3 * falls)) / _HOUR_S * 2 / 3 * lift.shut_m / lift.shaft_w
