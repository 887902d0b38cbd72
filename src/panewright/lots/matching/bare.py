"""A wiring without what is soldered to it: what its cells alone lose by working at one current."""

from __future__ import annotations

from dataclasses import replace

from panewright.circuit.network import Network, String, Substring


def bare(network: Network) -> Network:
    """The same cells and bypass diodes; joints, buses, leads and blocking diodes take nothing."""
    return Network(tuple(_string(each) for each in network.strings))


def _string(string: String) -> String:
    return String(tuple(_part(each) for each in string.substrings))


def _part(part: Substring) -> Substring:
    return replace(part, joints_ohm=(0.0,) * len(part.cells))
