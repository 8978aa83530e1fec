"""Discrimination tests against the standards' tables, scipy and simulation."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import binom, binomtest, chi2, nct, ncx2, norm, t

from builder.tasting.discrimination import (
    discrimination_difference,
    discrimination_similarity,
    maximum_correct_answers,
    minimum_correct_answers,
    share_who_can_tell,
)
from builder.tasting.needed import (
    difference_test_power,
    similarity_test_power,
    tasters_for_difference,
    tasters_for_margin,
    tasters_for_ranks,
    tasters_for_similarity,
)
from builder.tasting.protocols import (
    DUO_TRIO,
    PAIRED,
    PAIRED_EITHER_WAY,
    TRIANGLE,
    Protocol,
    forced_choice,
)
from builder.tasting.thurstone import (
    clopper_pearson,
    sensory_distance,
    thurstonian_share_correct,
)

from .published import Row, label, rows

PROTOCOLS = {
    protocol.name: protocol
    for protocol in (TRIANGLE, DUO_TRIO, PAIRED, forced_choice(2), forced_choice(3))
}


@pytest.mark.parametrize("row", rows("minimum_correct.csv"), ids=label)
def test_minimum_correct_equals_the_standards_table(row: Row) -> None:
    found = minimum_correct_answers(
        int(row["tasters"]), PROTOCOLS[row["protocol"]], float(row["alpha"])
    )
    assert found == (int(row["minimum"]) if row["minimum"] else None)


@pytest.mark.parametrize("row", rows("maximum_correct.csv"), ids=label)
def test_maximum_correct_equals_the_exact_binomial(row: Row) -> None:
    found = maximum_correct_answers(
        int(row["tasters"]), TRIANGLE, float(row["limit"]), float(row["beta"])
    )
    assert found == int(row["maximum"])


@pytest.mark.parametrize("row", rows("share_correct.csv"), ids=label)
def test_share_correct_equals_the_table(row: Row) -> None:
    found = thurstonian_share_correct(float(row["d_prime"]), PROTOCOLS[row["protocol"]])
    assert found == pytest.approx(float(row["share"]), abs=5.1e-5)


def percepts(distance: float, count: int) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Four percepts each: two of the weak sample, two of the strong."""
    generator = np.random.default_rng(20240301)
    return generator.normal([0, 0, distance, distance], 1, (count, 4))


@pytest.mark.parametrize("distance", [0.0, 0.7, 1.5, 2.5])
def test_share_correct_by_simulating_tasters(distance: float) -> None:
    """The decision rules as textbooks define them, 60,000 tasters, 4 standard errors.

    Triangle: the two most alike are taken for the pair. Duo-trio: the cup nearer to the
    reference. m-AFC: the strongest cup.
    """
    count = 60_000
    a, b, strong, other = percepts(distance, count).T
    triangle = np.abs(a - b) < np.minimum(np.abs(a - strong), np.abs(b - strong))
    duo_trio = np.abs(a - b) < np.abs(a - strong)
    two, three = strong > a, (strong > a) & (strong > b)
    del other
    for protocol, right in (
        (TRIANGLE, triangle),
        (DUO_TRIO, duo_trio),
        (PAIRED, two),
        (forced_choice(3), three),
    ):
        share = thurstonian_share_correct(distance, protocol)
        error = np.sqrt(share * (1 - share) / count)
        assert abs(right.mean() - share) < 4 * error, protocol.name


@given(st.floats(0, 6), st.integers(2, 10))
def test_quadrature_equals_an_adaptive_one(distance: float, cups: int) -> None:
    """scipy.integrate.quad of the m-AFC definition."""
    expected = quad(lambda z: norm.cdf(z + distance) ** (cups - 1) * norm.pdf(z), -9, 9)[0]
    found = thurstonian_share_correct(distance, forced_choice(cups))
    assert found == pytest.approx(expected, abs=1e-8)


@given(st.integers(1, 60), st.data())
def test_difference_and_limits_equal_scipys(tasters: int, data: st.DataObject) -> None:
    """scipy.stats.binomtest: p values and exact (Clopper-Pearson) limits."""
    correct = data.draw(st.integers(0, tasters))
    for protocol, guess in ((TRIANGLE, 1 / 3), (DUO_TRIO, 0.5), (forced_choice(4), 0.25)):
        test = binomtest(correct, tasters, guess, alternative="greater")
        found = discrimination_difference(correct, tasters, protocol)
        assert found.p_value == pytest.approx(test.pvalue)
        assert found.different == (
            found.minimum_correct is not None and correct >= found.minimum_correct
        )
    either = binomtest(correct, tasters, 0.5)
    found = discrimination_difference(correct, tasters, PAIRED_EITHER_WAY)
    assert found.p_value == pytest.approx(either.pvalue)
    limits = either.proportion_ci(0.95, "exact")
    assert clopper_pearson(correct, tasters, 0.95) == pytest.approx((limits.low, limits.high))


