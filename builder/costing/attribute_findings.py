"""The tests of what was scored or judged in a tasting, each as a row of figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.costing.findings import (
    PAIR,
    RIGHT,
    About,
    Finding,
    Findings,
    Tests,
    Values,
    stated_entry,
)
from builder.costing.panels import OFF_TEXTURE
from builder.costing.tasting_results import (
    AttributeResult,
    RightResult,
    TastingAnalysis,
)
from builder.engine.book import Book, Entry, Origin
from builder.language import Deferred, tr
from builder.tasting import agreement, comparisons, durations, pairs, ranks, scales, scores
from builder.tasting.durations import DurationCurve
from builder.tasting.findings import FINDING
from builder.tasting.rank_sums import rank_sums
from builder.tasting.right import just_about_right_shares, right_window
from builder.tasting.scores import ScoreAnova
from builder.tasting.studies import not_distinguishable_from_best

_ANOVA, _REPEATED = Deferred("analysis of variance"), Deferred("repeated")
_TASTERS, _OVER_TASTERS = Deferred("tasters"), Deferred("samples over tasters")
_NO_WORSE, _WORSE = Deferred("no worse"), Deferred("worse")


def add_findings(book: Book, analyses: Mapping[str, TastingAnalysis]) -> Findings:
    """Add a row for every test of the tastings that were held."""
    rows = tuple(row for found in analyses.values() for row in AttributeTests(found).all())
    for row in rows:
        book.add(FINDING, values=row.values, who=row.who)
    return Findings(rows, {row.key: number for number, row in enumerate(rows)})


class AttributeTests(Tests):
    """The tests of one tasting: of its choices, and attribute by attribute."""

    def all(self) -> Iterator[Finding]:
        """Every test: choices, then attributes, then just about right."""
        if self.found.choice is not None:
            yield from self.choice(self.found.choice)
        for attribute in self.found.attributes:
            yield from self.scored(attribute)
            yield from self.beside(attribute)
            yield from self.over_time(attribute)
            yield from self.panel(attribute)
        for right in self.found.rights:
            yield from self.right(right)

    def scored(self, found: AttributeResult) -> Iterator[Finding]:
        """Do samples differ: analysis of variance, ranks, means and mean ranks, all pairs."""
        friedman, about = found.friedman, self.about(found.name)
        if found.anova is not None:
            yield from self.anova(found.name, _ANOVA, found.anova)
            for sample, mean in zip(about, found.anova.adjusted_means, strict=True):
                tasters = found.anova.tasters
                yield self.test(
                    Deferred("mean"),
                    scores.score_anova,
                    sample,
                    "points",
                    tasters=tasters,
                    estimate=mean,
                )
        yield self.test(
            Deferred("Friedman"),
            ranks.friedman_test,
            About(found.name),
            tasters=friedman.tasters,
            risk=self.alpha,
            statistic=friedman.statistic,
            degrees_of_freedom=friedman.degrees,
            p_value=friedman.p_value,
            adjusted_p_value=found.holm_p_value,
        )
        for sample, rank in zip(about, friedman.mean_ranks, strict=True):
            yield self.test(
                Deferred("mean rank"),
                ranks.friedman_test,
                sample,
                "ranks",
                tasters=friedman.tasters,
                estimate=rank,
            )
        yield from self.sums(found)
        for pair in found.pairs:
            both = About(found.name, self.names[pair.first], self.names[pair.second])
            yield self.test(
                PAIR,
                pairs.all_pairs,
                both,
                "points apart",
                estimate=pair.difference,
                adjusted_p_value=pair.adjusted_p_value,
            )

    def sums(self, found: AttributeResult) -> Iterator[Finding]:
        """Rank sums of what was ranked, and how far apart chance alone brings them."""
        if found.sums is None or not found.sums.tasters:
            return
        named = [(Deferred("rank sum"), *each)
                 for each in zip(self.about(found.name), found.sums.sums, strict=True)]  # fmt: skip
        limit = Deferred("limit of rank sums"), About(found.name), found.sums.limit
        for test, about, value in (*named, limit):
            yield self.test(
                test,
                rank_sums,
                about,
                "rank sums",
                tasters=found.sums.tasters,
                risk=self.alpha,
                estimate=value,
            )

    def anova(self, attribute: str, test: str, table: ScoreAnova) -> Iterator[Finding]:
        """Samples and tasters over the error; repeated, samples over the interaction too."""
        lines = [("", table.samples, table.error), (_TASTERS, table.panel, table.error)]
        if table.samples_over_tasters is not None and table.interaction is not None:
            over = table.samples_over_tasters, table.interaction
            lines.append((_OVER_TASTERS, *over))
        error = table.error.mean_square
        for more, line, under in lines:
            yield self.test(
                ", ".join(filter(None, (test, more))),
                scores.score_anova,
                About(attribute),
                tasters=table.tasters,
                risk=self.alpha,
                statistic=line.f_value,
                degrees_of_freedom=line.degrees,
                error_degrees_of_freedom=under.degrees,
                p_value=line.p_value,
                spread=None if error is None else error**0.5,
            )

    def beside(self, found: AttributeResult) -> Iterator[Finding]:
        """Every challenger beside the benchmark: difference, ranks, no worse, within."""
        about, apart, ranked = self.about(found.name), found.differences, found.ranks
        for line in apart.differences if apart else ():
            yield self.test(
                Deferred("difference"),
                comparisons.benchmark_differences,
                about[line.sample],
                "points apart",
                tasters=line.tasters,
                risk=self.alpha,
                estimate=line.mean,
                spread=line.spread,
                lower=line.lower,
                upper=line.upper,
                confidence=1 - self.found.alpha,
                p_value=line.p_value,
                adjusted_p_value=line.adjusted_p_value,
            )
        for rank in ranked.comparisons if ranked else ():
            yield self.test(
                Deferred("ranks"),
                ranks.benchmark_ranks,
                about[rank.sample],
                tasters=ranked.tasters if ranked else None,
                risk=self.alpha,
                statistic=rank.rank_sum_difference,
                above=rank.above,
                alike=rank.alike,
                below=rank.below,
                adjusted_p_value=rank.adjusted_p_value,
            )
        for column in found.no_worse:
            yield from self.against_margin(found, column, about[column])

    def against_margin(
        self, found: AttributeResult, column: int, about: About
    ) -> Iterator[Finding]:
        """No worse by the margin, worse by it, within it both ways."""
        test, within = found.no_worse[column], found.within[column]
        shared = tr("the tasting's risk, shared among the challengers")
        values: Values = {
            "tasters": test.tasters,
            "margin": self.margin(found.attribute),
            "risk": Entry(within.alpha, Origin(self.alpha.origin.place, shared)),
            "estimate": test.mean,
        }
        bounds: Values = {
            "spread": test.spread, "at_least": test.lower, "at_most": test.upper,
            "confidence": test.confidence,
        }  # fmt: skip
        for words, p_value in ((_NO_WORSE, test.p_value), (_WORSE, test.worse_p_value)):
            yield self.test(
                words,
                comparisons.no_worse_by_margin,
                about,
                "points apart",
                **values,
                **bounds,
                p_value=p_value,
            )
        yield self.test(
            Deferred("within"),
            comparisons.equivalence_within_margin,
            about,
            "points apart",
            **values,
            lower=within.lower,
            upper=within.upper,
            confidence=1 - 2 * within.alpha,
            p_value=within.p_value,
        )

    def over_time(self, found: AttributeResult) -> Iterator[Finding]:
        """Trend, and what is found of the durations."""
        if found.trend is not None:
            yield self.test(
                Deferred("trend"),
                ranks.page_trend,
                About(found.name),
                tasters=found.trend.tasters,
                risk=self.alpha,
                statistic=found.trend.statistic,
                p_value=found.trend.p_value,
            )
        if found.study is None:
            return
        about = [self.about(found.name)[column] for column in self.found.series]
        tasters = found.study.tasters
        for sample, p_value in zip(about, found.study.best_tried.p_values, strict=True):
            yield self.test(
                Deferred("best tried"),
                not_distinguishable_from_best,
                sample,
                tasters=tasters,
                risk=self.alpha,
                adjusted_p_value=p_value,
            )
        if (curve := found.study.curve) is not None:
            yield from self.curve(curve, about, found.study.hours, tasters)

    def curve(
        self, curve: DurationCurve, about: Sequence[About], hours: Sequence[float], tasters: int
    ) -> Iterator[Finding]:
        """The best time, whether the curve fits, and the curve at every duration."""
        attribute, (low, high) = About(about[0].attribute), curve.limits or (None, None)
        yield self.test(
            Deferred("best time"),
            durations.duration_curve,
            attribute,
            "h",
            tasters=tasters,
            estimate=curve.best,
            lower=low,
            upper=high,
            confidence=curve.confidence,
        )
        yield self.test(
            Deferred("fit of the curve"),
            durations.curve_misfit,
            attribute,
            tasters=tasters,
            risk=self.alpha,
            p_value=curve.misfit_p_value,
        )
        for sample, time in zip(about, hours, strict=True):
            if curve.shortest <= time <= curve.longest:
                at = curve.at(time)
                yield self.test(
                    Deferred("curve"),
                    durations.duration_curve,
                    sample,
                    "points",
                    tasters=tasters,
                    estimate=at.mean,
                    lower=at.lower,
                    upper=at.upper,
                    confidence=curve.confidence,
                )

    def panel(self, found: AttributeResult) -> Iterator[Finding]:
        """Do tasters agree, each with the rest, how each uses the scale, own scatter."""
        about = [About(found.name, taster=taster) for taster in self.found.tasters]
        agreed = found.agreement
        yield self.test(
            Deferred("agreement"),
            agreement.kendalls_w,
            About(found.name),
            tasters=agreed.tasters,
            estimate=agreed.w,
        )
        for line in found.panel:
            yield self.test(
                Deferred("agreement with the rest"),
                agreement.taster_agreement,
                about[line.taster],
                risk=self.alpha,
                estimate=line.correlation,
                p_value=line.p_value,
            )
        for use in found.use:
            yield self.test(
                Deferred("scale"),
                scales.scale_use,
                about[use.taster],
                "points",
                answers=use.scored,
                estimate=use.mean,
                spread=use.spread,
                lowest=use.lowest,
                highest=use.highest,
            )
        if found.repeats is not None:
            yield from self.anova(found.name, ", ".join((_ANOVA, _REPEATED)), found.repeats.anova)
            for own in found.repeats.panel:
                yield self.test(
                    Deferred("own scatter"),
                    scores.taster_anova,
                    about[own.taster],
                    statistic=own.f_value,
                    p_value=own.p_value,
                )

    def right(self, found: RightResult) -> Iterator[Finding]:
        """Shares on each side of right for each sample, and both ends of the window."""
        low, high = found.ends
        for shares, about in zip(found.shares, self.about(found.name), strict=True):
            sides = ((low, shares.below), (RIGHT, shares.right), (high, shares.above))
            for words, side in sides:
                yield self.test(
                    words,
                    just_about_right_shares,
                    about,
                    "share",
                    tasters=shares.answers,
                    answers=side.count,
                    estimate=side.share,
                    lower=side.lower,
                    upper=side.upper,
                    confidence=1 - self.found.alpha,
                )
        if (window := found.window) is None:
            return
        limit = stated_entry(self.found.tasting.off_texture, OFF_TEXTURE)
        start, last = Deferred("start of the window"), Deferred("end of the window")
        for words, end in ((start, window.start), (last, window.end)):
            yield self.test(
                words,
                right_window,
                About(found.name),
                "h",
                limit=limit,
                tasters=window.tasters,
                estimate=end.hours,
                lower=end.lower,
                upper=end.upper,
                confidence=window.confidence,
            )
