"""Student's t for the intervals of pooled tests."""

from __future__ import annotations

import numpy as np
from scipy.special import stdtrit

from builder.engine.arith import Column
from builder.engine.methods import method


@method(
    unit="1",
    source="Student's t, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2 [from memory]",
    title="97.5 % point of Student's t",
)
def t_975(degrees_of_freedom: Column) -> Column:
    """Value that Student's t stays below with probability 97.5 %.

    Formula: the inverse of the distribution function at 0.975.

    Parameters: degrees of freedom. Not known below one.

    >>> float(np.round(t_975(np.float64(10.0)), 3))
    2.228
    """
    usable = np.where(degrees_of_freedom >= 1, degrees_of_freedom, np.nan)
    return np.asarray(stdtrit(usable, 0.975), dtype=np.float64)