@given(st.integers(1, 60), st.data())
def test_similarity_equals_scipys_lower_tail(tasters: int, data: st.DataObject) -> None:
    correct = data.draw(st.integers(0, tasters))
    test = discrimination_similarity(correct, tasters, TRIANGLE, 0.3)
    chance = 1 / 3 + 0.3 * 2 / 3
    assert test.p_value == pytest.approx(
        binomtest(correct, tasters, chance, alternative="less").pvalue
    )
    most = test.maximum_correct
    shown = tasters >= 18 and most is not None and tasters / 3 <= most and correct <= most
    assert test.similar == (shown and 3 * correct >= tasters)


@pytest.mark.parametrize(
    ("protocol", "guess"), [(TRIANGLE, Fraction(1, 3)), (DUO_TRIO, Fraction(1, 2))]
)
@pytest.mark.parametrize("beta", [0.05, 0.1])
def test_likeness_has_room_from_just_the_number_that_guessing_brings(
    protocol: Protocol, guess: Fraction, beta: float
) -> None:
    """The largest number of correct answers by scipy's binomial, beside an exact fraction."""
    share = float(guess) + 0.3 * (1 - float(guess))
    seen = set()
    for tasters in range(6, 121):
        few = [c for c in range(tasters) if binom.cdf(c, tasters, share) <= beta]
        room = tasters >= 18 and bool(few) and few[-1] >= tasters * guess
        test = discrimination_similarity(tasters // 2, tasters, protocol, 0.3, beta)
        assert test.can_be_shown == room, tasters
        seen.add((room, bool(few) and few[-1] + 1 >= tasters * guess))
    assert seen >= {(False, False), (False, True), (True, True)}


@pytest.mark.parametrize(
    ("tasters", "beta", "most"), [(18, 0.10, 6), (24, 0.10, 9), (30, 0.05, 11)]
)
def test_the_printed_range_of_similarity_is_kept(tasters: int, beta: float, most: int) -> None:
    """Limits of a triangle at 30 %; smaller panels have none at or above what guessing brings."""
    assert discrimination_similarity(most, tasters, TRIANGLE, 0.3, beta).similar
    assert not discrimination_similarity(most + 1, tasters, TRIANGLE, 0.3, beta).similar
    for few in range(1, 18):
        tests = [discrimination_similarity(c, few, TRIANGLE, 0.3, beta) for c in range(few + 1)]
        assert not any(test.similar for test in tests)
        assert similarity_test_power(few, 0.0, TRIANGLE, 0.3, beta) == 0


@given(st.integers(1, 60), st.data())
def test_similarity_and_its_limit_say_the_same(tasters: int, data: st.DataObject) -> None:
    """The one-sided limit at 1 − beta lies below the share asked about wherever it is claimed."""
    correct = data.draw(st.integers(0, tasters))
    test = discrimination_similarity(correct, tasters, TRIANGLE, 0.3, 0.1)
    at_most = share_who_can_tell(correct, tasters, TRIANGLE, 0.9).at_most
    if test.similar:
        assert at_most <= 0.3 + 1e-9


def test_share_equals_the_amended_standard() -> None:
    """ISO 5495/Amd 1 (read): 21 of 30 -> share .40, SD .167, one-sided lower limit .125.

    32 of 44, either way -> .19 to .71 (.718 unrounded). The standard's limits are
    estimate ± z × SD; ours are exact: wider below in both (.070, .144), a stated departure.
    """
    share = share_who_can_tell(21, 30, PAIRED)
    assert share.estimate == pytest.approx(0.40)
    assert share.standard_deviation == pytest.approx(0.167, abs=5e-4)
    assert share.estimate - 1.645 * share.standard_deviation == pytest.approx(0.125, abs=5e-4)
    assert share.at_least < 0.125
    either = share_who_can_tell(32, 44, PAIRED_EITHER_WAY)
    reach = 1.96 * either.standard_deviation
    assert either.estimate - reach == pytest.approx(0.19, abs=5e-3)
    assert either.estimate + reach == pytest.approx(0.718, abs=5e-4)
    assert either.lower < 0.19


@pytest.mark.parametrize(("tasters", "limit"), [(12, 0.41), (18, 0.33), (30, 0.25)])
def test_upper_limit_at_chance_level(tasters: int, limit: float) -> None:
    """Computed outside the package, no published value compared."""
    share = share_who_can_tell(tasters // 3, tasters, TRIANGLE)
    assert share.estimate == 0
    assert share.at_most == pytest.approx(limit, abs=5e-3)


@given(st.integers(1, 40), st.data())
def test_share_limits_hold_their_estimate(tasters: int, data: st.DataObject) -> None:
    correct = data.draw(st.integers(0, tasters))
    share = share_who_can_tell(correct, tasters, TRIANGLE)
    assert 0 <= share.lower <= share.at_least <= share.estimate + 1e-12
    assert share.estimate <= max(share.at_most, 0) <= share.upper <= 1


def test_distance_and_its_error() -> None:
    """Slope of the 2-AFC curve at d′ is φ(d′/√2)/√2 in closed form."""
    found = sensory_distance(38, 50, PAIRED)
    expected = np.sqrt(2) * norm.ppf(0.76)
    assert found.estimate == pytest.approx(expected, abs=1e-6)
    slope = norm.pdf(expected / np.sqrt(2)) / np.sqrt(2)
    assert found.standard_error == pytest.approx(np.sqrt(0.76 * 0.24 / 50) / slope, rel=1e-5)
    assert found.lower is not None
    assert found.upper is not None
    assert found.lower < expected < found.upper


def test_the_standard_error_is_that_of_repeated_panels() -> None:
    """Triangle, d′ = 1.5, 200 tasters, 4,000 panels; tolerance 4 SE of a standard deviation."""
    share, tasters, panels = thurstonian_share_correct(1.5, TRIANGLE), 200, 4_000
    counts = np.random.default_rng(7).binomial(tasters, share, panels)
    cache = {int(c): sensory_distance(int(c), tasters, TRIANGLE) for c in np.unique(counts)}
    estimates = np.array([cache[int(count)].estimate for count in counts], dtype=float)
    claimed = sensory_distance(round(share * tasters), tasters, TRIANGLE).standard_error
    assert claimed is not None
    # The delta method is first-order: its own error is of order 1/n, allowed as 3 %.
    assert estimates.std() == pytest.approx(claimed, rel=4 / np.sqrt(2 * panels) + 0.03)


@pytest.mark.parametrize("row", rows("tasters_for_triangle.csv"), ids=label)
def test_tasters_needed_for_a_triangle(row: Row) -> None:
    share, alpha, beta = (float(row[key]) for key in ("share", "alpha", "beta"))
    needed = tasters_for_difference(share, TRIANGLE, alpha, 1 - beta)
    assert needed.first == int(row["tasters"])
    assert needed.at_least is not None
    assert needed.at_least >= needed.first


@pytest.mark.parametrize("protocol", [TRIANGLE, PAIRED, PAIRED_EITHER_WAY, DUO_TRIO])
def test_first_and_steady_panels_are_what_they_say(protocol: Protocol) -> None:
    needed = tasters_for_difference(0.4, protocol, 0.05, 0.9)
    assert needed.first is not None
    assert needed.at_least is not None
    power = [difference_test_power(n, 0.4, protocol, 0.05) for n in range(1, needed.at_least + 60)]
    assert min(n for n, p in enumerate(power, start=1) if p >= 0.9) == needed.first
    assert max(n for n, p in enumerate(power, start=1) if p < 0.9) == needed.at_least - 1


def test_similarity_panels_are_what_they_say() -> None:
    needed = tasters_for_similarity(0.4, TRIANGLE, 0.05, 0.8)
    assert needed.first is not None
    assert similarity_test_power(needed.first, 0.0, TRIANGLE, 0.4, 0.05) >= 0.8
    assert similarity_test_power(needed.first - 1, 0.0, TRIANGLE, 0.4, 0.05) < 0.8


@pytest.mark.parametrize(("tasters", "share"), [(60, 0.0), (90, 0.0), (60, 0.1)])
def test_power_of_likeness_by_simulation(tasters: int, share: float) -> None:
    """20,000 panels; those with fewer correct than guessing brings don't count."""
    generator = np.random.default_rng(12)
    can_tell = generator.random((20_000, tasters)) < share
    right = (can_tell | (generator.random((20_000, tasters)) < 1 / 3)).sum(axis=1)
    counted = right[right * 3 >= tasters]
    tests = [discrimination_similarity(c, tasters, TRIANGLE, 0.3) for c in range(tasters + 1)]
    shown = np.array([test.similar for test in tests])[counted].mean()
    power = similarity_test_power(tasters, share, TRIANGLE, 0.3, 0.05)
    assert abs(shown - power) < 4 * np.sqrt(power * (1 - power) / len(counted))


@pytest.mark.parametrize(("tasters", "share"), [(24, 0.3), (12, 0.5), (30, 0.2)])
def test_power_by_simulation(tasters: int, share: float) -> None:
    """20,000 panels in which `share` can tell and the others guess; 4 standard errors."""
    panels = 20_000
    generator = np.random.default_rng(11)
    can_tell = generator.random((panels, tasters)) < share
    right = (can_tell | (generator.random((panels, tasters)) < 1 / 3)).sum(axis=1)
    shown = np.array(
        [discrimination_difference(c, tasters, TRIANGLE).different for c in range(tasters + 1)]
    )[right].mean()
    power = difference_test_power(tasters, share, TRIANGLE, 0.05)
    assert abs(shown - power) < 4 * np.sqrt(power * (1 - power) / panels)


def test_a_false_alarm_is_no_more_frequent_than_stated() -> None:
    for tasters in range(1, 60):
        assert difference_test_power(tasters, 0.0, TRIANGLE, 0.05) <= 0.05
        assert similarity_test_power(tasters, 0.3, TRIANGLE, 0.3, 0.05) <= 0.05 + 1e-12


def test_a_directed_question_needs_far_fewer_tasters() -> None:
    """At equal d′ a directed question takes about a ninth of a triangle's tasters.

    Common practice, no published source; computed here at d′ = 1.
    """
    distance = 1.0
    panels = []
    for protocol in (TRIANGLE, PAIRED):
        correct = thurstonian_share_correct(distance, protocol)
        share = (correct - protocol.guess) / (1 - protocol.guess)
        panels.append(tasters_for_difference(share, protocol, 0.05, 0.9).first)
    triangle, paired = panels
    assert triangle is not None
    assert paired is not None
    assert triangle / paired == pytest.approx(9, abs=1.5)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: minimum_correct_answers(0, TRIANGLE, 0.05), "tasters must be 1 or more"),
        (lambda: minimum_correct_answers(5, TRIANGLE, 1.0), "alpha must be above 0"),
        (lambda: discrimination_difference(6, 5, TRIANGLE), "correct must be from 0 to 5"),
        (lambda: maximum_correct_answers(5, PAIRED_EITHER_WAY, 0.3, 0.05), "correct answer"),
        (lambda: share_who_can_tell(1, 5, TRIANGLE, 0.4), "confidence must be above 0.5"),
        (lambda: thurstonian_share_correct(-1, TRIANGLE), "d_prime must be from 0 to 12"),
        (lambda: forced_choice(1), "from 2 to 10 cups"),
        (lambda: difference_test_power(5, 1.1, TRIANGLE, 0.05), "share must be from 0 to 1"),
    ],
)
def test_values_off_the_range_are_named(call: object, words: str) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=words):
        call()


