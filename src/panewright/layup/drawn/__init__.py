"""The lay-up drawn: both sides, ends, wiring, ribbon, template."""
