"""An array planned: everything composed for one site."""
