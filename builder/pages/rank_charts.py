"""The picture of what was ranked: rank sums, and how far apart chance alone brings them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.language import tr
from builder.pages.components import Chart, Value
from builder.reading.names import slug
from builder.tasting.comparisons import fewest_for_orders
from builder.tasting.rank_sums import RankSums
from builder.tasting.wording import percent_in_words, tasters_in_words


def rank_intervals(result: TastingResult, found: AttributeResult) -> Chart | None:
    """Rank sums, each with a bar that says what chance may bring; a table beside it has them."""
    sums = found.sums
    if sums is None or not sums.tasters or len(result.samples) < 2:
        return None
    return Chart(
        f"rank-sums-{slug(found.name)}",
        "rank-sums",
        tr("Rank sums for {found}: the highest came first", found=found.name),
        f"{_sums_words(result, sums)} {limit_words(result, found)}",
        tuple(_rows(result, sums)),
        None,
        units={"sum": tr("rank sum: each last place adds 1")},
    )


def _number(value: float) -> str:
    return f"{value:.0f}" if value.is_integer() else f"{value:.1f}"


def _sums_words(result: TastingResult, sums: RankSums) -> str:
    each = zip(result.samples, sums.sums, strict=True)
    return tr(
        "{tasters_in_words}, rank sums: {sums}.",
        tasters_in_words=tasters_in_words(sums.tasters),
        sums=", ".join(f"{sample.words} {_number(value)}" for sample, value in each),
    )


def _enough(result: TastingResult, sums: RankSums) -> bool:
    """Whether so many could tell two samples apart if all agree."""
    return sums.tasters >= _fewest(result)


def _fewest(result: TastingResult) -> int:
    if result.benchmark is not None:
        return result.fewest
    return fewest_for_orders(max(2, len(result.samples)), result.alpha)


def limit_words(result: TastingResult, found: AttributeResult) -> str:
    """What the bars mean, and that they mean nothing where the whole panel shows nothing."""
    return " ".join(_limit_sentences(result, found, found.sums) if found.sums else ())


def _limit_sentences(
    result: TastingResult, found: AttributeResult, sums: RankSums
) -> Iterator[str]:
    if not sums.tasters:
        yield tr("Nobody ranked every sample, so there are no sums to compare.")
        return
    if not _enough(result, sums):
        fewest = _fewest(result)
        yield tr("Fewer than {fewest} tasters can't tell any apart: no bars.", fewest=fewest)
        return
    limit, risk = _number(sums.limit), percent_in_words(result.alpha)
    if result.benchmark is None:
        yield tr(
            "Two bars that touch are sums no more than {limit} apart, which may be by chance "
            "(risk {risk}).",
            limit=limit,
            risk=risk,
        )
    else:
        yield tr(
            "A bar that reaches the line of {benchmark} is no more than {limit} from its sum, "
            "which may be by chance (risk {risk}).",
            limit=limit,
            benchmark=result.samples[result.benchmark].words,
            risk=risk,
        )
    if found.friedman.p_value > result.alpha:
        yield tr("The panel as a whole shows no difference.")


def _rows(result: TastingResult, sums: RankSums) -> Iterator[Mapping[str, Value]]:
    """Half the limit on both sides of each sum; beside a benchmark all of it, and its line."""
    benchmark = result.benchmark
    reach = sums.limit if _enough(result, sums) else 0.0
    for column, (sample, value) in enumerate(zip(result.samples, sums.sums, strict=True)):
        own = 0.0 if column == benchmark else reach if benchmark is not None else reach / 2
        yield {
            "name": sample.words,
            "low": value - own,
            "mid": value,
            "high": value + own,
            "limit": None if benchmark is None else sums.sums[benchmark],
            "text": _number(value),
        }
