"""Commands; no arithmetic."""
