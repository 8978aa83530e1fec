"""The chain of weights: weighings, pooled tests, and what is left to serve."""
