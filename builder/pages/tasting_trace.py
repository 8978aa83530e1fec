"""Where a tasting's figures come from: each with its method and what went into it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.duration_words import texture_words
from builder.costing.panels import ALPHA, BETA, CAN_TELL, OFF_TEXTURE
from builder.costing.tasting_results import AttributeResult, RightResult, TastingResult
from builder.costing.tasting_words import supported
from builder.pages.components import Part, SourceListing, Trace, TraceGroup, TraceInput, TraceRow
from builder.pages.kept_back import without_seed
from builder.pages.parts import part
from builder.pages.tasting_pieces import anchor, method_href, points, session_is_over, shown_share
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.fields import Measure
from builder.tasting.wording import (
    chance_in_words,
    hours_in_words,
    level_in_words,
    percent_in_words,
    tasters_in_words,
)

Rows = Iterator[TraceRow]


def tasting_trace(view: View, result: TastingResult) -> Part | None:
    """The trace of a held tasting."""
    if not result.held:
        return None
    groups = [TraceGroup("Who can tell", tuple(_choice_rows(view, result)))]
    groups.append(TraceGroup("Durations", tuple(_duration_rows(view, result))))
    for found in result.attributes:
        rows = tuple(_rows(view, result, found))
        groups.append(TraceGroup(found.name.capitalize(), rows))
    for right in result.rights:
        rows = tuple(_right_rows(view, result, right))
        groups.append(TraceGroup(right.name.capitalize(), rows))
    return part(
        "trace",
        "Where the figures come from",
        Trace(tuple(group for group in groups if group.rows)),
        about="Each figure with its method and what went into it; a file's link leads to the line.",
    )


def listings(view: View, result: TastingResult) -> Part:
    """The tasting's files as they were written."""
    files, tasting = view.costed.content.files, result.tasting
    lines = _lines(view, tasting.file)
    if tasting.seed is not None and not session_is_over(view, result):
        lines = without_seed(lines, tasting.seed)
    found = [SourceListing(tasting.file, lines)]
    rows = f"tastings/{tasting.id}.csv"
    if rows in files:
        found.append(SourceListing(rows, _lines(view, rows), prefix=f"{slug(rows)}-"))
    return Part("file", "As written", tuple(found))


def _lines(view: View, file: str) -> tuple[str, ...]:
    data = view.costed.content.files[file].data
    return tuple(data.decode("utf-8-sig", "replace").splitlines())


def _row(
    key: str, label: str, value: str, how: str, method: str, inputs: Iterator[TraceInput]
) -> TraceRow:
    return TraceRow(key, label, value, "", how, method_href(method), tuple(inputs))


def _given(view: View, label: str, stated: Measure | None, usual: float) -> Iterator[TraceInput]:
    """A level as the file states it, else what is taken."""
    if stated is None:
        yield TraceInput(label, percent_in_words(usual), origin="taken where the file has none")
        return
    href = view.where.line_href(stated.place.file, stated.place.line)
    yield TraceInput(label, stated.text, origin=str(stated.place), origin_href=href)


def _scores(result: TastingResult, name: str) -> Iterator[TraceInput]:
    count = sum(
        1 for mark in result.ballots.marks if mark.attribute == name and mark.value is not None
    )
    yield TraceInput(
        f"answers on {name}", f"{count} of {tasters_in_words(result.count)}", "#answers"
    )


def _hours(view: View, result: TastingResult) -> Iterator[TraceInput]:
    """Durations lead to the line in the cook's file."""
    for column in result.series:
        sample = result.samples[column]
        if sample.cook is None or sample.cook.for_ is None:
            continue
        place = sample.cook.for_.place
        yield TraceInput(
            f"time of {sample.words}",
            sample.cook.for_.text,
            origin=str(place),
            origin_href=view.where.line_href(place.file, place.line),
        )


def _choice_rows(view: View, result: TastingResult) -> Rows:
    choice, tasting = result.choice, result.tasting
    if choice is None:
        return
    test, shown = choice.difference, shown_share(choice)
    counted_as = "choices of the first" if choice.protocol.two_sided else "correct answers"

    def counted() -> Iterator[TraceInput]:
        yield TraceInput(counted_as, str(test.correct), "#answers")
        yield TraceInput("tasters", str(test.tasters), "#answers")

    def alpha() -> Iterator[TraceInput]:
        return _given(view, "alpha", tasting.alpha, ALPHA)

    yield _row(
        anchor("choice", "difference"), "Chance of so many correct answers if all guess",
        chance_in_words(test.p_value), "exact binomial", "discrimination_difference",
        iter((*counted(), *alpha())),
    )  # fmt: skip
    if choice.similarity is not None:
        yield _row(
            anchor("choice", "similarity"),
            "Chance of so few correct answers if the limit can tell",
            chance_in_words(choice.similarity.p_value), "exact binomial",
            "discrimination_similarity",
            iter((
                *counted(),
                *_given(view, "share who can tell that matters", tasting.can_tell, CAN_TELL),
                *_given(view, "beta", tasting.beta, BETA),
            )),
        )  # fmt: skip
    yield _row(
        anchor("choice", "share"), shown.title, percent_in_words(shown.mid),
        "share of correct answers, guessing taken off", "share_who_can_tell",
        iter((*counted(), *alpha())),
    )  # fmt: skip
    distance = choice.distance.estimate
    yield _row(
        anchor("choice", "distance"), "Sensory distance d′",
        "–" if distance is None else f"{distance:.2f}",
        "Thurstone's model of the protocol", "sensory_distance", counted(),
    )  # fmt: skip