def test_panels_are_searched_to_the_last_one() -> None:
    """The weakest effect that 1,500 tasters show and 1,499 don't, by scipy's own root finder."""
    last = 1500

    def power(strength: float, tasters: int) -> float:
        critical = t.isf(0.05, tasters - 1)
        return float(nct.sf(critical, tasters - 1, np.sqrt(tasters) * strength))

    ends = [brentq(lambda s, n=n: power(s, n) - 0.8, 0.01, 1) for n in (last - 1, last)]
    found = tasters_for_margin(float(np.mean(ends)), 1.0)
    assert (found.first, found.at_least, found.searched) == (last, last, last)
    ranked = [brentq(lambda s, n=n: ncx2.sf(chi2.isf(0.05, 3), 3, n * s) - 0.8, 1e-4, 1)
              for n in (last - 1, last)]  # fmt: skip
    by_ranks = tasters_for_ranks(3 + 1000 * float(np.mean(ranked)), 3, 1000)
    assert (by_ranks.first, by_ranks.searched) == (last, last)


@pytest.mark.parametrize("protocol", [TRIANGLE, DUO_TRIO])
def test_a_share_too_small_to_find_names_the_last_panel_searched(protocol: Protocol) -> None:
    for found in (
        tasters_for_difference(0.001, protocol),
        tasters_for_similarity(0.001, protocol),
        tasters_for_margin(0.001, 1.0),
    ):
        assert (found.first, found.at_least, found.searched) == (None, None, 1500)


@pytest.mark.parametrize(("margin", "apart"), [(10.0, -3.0), (10.0, 2.0)])
def test_a_shortfall_takes_off_the_margin(margin: float, apart: float) -> None:
    """The first panel with the power by scipy's noncentral t, counted up."""

    def power(n: int) -> float:
        return float(nct.sf(t.isf(0.05, n - 1), n - 1, np.sqrt(n) * (margin + apart) / 12))

    first = next(n for n in range(2, 200) if power(n) >= 0.8)
    assert tasters_for_margin(margin, 12.0, apart).first == first
