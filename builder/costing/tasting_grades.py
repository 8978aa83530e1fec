"""A challenger beside the benchmark: how it compares by attribute, and that in one sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from builder.costing.decisions import is_worse
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.display.words import listed
from builder.language import Deferred, either, tr
from builder.tasting.comparisons import Equivalence
from builder.tasting.judged import is_notable_majority
from builder.tasting.margin_verdicts import no_worse_verdict
from builder.tasting.verdicts import Grade, Verdict
from builder.tasting.wording import (
    margin_in_words,
    more_tasters_in_words,
    sentences_of,
    tasters_start,
)


class Standing(StrEnum):
    """How a challenger compares with the benchmark, as far as all tests together support it."""

    ABOVE = "above the benchmark"
    BELOW_BY_LESS = "below the benchmark, by no more than the margin"
    WITHIN = "within the margin, above or below"
    NO_WORSE = "no worse by more than the margin"
    WORSE = "worse by more than the margin"
    BELOW = "below the benchmark, how far is still open"
    NOT_SHOWN = "may be worse by more than the margin"
    NOT_ENOUGH = "not enough tasters to say"


MOST_MORE = 100
"""More tasters than a sentence counts: no kitchen seats so many."""
_SAID = {
    Standing.ABOVE: Deferred("above it in {what}"),
    Standing.BELOW_BY_LESS: Deferred("below it, by no more than {margin} points of 100, in {what}"),
    Standing.WITHIN: Deferred("as close as you asked in {what} (within {margin} points of 100)"),
    Standing.NO_WORSE: Deferred("no worse by more than {margin} points of 100 in {what}"),
    Standing.WORSE: Deferred("worse by more than {margin} points of 100 in {what}"),
    Standing.BELOW: Deferred("below it in {what}, by how much is still open"),
    Standing.NOT_SHOWN: Deferred("may be worse by more than {margin} points of 100 in {what}"),
    Standing.NOT_ENOUGH: Deferred("still open in {what}"),
}
_UNSETTLED = {Grade.NOT_SHOWN: Standing.NOT_SHOWN, Grade.NOT_ENOUGH: Standing.NOT_ENOUGH}


@dataclass(frozen=True, slots=True)
class Beside:
    """One challenger beside the benchmark in one attribute."""

    attribute: AttributeResult
    verdict: Verdict
    standing: Standing
    within: Equivalence

    @property
    def both_ways(self) -> bool:
        """Whether it is shown to lie within the margin both ways, by tasters enough."""
        return self.within.equivalent and self.verdict.grade is Grade.NO_WORSE


def beside_benchmark(result: TastingResult, column: int) -> list[Beside]:
    """What each attribute's tests support of one challenger, the first attribute first."""
    if result.benchmark is None:
        return []
    return [
        _beside(result, found, column) for found in result.attributes if column in found.no_worse
    ]


def _beside(result: TastingResult, found: AttributeResult, column: int) -> Beside:
    names = [sample.words for sample in result.samples]
    reported = distinguished(found, column)
    verdict = no_worse_verdict(
        found.no_worse[column], names[column], names[result.benchmark or 0], found.words,
        result.power, reported, result.fewest, is_worse(result, found, column),
    )  # fmt: skip
    within = found.within[column]
    return Beside(found, verdict, _standing(verdict.grade, reported, within.equivalent), within)


def _standing(grade: Grade, reported: int, equivalent: bool) -> Standing:
    if grade is Grade.WORSE:
        return Standing.WORSE
    if grade is not Grade.NO_WORSE:
        return Standing.BELOW if reported < 0 else _UNSETTLED[grade]
    if reported:
        return Standing.ABOVE if reported > 0 else Standing.BELOW_BY_LESS
    return Standing.WITHIN if equivalent else Standing.NO_WORSE


def distinguished(found: AttributeResult, column: int) -> int:
    """Whether the test for difference shows a challenger above (1) or below (−1), else 0.

    All comparisons are counted.
    """
    if found.differences is None:
        return 0
    alpha = 1 - found.differences.confidence + 1e-12
    for line in found.differences.differences:
        if line.sample == column and line.adjusted_p_value <= alpha and line.mean:
            return 1 if line.mean > 0 else -1
    return 0


def against_benchmark(result: TastingResult, column: int) -> str:
    """A challenger's attributes gathered by standing, the first one leads: a sentence each."""
    found = beside_benchmark(result, column)
    if not found or result.benchmark is None:
        return ""
    names = [sample.words for sample in result.samples]
    standings = dict.fromkeys(line.standing for line in found)
    groups = [[line for line in found if line.standing is standing] for standing in standings]
    count = max(line.verdict.tasters for line in found)
    who = tr("{names} against {names2}", names=names[column], names2=names[result.benchmark])
    parts = [_part(group, result) for group in groups]
    parts += list(_most_put(result, found[0].attribute, column))
    return sentences_of((f"{tasters_start(count, who)}{parts[0]}", *parts[1:]))


def _most_put(result: TastingResult, found: AttributeResult, column: int) -> Iterator[str]:
    """Where most tasters put a challenger on the other side of the benchmark than its mean."""
    apart = found.table[:, column] - found.table[:, result.benchmark or 0]
    side = np.sign(np.nansum(apart))
    against, along = int((side * apart < 0).sum()), int((side * apart > 0).sum())
    if side and is_notable_majority(against, along):
        both = int((~np.isnan(apart)).sum())
        below = tr(
            "{against} of {both} put it below in {found}, against the mean",
            against=against,
            both=both,
            found=found.words,
        )
        above = tr(
            "{against} of {both} put it above in {found}, against the mean",
            against=against,
            both=both,
            found=found.words,
        )
        yield below if side > 0 else above


def _part(group: Sequence[Beside], result: TastingResult) -> str:
    """What is said of the attributes of one standing, and how many tasters are missing."""
    margins = {line.within.margin for line in group}
    margin = either(margin_in_words(margin) for margin in sorted(margins))
    what = listed([line.attribute.words for line in group])
    said = tr(_SAID[group[0].standing], margin=margin, what=what)
    tasters = min(line.verdict.tasters for line in group)
    if tasters < result.fewest:
        few = tr("fewer than {fewest} tasters can't settle it", fewest=result.fewest)
        said = tr("{said}, for {few}", said=said, few=few)
    more = max(line.verdict.more or 0 for line in group)
    of_both = "" if result.everybody_gets_all else tr(" of both")
    if more > MOST_MORE:
        return tr(
            "{said} (more than {most_more} more tasters{of_both} would be needed)",
            said=said,
            most_more=MOST_MORE,
            of_both=of_both,
        )
    who = more_tasters_in_words(more)
    if more and tasters + more <= result.fewest:
        # So few say nothing of how far tasters lie apart, so no number of them is sure to do.
        return tr("{said} (it takes at least {who}{of_both})", said=said, who=who, of_both=of_both)
    if more and tasters < result.fewest:
        return tr("{said} (about {who}{of_both} would)", said=said, who=who, of_both=of_both)
    return (
        tr("{said} (about {who}{of_both} would settle it)", said=said, who=who, of_both=of_both)
        if more
        else said
    )


def few_words(result: TastingResult) -> str:
    """What so few tasters can never show."""
    return tr(
        "fewer than {fewest} tasters can't settle it, even if all agree", fewest=result.fewest
    )
