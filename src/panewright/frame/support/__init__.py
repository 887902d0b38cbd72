"""What a panel stands on or hangs from, as sold: brackets, posts, timber, wood screws, blocks."""
