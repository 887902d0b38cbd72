"""The pane with what lies on it and what is done to it: choice, cells, touch, cutting, safe wind."""
