"""Whole sites, from the command line to a real browser."""
