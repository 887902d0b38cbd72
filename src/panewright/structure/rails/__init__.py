"""Rails under the pane's edge: sag, twist, stress, brackets, choice."""
