"""The shop's pages: what the commands do, for a thumb on a tablet; no arithmetic."""
