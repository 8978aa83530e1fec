"""Heating, rules, cooling, energy and capacity against published values."""
