"""What a charge controller asks of the string at its input.

A direct controller joins string and battery by a switch: the string sits at the battery's voltage plus
what is lost on the way, and whatever more it could give is lost. An MPPT controller works the string at
its best voltage and steps it down: it needs some headroom above the battery. Both die of too much
open-circuit voltage on a cold bright morning.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.battery.load import Controller
from panewright.battery.window import Window


@dataclass(frozen=True, slots=True)
class InputWindow:
    """Voltages between which a string must lie at the controller's input."""

    least_v: float  #: working, to finish the charge
    most_v: float  #: open circuit, on the coldest morning
    usual_v: float  #: where a direct controller holds its input most of the time


def input_window(controller: Controller, window: Window) -> InputWindow:
    """What the string must give at the controller's terminals. [V]

    >>> from panewright.battery.load import Battery
    >>> from panewright.battery.window import charge_window
    >>> asked = input_window(Controller("direct", 55.0, 0.3), charge_window(Battery("agm", 12.0)))
    >>> round(asked.least_v, 3)
    14.7
    """
    above = controller.drop_v + (controller.headroom_v if controller.kind == "mppt" else 0.0)
    return InputWindow(window.absorption_v + above, controller.most_v, window.usual_v + above)


def battery_power_w(controller: Controller, window: Window, input_a: float, input_v: float) -> float:
    """Power that reaches the battery from a current at the controller's input. [W]

    A direct controller passes the current on to the battery's own voltage; an MPPT controller passes on
    the power, less its own loss.
    """
    if controller.kind == "direct":
        return input_a * window.usual_v
    return controller.efficiency * input_a * max(0.0, input_v - controller.drop_v)
