"""What a plate costs, what it earns, and what would end a saving."""
