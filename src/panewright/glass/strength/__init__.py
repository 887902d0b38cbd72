"""What a pane bears: flaws, rule books, hail, type tests."""
