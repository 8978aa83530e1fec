"""Checks of the components, the pictures and the page scripts."""