def _duration_rows(view: View, result: TastingResult) -> Rows:
    """Which durations are out and which came closest, with all that went into it."""
    support = supported(result)
    if support is None:
        return
    closest = hours_in_words(result.samples[support.best].hours or 0.0)
    names = [right.name for right in result.rights] + [a.name for a in result.attributes[:1]]
    given = (
        *_given(view, "alpha", result.tasting.alpha, ALPHA),
        *_given(view, "share who may find it off", result.tasting.off_texture, OFF_TEXTURE),
        *_hours(view, result),
    )
    answers = [line for name in names for line in _scores(result, name)]
    yield _row(
        anchor("durations", "shortlist"), "Closest duration, and which are out", closest,
        "one risk for all durations", "shortlist", iter((*answers, *given)),
    )  # fmt: skip


def _rows(view: View, result: TastingResult, found: AttributeResult) -> Rows:
    name, tasting = found.name, result.tasting

    def row(key: str, label: str, value: str, how: str, method: str, *more: TraceInput) -> TraceRow:
        inputs = (*_scores(result, name), *more)
        return _row(
            anchor(name, *key.split(".")), label.capitalize(), value, how, method, iter(inputs)
        )

    alpha = tuple(_given(view, "alpha", tasting.alpha, ALPHA))
    if found.anova is not None:
        yield row("points", "points of 100", f"{found.table.size} cells",
                  "each answer on its ballot's scale", "rescale_scores")  # fmt: skip
        means = [points(mean) for mean in found.anova.adjusted_means]
        yield row("means", "means by sample", ", ".join(means), "tasters as blocks", "score_anova")
    yield row("ranks", "ranks", chance_in_words(found.friedman.p_value),
              "chance of rank sums as far apart if none differ", "friedman_test")  # fmt: skip
    if found.differences is not None:
        told = [points(d.mean, True) for d in found.differences.differences]
        yield row("differences", "less the benchmark", ", ".join(told),
                  "within tasters, all counted", "benchmark_differences", *alpha)  # fmt: skip
    margin = _margin(view, result, found)
    for column, test in found.no_worse.items():
        sample = result.samples[column]
        yield row(f"no-worse.{sample.name}", f"bound of {sample.words}", points(test.lower, True),
                  f"one-sided, at {level_in_words(test.confidence)}", "no_worse_by_margin",
                  *margin, *alpha)  # fmt: skip
    for column, both in found.within.items():
        sample = result.samples[column]
        yield row(f"within.{sample.name}", f"{sample.words} both ways",
                  chance_in_words(both.p_value), f"two tests, each at {level_in_words(both.alpha)}",
                  "equivalence_within_margin", *margin, *alpha)  # fmt: skip
    if found.repeats is not None:
        error = found.repeats.anova.error.mean_square
        yield row("repeats", "own scatter", "–" if error is None else points(error**0.5),
                  "standard deviation of judgements of one thing", "score_anova")  # fmt: skip
        yield row("own", "each taster beyond own scatter", tasters_in_words(len(found.panel)),
                  "one taster's judgements alone", "taster_anova")  # fmt: skip
    if found.study is not None:
        best = found.study.hours[found.study.best_tried.best]
        hours = tuple(_hours(view, result))
        how = "curve, rivals and the next cook" if found.attribute else "and its rivals"
        yield row("study", "best duration tried", hours_in_words(best),
                  how, "study_durations", *hours, *alpha)  # fmt: skip
        fitted = found.study.curve
        if fitted is not None and fitted.misfit_p_value is not None:
            yield row("misfit", "does the curve fit", chance_in_words(fitted.misfit_p_value),
                      "chance of means so far from it", "curve_misfit", *hours)  # fmt: skip
    if found.trend is not None:
        yield row("trend", "rise over time", chance_in_words(found.trend.p_value),
                  "ranks along rising duration", "page_trend")  # fmt: skip
    w = found.agreement.w
    yield row("agreement", "agreement on ranks", "–" if w is None else f"{w:.2f}",
              "0 none, 1 complete", "kendalls_w")  # fmt: skip
    yield row("tasters", "agreement of each taster", tasters_in_words(len(found.panel)),
              "correlation with the rest of the panel", "taster_agreement", *alpha)  # fmt: skip


def _margin(view: View, result: TastingResult, found: AttributeResult) -> tuple[TraceInput, ...]:
    own = found.attribute.margin if found.attribute else None
    stated = own or result.tasting.margin
    return tuple(_given(view, "margin", stated, 0.0)) if stated else ()


def _right_rows(view: View, result: TastingResult, found: RightResult) -> Rows:
    name = found.name
    rights = [shares.right.count for shares in found.shares]
    yield _row(
        anchor(name, "shares"), "Just about right, by sample",
        ", ".join(map(str, rights)), "counts, never a mean", "just_about_right_shares",
        _scores(result, name),
    )  # fmt: skip
    if found.window is not None:
        limit = _given(view, "share who may find it off", result.tasting.off_texture, OFF_TEXTURE)
        yield _row(
            anchor(name, "window"), "Window of durations",
            texture_words(result, found),
            "shares that may only fall and only rise", "right_window",
            iter((*_scores(result, name), *_hours(view, result), *limit)),
        )  # fmt: skip
