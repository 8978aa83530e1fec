"""Codes and serving plans; the rules are common practice, no published source."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.tasting.codes import blind_codes, mistakable, usable_codes
from builder.tasting.draws import Stream, random_words
from builder.tasting.plans import (
    PlannedSample,
    ServingPlan,
    SessionRules,
    plan_discrimination_session,
    plan_scoring_session,
)
from builder.tasting.protocols import DUO_TRIO, PAIRED, TRIANGLE, Protocol, forced_choice
from builder.tasting.weights_to_cook import tasting_weight_to_cook

SAMPLES = (
    PlannedSample("shank 24 h", 1440, 25, 0.6),
    PlannedSample("shank 36 h", 2160, 25, 0.55),
    PlannedSample("fillet", 90, 15, 0.9),
)
TASTERS = tuple(f"T{number:02}" for number in range(1, 13))
RULES = SessionRules(portion=30, spare=0.1)


def scoring(seed: str = "demo") -> ServingPlan:
    return plan_scoring_session(SAMPLES, TASTERS, seed, RULES, warm_up="fillet", benchmark="fillet")


@settings(max_examples=30)
@given(st.text(max_size=8), st.integers(0, 200))
def test_codes_are_distinct_and_read_as_no_rank(seed: str, count: int) -> None:
    codes = blind_codes(count, seed)
    assert len(codes) == len(set(codes)) == count
    for code in codes:
        assert len(code) == 3
        assert len(set(code)) == 3
        assert not set(code) & set("019")
        assert code not in "23456789"
        assert code not in "98765432"


@pytest.mark.parametrize("rank", ["100", "111", "123", "321", "999", "777", "234", "911", "001"])
def test_ranks_are_never_codes(rank: str) -> None:
    assert rank not in usable_codes()


def test_few_codes_survive_a_slip_of_the_pen() -> None:
    for seed in ("a", "b", "c", "d"):
        codes = blind_codes(20, seed)
        slips = [(a, b) for a in codes for b in codes if a < b and mistakable(a, b)]
        assert slips == []


def test_codes_follow_the_seed_alone() -> None:
    assert blind_codes(12, "one") == blind_codes(12, "one")
    assert blind_codes(12, "one") != blind_codes(12, "two")


def test_draws_are_those_of_the_documented_recipe() -> None:
    """SHA-256 (FIPS 180-4) of label, separator and counter, read big-endian, modulo 1000.

    Worked with hashlib outside the package; guards plans against a silent change of recipe.
    """
    import hashlib

    block = hashlib.sha256(b"seed\x1f0").digest()
    expected = [int.from_bytes(block[at : at + 8], "big") % 1000 for at in (0, 8, 16, 24)]
    stream = Stream("seed")
    assert [stream.below(1000) for _ in range(4)] == expected


def test_shuffles_are_even() -> None:
    """Chi-square of the first place over 4 items stays below its 99.9 % point, 16.27 (3 df)."""
    firsts = Counter(Stream("even", number).shuffled(range(4))[0] for number in range(2000))
    assert sum((firsts[item] - 500) ** 2 / 500 for item in range(4)) < 16.27


def test_raw_words_are_pcg64s() -> None:
    first, second = random_words((3, 2), "a"), random_words((3, 2), "a")
    assert np.array_equal(first, second)
    assert not np.array_equal(first, random_words((3, 2), "b"))


def test_nothing_on_a_ballot_or_tray_names_a_sample() -> None:
    plan = scoring()
    shown = repr(plan.ballots) + repr(plan.trays)
    assert all(sample.name not in shown for sample in SAMPLES)
    assert {line.sample for line in plan.key} == {sample.name for sample in SAMPLES}


def test_everybody_starts_with_the_warm_up_under_its_own_code() -> None:
    plan = scoring()
    warm = next(line for line in plan.key if line.warm_up)
    for ballot in plan.ballots:
        assert ballot.servings[0].code == warm.code
        assert [serving.warm_up for serving in ballot.servings] == [True, False, False, False]
        assert [serving.place for serving in ballot.servings] == [0, 1, 2, 3]
    assert sum(line.code == warm.code for line in plan.key) == 1


@pytest.mark.parametrize("count", range(1, 12))
def test_a_sample_added_later_moves_no_code(count: int) -> None:
    samples = [PlannedSample(f"shank {hours} h", 60 * hours, 25, 0.6) for hours in range(1, 13)]

    def code_of(served: int, warm_up: str | None) -> dict[tuple[str, bool], str]:
        plan = plan_scoring_session(samples[:served], TASTERS, "demo", RULES, warm_up)
        return {(line.sample, line.warm_up): line.code for line in plan.key}

    before = code_of(count, "shank 1 h")
    after = code_of(count + 1, "shank 1 h")
    assert before.items() < after.items()
    assert len(set(after.values())) == count + 2
    assert code_of(count, None).items() < before.items()


def test_trays_follow_the_ballots() -> None:
    plan = scoring()
    for tray, ballot in zip(plan.trays, plan.ballots, strict=True):
        assert tray.taster == ballot.taster
        assert tray.codes == tuple(serving.code for serving in ballot.servings)


def test_weights_to_cook_cover_every_serving() -> None:
    """12 tasters x 30 g x 1.1 / 0.6 = 660 g; the fillet twice over, as it warms up too."""
    plan = scoring()
    raw = {line.sample: line.raw for line in plan.cooking}
    assert raw["shank 24 h"] == pytest.approx(660)
    assert raw["shank 36 h"] == pytest.approx(720)
    assert raw["fillet"] == pytest.approx(2 * 12 * 30 * 1.1 / 0.9)


def test_cooks_are_started_backwards_from_one_service() -> None:
    plan = scoring()
    leads = {line.sample: line.start for line in plan.cooking}
    assert leads == {"shank 24 h": 1465, "shank 36 h": 2185, "fillet": 105}
    order = [step.before for step in plan.timetable]
    assert order == sorted(order, reverse=True)
    assert plan.timetable[0].sample == "shank 36 h"
    assert plan.timetable[-1].before == 0


def test_the_session_lasts_its_tastings_and_breaks() -> None:
    plan = scoring()
    assert plan.session == pytest.approx(4 * 2.0 + 3 * 1.5)


def test_a_plan_repeats_and_follows_its_seed() -> None:
    assert scoring() == scoring()
    assert scoring("a").key != scoring("b").key


@pytest.mark.parametrize(
    ("protocol", "arrangements"),
    [(TRIANGLE, 6), (DUO_TRIO, 4), (PAIRED, 2), (forced_choice(3), 3)],
)
def test_discrimination_sessions_use_every_arrangement_equally(
    protocol: Protocol, arrangements: int
) -> None:
    """ISO 4120 (six arrangements), ISO 10399 (four), ISO 5495 (two); the last from memory."""
    pair = (SAMPLES[0], SAMPLES[2])
    plan = plan_discrimination_session(pair, TASTERS, protocol, "demo", RULES)
    sample_of = {line.code: line.sample for line in plan.key}
    seen = Counter(tuple(sample_of[code] for code in tray.codes) for tray in plan.trays)
    assert len(seen) == arrangements
    assert set(seen.values()) == {len(TASTERS) // arrangements}
    assert all(len(set(tray.codes)) == len(tray.codes) for tray in plan.trays)
    assert plan.sentence.startswith(f"12 tasters, {protocol.name}: each of the {arrangements} ")


@pytest.mark.parametrize(
    ("samples", "tasters", "words"),
    [
        (SAMPLES, (), "tasters must be at least 1"),
        (SAMPLES, ("T1", "T1"), "tasters must be at least 1, each named once"),
        ((), ("T1",), "samples must be at least 1"),
    ],
)
def test_bad_lists_are_refused(
    samples: tuple[PlannedSample, ...], tasters: tuple[str, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        plan_scoring_session(samples, tasters, "seed", RULES)


def test_a_warm_up_that_is_no_sample_is_named() -> None:
    with pytest.raises(ValueError, match="brisket is none of the samples"):
        plan_scoring_session(SAMPLES, TASTERS, "seed", RULES, warm_up="brisket")


def test_one_taster_and_one_sample_make_a_plan() -> None:
    plan = plan_scoring_session(SAMPLES[:1], ("T1",), "seed", RULES)
    assert len(plan.ballots[0].servings) == 1
    assert plan.sentence.startswith("1 taster,")


def test_impossible_kitchens_are_refused() -> None:
    with pytest.raises(ValueError, match="servable_yield"):
        PlannedSample("x", 10, 10, 0)
    with pytest.raises(ValueError, match="0 min"):
        PlannedSample("x", -1, 10, 0.5)
    with pytest.raises(ValueError, match="portion"):
        SessionRules(portion=0)
    with pytest.raises(ValueError, match="servings"):
        tasting_weight_to_cook(-1, 20, 0.1, 0.6)
    assert tasting_weight_to_cook(0, 20, 0.1, 0.6) == 0  # a sample that nobody is served


def test_every_sample_is_cooked_for_its_servings_and_a_share_to_spare() -> None:
    """Weight is conserved: servings of the portion and the spare ones, and raw times the yield."""
    rules = SessionRules(per_taster=3, portion=25, spare=0.2)
    plan = plan_scoring_session(SAMPLES, TASTERS, "demo", rules)
    yields = {sample.name: sample.servable_yield for sample in SAMPLES}
    assert plan.cooking
    for line in plan.cooking:
        assert line.servable == pytest.approx(line.servings * (25 + 5))
        assert line.raw * yields[line.sample] == pytest.approx(line.servable)
