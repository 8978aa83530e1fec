"""From a tasting's file to its panel: the protocol, the rules of the session, the serving plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.records.fields import Measure
from builder.records.tasting_values import PAIRED, WrittenScale
from builder.records.tastings import Tasting
from builder.tasting.plans import (
    PlannedSample,
    ServingPlan,
    SessionRules,
    plan_discrimination_session,
    plan_scoring_session,
)
from builder.tasting.protocols import (
    DUO_TRIO,
    PAIRED_EITHER_WAY,
    TRIANGLE,
    Protocol,
    forced_choice,
)
from builder.tasting.protocols import PAIRED as PAIRED_ONE_WAY
from builder.tasting.scales import Scale

ALPHA, BETA, CAN_TELL, OFF_TEXTURE = 0.05, 0.10, 0.30, 0.20
MOST_PER_TASTER = 6


def level(stated: Measure | None, usual: float) -> float:
    """A share as the file states it, else what is usual."""
    return usual if stated is None else stated.value


def protocol_of(tasting: Tasting) -> Protocol:
    """The protocol of a discrimination test; a pair asks one way where one is expected."""
    match str(tasting.test):
        case "triangle":
            return TRIANGLE
        case "duo-trio":
            return DUO_TRIO
        case str(test) if test == PAIRED:
            return PAIRED_ONE_WAY if tasting.expected else PAIRED_EITHER_WAY
        case test:
            return forced_choice(int(test[0]))


def scale_of(written: WrittenScale, half_points: bool = False, best_is_low: bool = False) -> Scale:
    """A scale as the statistics know it."""
    step = written.step / 2 if half_points else written.step
    return Scale(written.name, written.low, written.high, step, best_is_low)


def session_rules(tasting: Tasting) -> SessionRules:
    """How the session runs: as the file has it, else as is usual."""
    usual = SessionRules()
    return SessionRules(
        per_taster=int(tasting.most_samples.value) if tasting.most_samples else MOST_PER_TASTER,
        portion=tasting.portion.value * 1000 if tasting.portion else usual.portion,
        spare=level(tasting.spare, usual.spare),
        tasting_time=usual.tasting_time,
        palate_break=tasting.palate_break.value * 60
        if tasting.palate_break
        else usual.palate_break,
    )


def pair_of(tasting: Tasting) -> tuple[str, str]:
    """The two samples of a discrimination test, the one that is expected to have more last."""
    first, second = map(str, tasting.samples)
    return (second, first) if tasting.expected == first else (first, second)


def serving_plan(tasting: Tasting, samples: Sequence[PlannedSample]) -> ServingPlan:
    """Ballots, trays and key; they depend on the file and its seed alone.

    samples: one for each of the tasting's, under its name there.
    """
    by_name = {sample.name: sample for sample in samples}
    tasters, rules = [str(taster) for taster in tasting.tasters], session_rules(tasting)
    seed = tasting.draws_from
    if tasting.is_discrimination:
        first, second = pair_of(tasting)
        pair = (by_name[first], by_name[second])
        return plan_discrimination_session(
            pair, tasters, protocol_of(tasting), seed, rules, by_taster=tasting.codes_by_taster
        )
    warm_up = str(tasting.warm_up) if tasting.warm_up else None
    benchmark = str(tasting.benchmark) if tasting.benchmark else None
    return plan_scoring_session(
        list(samples),
        tasters,
        seed,
        rules,
        warm_up,
        benchmark,
        by_taster=tasting.codes_by_taster,
    )


def blind_plan(tasting: Tasting) -> ServingPlan:
    """The plan without its weights and times: codes, orders and key."""
    return serving_plan(tasting, [PlannedSample(str(n), 0.0, 0.0, 1.0) for n in tasting.samples])


def samples_by_code(plan: ServingPlan) -> Mapping[str, Mapping[str, str]]:
    """What each scored code on each taster's tray stands for."""
    return {
        tray.taster: {
            code: line.sample
            for code in tray.codes
            if not (line := plan.meaning(tray.taster, code)).warm_up
        }
        for tray in plan.trays
    }
