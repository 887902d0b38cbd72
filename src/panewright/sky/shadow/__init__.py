"""What stands in the way of the sun, cell by cell."""
