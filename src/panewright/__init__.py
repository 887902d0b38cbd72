"""Panewright: one order for a hand-built photovoltaic panel, carried through the whole job."""
