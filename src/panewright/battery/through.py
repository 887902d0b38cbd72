"""A bank through one hour: its voltage at a current, the current it takes at a voltage, what it keeps."""

from __future__ import annotations

from panewright.battery.bank import LEAD, Store
from panewright.battery.lead import (
    REST_EMPTY_V,
    REST_RISE_V,
    lead_charge_v,
    lead_discharge_v,
    lead_kept,
    lead_rest_v,
)
from panewright.battery.lfp import LFP_KEPT, lfp_held_v, lfp_rest_v, lfp_v

_HALVINGS = 40
_STILL = 1e-9  # of the capacity: nothing moves


def bank_v(store: Store, s: float, amps: float) -> float:
    """Voltage of a bank; `amps` above 0 charge it. [V]"""
    rate = amps / store.capacity_ah
    if store.kind != LEAD:
        return store.cells * lfp_v(s, rate)
    if amps > 0.0:
        return store.cells * max(lead_charge_v(s, rate, store.bank_c), lead_rest_v(s))
    return store.cells * lead_discharge_v(s, -rate, store.bank_c)


def rest_v(store: Store, s: float) -> float:
    """Voltage at rest. [V]"""
    return store.cells * (lead_rest_v(s) if store.kind == LEAD else lfp_rest_v(s))


def held_wh(store: Store, s: float) -> float:
    """Energy in the bank: what it would give if it gave all of its charge at the voltage of rest. [Wh]"""
    each = s * (REST_EMPTY_V + 0.5 * REST_RISE_V * s) if store.kind == LEAD else lfp_held_v(s)
    return store.cells * store.capacity_ah * each


def kept_share(store: Store, s: float, amps: float) -> float:
    """Share of a charging current that stays. [-]"""
    if store.kind != LEAD:
        return LFP_KEPT
    return lead_kept(s, max(amps, 0.0) / store.capacity_ah)


def hour_v(store: Store, s: float, amps: float) -> float:
    """Mean voltage over an hour that begins at a state of charge. [V]

    The voltage at rest moves meanwhile: its mean is what the bank comes to hold over the charge it keeps, so
    that no hour gives back more than it took.
    """
    moved = amps / store.capacity_ah * (kept_share(store, s, amps) if amps > 0.0 else 1.0)
    if store.kind == LEAD:  # straight over the state of charge: its mean is its middle
        return bank_v(store, s + 0.5 * moved, amps)
    after = min(max(s + moved, 0.0), 1.0)
    if abs(after - s) < _STILL:
        return bank_v(store, s, amps)
    mean = (held_wh(store, after) - held_wh(store, s)) / (store.capacity_ah * (after - s))
    return mean + bank_v(store, s, amps) - rest_v(store, s)


def taken_a(store: Store, s: float, volt: float) -> float:
    """Greatest current the bank takes for an hour without rising above a voltage in its mean. [A]"""
    if not store.may_charge or bank_v(store, s, 0.0) >= volt:
        return 0.0
    low, high = 0.0, store.most_a
    if hour_v(store, s, high) <= volt:
        return high
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if hour_v(store, s, middle) <= volt:
            low = middle
        else:
            high = middle
    return low
