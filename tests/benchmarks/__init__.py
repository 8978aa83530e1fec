"""Timings to run by hand; none of them is a test."""
