"""The mean of a stage's test yields and their spread, as roasting studies print them.

Each test counts alike here. Costs rest on the ratio of sums, in which a large batch counts
for more; the two agree only where the tests weigh alike or yield alike.
"""

from __future__ import annotations

from builder.engine.arith import Column, either
from builder.engine.tables import formula
from builder.yields.weighings import STAGE, TEST

SAMPLE = "mean and standard deviation of a sample (n - 1): common practice, no published source"

STAGE.total("test_yields", TEST, "test_yield", "stage", "Sum of the yields of all tests")


@formula(STAGE, unit="share", source=SAMPLE)
def mean_test_yield(test_yields: Column, tests_count: Column) -> Column:
    """Mean of the tests' yields, each test counting alike; not what costs rest on."""
    return test_yields / tests_count


TEST.lookup("mean_test_yield", "stage", STAGE)


@formula(TEST, unit="factor", source=SAMPLE)
def squared_deviation(test_yield: Column, mean_test_yield: Column) -> Column:
    """Squared distance of a test's yield from the mean of the tests' yields."""
    return (test_yield - mean_test_yield) ** 2


STAGE.total(
    "squared_deviations", TEST, "squared_deviation", "stage", "Sum of the squared deviations"
)


@formula(STAGE, unit="share", source=SAMPLE)
def test_yield_spread(squared_deviations: Column, tests_count: Column) -> Column:
    """Standard deviation of the tests' yields about their mean.

    Not known with fewer than two tests.
    """
    return either(tests_count > 1, (squared_deviations / (tests_count - 1)) ** 0.5, float("nan"))
