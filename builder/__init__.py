"""shankbook: from weighings to a costed, searchable site."""

__version__ = "0.1.0"
