"""The method pages, their sources, and the reference of the files."""
