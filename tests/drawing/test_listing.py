"""A list refuses rows that do not match its head."""

import pytest

from panewright.drawing.listing import Column, Listing


def test_a_row_of_another_length_is_refused():
    with pytest.raises(ValueError, match="2 columns"):
        Listing("cuts", (Column("piece"), Column("length", "mm", "number")), (("rail",),))
