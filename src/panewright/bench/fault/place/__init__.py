"""Where a fault is: what is believed, what is measured next, and what each outcome would tell."""
