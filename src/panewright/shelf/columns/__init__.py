"""What each kind of part is described by: the columns of the shelf's tables.

An order that describes a part in full uses the same columns under its own key.
"""
