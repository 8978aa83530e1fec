"""Tests: figures against something outside the project."""
