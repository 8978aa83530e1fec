"""Pictures: each kind is described once, pages carry only the rows."""
