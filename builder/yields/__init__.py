"""The chain of weights: weighings, pooled tests, and what is left to serve.

A table's figures keep the order in which they are declared, and columns of data follow it. So the
modules that declare are imported here, in one order, whichever of them somebody asks for first.
"""

# isort: off
from builder.yields import weighings, chain, forms, means

__all__ = ["chain", "forms", "means", "weighings"]
