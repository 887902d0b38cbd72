"""One thin function for each thing a person can ask for."""
