"""The reading edge: bytes from disk to trees of text that know where they were written."""
