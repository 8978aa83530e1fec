"""Counts: actual against theoretical food cost."""
