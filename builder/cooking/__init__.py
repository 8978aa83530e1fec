"""Cooks as plans: core heating, published rules, cooling, energy, capacity, schedule."""
