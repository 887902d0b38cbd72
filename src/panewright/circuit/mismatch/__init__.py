"""What unequal cells lose together: by formula, and drawn by chance and solved."""
