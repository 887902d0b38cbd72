"""Which cell goes where in an order's panels: asked, dealt, told, put on paper, changed at the bench."""
