"""All samples beside each other where no benchmark is named: groups in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.costing.decisions import main_study
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.display.words import listed
from builder.language import tr
from builder.tasting.comparisons import fewest_for_orders
from builder.tasting.pairs import Pair
from builder.tasting.wording import chance_in_words, tasters_start


def groups_sentence(result: TastingResult, found: AttributeResult) -> str:
    """Say which samples lie above which, all pairs counted; means and ranks where they disagree."""
    names = [sample.words for sample in result.samples]
    start = tasters_start(found.friedman.tasters, found.words)
    reported = [pair for pair in found.pairs if _reported(pair, _level(result, found))]
    if reported:
        chance = chance_in_words(max(pair.adjusted_p_value for pair in reported))
        groups = f"{'; '.join(_groups(reported, names))}{_unplaced(reported, names)}"
        counted = tr("(every pair counted, {chance} at most)", chance=chance)
        return f"{start}{groups} {counted}{_other_order(found, reported, names)}."
    if found.friedman.p_value <= result.alpha:
        chance = chance_in_words(found.friedman.p_value)
        return tr(
            "{start}ranks differ ({chance}), but means show no two samples apart.",
            start=start,
            chance=chance,
        )
    few = fewest_for_orders(len(names), _level(result, found))
    if found.friedman.tasters < few:
        return tr(
            "{start}fewer than {few} tasters can't tell any two samples apart, even if all agree.",
            start=start,
            few=few,
        )
    return tr(
        "{start}they could not tell any two samples apart; that is no proof of likeness.",
        start=start,
    )


def _level(result: TastingResult, found: AttributeResult) -> float:
    """The risk that the decision on the durations takes for the score, else the tasting's own."""
    decides = result.decision is not None and found is main_study(result)
    return result.decision.level if result.decision and decides else result.alpha


def _unplaced(reported: Sequence[Pair], names: Sequence[str]) -> str:
    placed = {column for pair in reported for column in (pair.first, pair.second)}
    rest = [name for column, name in enumerate(names) if column not in placed]
    if not rest:
        return ""
    return tr("; they could not tell {rest} from any other", rest=listed(rest))


def _reported(pair: Pair, alpha: float) -> bool:
    return pair.difference is not None and pair.adjusted_p_value <= alpha


def _groups(reported: Sequence[Pair], names: Sequence[str]) -> Iterator[str]:
    """Samples that lie above the same ones are named together."""
    below: dict[int, set[int]] = {}
    for high, low in (pair.ordered for pair in reported):
        below.setdefault(high, set()).add(low)
    gathered: dict[tuple[int, ...], list[str]] = {}
    for high, lows in below.items():
        gathered.setdefault(tuple(sorted(lows)), []).append(names[high])
    for under, highs in sorted(gathered.items(), key=lambda item: -len(item[0])):
        yield tr(
            "{highs} above {under}",
            highs=listed(highs),
            under=listed([names[low] for low in under]),
        )


def _other_order(found: AttributeResult, reported: Sequence[Pair], names: Sequence[str]) -> str:
    """Pairs whose mean ranks lie the other way round."""
    ranks = found.friedman.mean_ranks
    turned = [
        tr("{names} above {names2}", names=names[low], names2=names[high])
        for high, low in (pair.ordered for pair in reported)
        if (ranks[high] or 0.0) < (ranks[low] or 0.0)
    ]
    return tr("; by mean ranks {turned} instead", turned=listed(turned)) if turned else ""
