"""A stage's own spread put together with that of like stages, where the two are alike."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy.special import betainc, betaincinv, betaln, fdtr, fdtrc, gammaln

from builder.engine.draws import quantile
from builder.engine.methods import method

# A stage spreads more than its like where chance makes so large a ratio so seldom, and less
# where it makes so small a ratio so seldom: what would make an interval too narrow is taken
# up later. Common practice, no published source.
MORE, LESS = 0.025, 0.01
# Two tests that agree show nothing of how steady a stage is.
_STEADY = 2


@dataclass(frozen=True, slots=True)
class Variance:
    """A sum of squares with its degrees of freedom, none where nothing is known."""

    squares: float = 0.0
    freedom: float = 0.0

    def __add__(self, other: Variance) -> Variance:
        return Variance(self.squares + other.squares, self.freedom + other.freedom)

    def __sub__(self, other: Variance) -> Variance:
        squares, freedom = self.squares - other.squares, self.freedom - other.freedom
        return Variance(max(squares, 0.0), freedom) if freedom > 0 else Variance()

    @property
    def mean(self) -> float:
        """The variance itself; nothing where nothing is known."""
        return self.squares / self.freedom if self.freedom else 0.0


def pooled(own: Variance, like: Variance) -> Variance:
    """What is behind a stage's interval: both, or its own tests alone where they are unlike.

    Tests of its own that agree wholly say nothing against like stages.

    >>> pooled(Variance(4.0, 1.0), Variance(20.0, 9.0))
    Variance(squares=24.0, freedom=10.0)
    >>> pooled(Variance(90.0, 1.0), Variance(20.0, 9.0))
    Variance(squares=90.0, freedom=1.0)
    """
    unlike = own.squares > 0 and is_unlike(
        math.sqrt(own.mean), own.freedom, math.sqrt(like.mean), like.freedom
    )
    return own if unlike else own + like


@method(
    unit="1",
    source="F-test of two variances, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.9; "
    "pooled only where it finds them alike, Bancroft, Annals of Mathematical Statistics 15, 1944, "
    "190-204 [both from memory]",
    title="whether a stage spreads unlike its like stages",
)
def is_unlike(own: float, freedom: float, like: float, like_freedom: float) -> bool:
    """Whether chance would seldom set two standard deviations of one true value so far apart.

    Formula: F = (own / like) squared lies above what chance exceeds 25 times in 1000, or, from
    three tests, below what it stays under 10 times in 1000. Alike, the interval rests on the
    pooled variance, root of (freedom x own squared + like freedom x like squared) / (freedom +
    like freedom), with Student's t of both freedoms together; unlike, on the stage's own tests.

    So nine intervals in ten hold on average over stages that spread alike, not of an odd one: of
    one that spreads twice as far as like stages with 10 degrees of freedom, 61, 71, 76 and 79
    intervals in 100 hold at one, two, three and four tests, for so few seldom show it unlike.

    Parameters: standard deviation of one test of the stage and of like stages, in one unit;
    degrees of freedom of both, none where there are too few tests.

    >>> is_unlike(2.0, 1, 1.0, 10), is_unlike(3.0, 1, 1.0, 10), is_unlike(0.05, 2, 1.0, 10)
    (False, True, True)
    """
    if not (freedom > 0 and like_freedom > 0):
        return False
    if not like > 0:
        return own > 0
    ratio = (own / like) ** 2
    more = fdtrc(freedom, like_freedom, ratio) < MORE
    return bool(more or (freedom >= _STEADY and fdtr(freedom, like_freedom, ratio) < LESS))


@method(
    unit="1",
    source="mean of the root of a chi-square variable and of a beta variable; Student's t "
    "[derived, checked by simulation]",
    title="expected width of a yield's interval",
)
def expected_width(tests: int, like_freedom: float) -> float:
    """Half the interval of 90 % of a stage's yield in expectation, over one test's true spread.

    Formula: with the freedom f of the stage's tests, g of like stages and F = f + g, the total
    of squares is chi-square of F, and the stage's part of it, apart from that, is beta of f / 2
    and g / 2. Where that part shows the stage alike, half the interval is the root of the
    total / F times t of F; where not, the root of the stage's squares / f times t of f; both
    over the root of the tests.

    Parameters: tests of the stage, at least one; degrees of freedom of like stages that spread
    as it does, at least one if there is only one test.

    >>> [round(expected_width(tests, 10), 2) for tests in (1, 2, 3, 4)]
    [1.77, 1.47, 1.05, 0.89]
    >>> [round(expected_width(tests, 0), 2) for tests in (2, 3, 4)]
    [3.56, 1.49, 1.08]
    """
    own, both = tests - 1.0, tests - 1.0 + like_freedom
    whole = quantile(0.95, both) / math.sqrt(both)
    if own and like_freedom:
        whole = _mean_of_both(own, like_freedom, whole)
    root = math.sqrt(2) * math.exp(gammaln((both + 1) / 2) - gammaln(both / 2))
    return float(root * whole / math.sqrt(tests))


def _mean_of_both(own: float, like: float, whole: float) -> float:
    """The mean over the stage's part of all squares: alike as `whole`, or its own tests alone."""
    a, b = own / 2, like / 2
    most = betaincinv(a, b, 1 - MORE)
    least = betaincinv(a, b, LESS) if own >= _STEADY else 0.0
    unlike = MORE + (LESS if own >= _STEADY else 0.0)
    beyond = 1 - betainc(a + 0.5, b, most) + betainc(a + 0.5, b, least)
    roots = math.exp(betaln(a + 0.5, b) - betaln(a, b)) * beyond
    return float((1 - unlike) * whole + roots * quantile(0.95, own) / math.sqrt(own))
