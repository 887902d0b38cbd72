"""The shop's records as a whole: where they lie, kept safe, looked over, put back."""
