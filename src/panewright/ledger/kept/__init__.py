"""Records kept safe: backed up, put back, looked over, written out, brought to a newer schema."""
