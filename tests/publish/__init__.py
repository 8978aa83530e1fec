"""Tests of the edge that writes to the disk."""
