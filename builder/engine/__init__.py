"""The heart: figures and formulas, each defined once."""
