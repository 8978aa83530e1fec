"""Tests of the tasting calculations."""
