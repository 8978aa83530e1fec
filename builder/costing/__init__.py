"""The model put together, and the book filled from the records."""
