"""Tastings from their files to their pages."""
