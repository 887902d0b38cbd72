"""What carries the panel: brackets, screws in timber, a post in the ground, ballast."""
