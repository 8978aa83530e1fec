"""Cooks through the whole chain: their records, their figures, their pages."""
