"""A test of difference with far fewer correct answers than guessing brings: its key is off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.costing.tasting_results import ChoiceResult, TastingResult
from builder.language import tr
from builder.problems import Problem
from builder.records.fields import Measure
from builder.records.written import Value, warning
from builder.tasting.discrimination import share_who_can_tell

# Of panels in which nobody can tell, one in 200 lies below. Common practice, no published source.
SURE = 0.995


def check_below_chance(tastings: Mapping[str, TastingResult]) -> Iterator[Problem]:
    """Warn of answers that chance does not explain: a wrong count, a wrong key, another lead."""
    for result in tastings.values():
        if result.choice is not None:
            yield from _check(result, result.choice)


def _check(result: TastingResult, choice: ChoiceResult) -> Iterator[Problem]:
    test, tasting = choice.difference, result.tasting
    sure = share_who_can_tell(test.correct, test.tasters, choice.protocol, at_most_confidence=SURE)
    if not sure.implausible:
        return
    message = tr(
        "{correct} correct of {tasters} are fewer than guessing alone brings",
        correct=test.correct,
        tasters=test.tasters,
    )
    written = tasting.correct or Measure(test.correct, tasting.test.place, str(tasting.test))
    hint = tr("look at both numbers, and at the key and the codes")
    yield from warning(Value("tastings.correct", written, tasting, tasting.path), message, hint)
