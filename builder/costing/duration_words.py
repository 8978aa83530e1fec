"""What a panel decides, in words: the closest first, who is out, what comes next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.costing.decisions import asked_of_texture, main_study
from builder.costing.next_words import hours_of, name_of
from builder.costing.rather_words import beside_words, better_words, though_words
from builder.costing.tasting_results import (
    AttributeResult,
    RightResult,
    TastingResult,
    margin_of,
)
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.tasting.judged import Counts, Fault, Judged
from builder.tasting.panel_sentences import (
    right_window_sentence,
    study_sentence,
)
from builder.tasting.shortlist import Shortlist
from builder.tasting.wording import (
    hours_in_words,
    margin_in_words,
    points_in_words,
    tasters_in_words,
)

# The closest


def _ends(result: TastingResult, number: int) -> tuple[str, str]:
    return asked_of_texture(result)[number].ends


def texture_names(result: TastingResult) -> list[str]:
    """The questions on texture, by name."""
    return [right.name for right in asked_of_texture(result)]


def _of(count: int, answers: int) -> str:
    """How many of those who answered.

    >>> _of(7, 7), _of(5, 7)
    ('all 7', '5 of 7')
    """
    return (
        tr("all {answers}", answers=answers)
        if count == answers and count > 1
        else tr("{count} of {answers}", count=count, answers=answers)
    )


def _count_words(result: TastingResult, number: int, count: Counts) -> str:
    low, high = _ends(result, number)
    ends = [f"{n} {word}" for n, word in ((count.early, low), (count.late, high)) if n]
    names = texture_names(result)[number]
    found = tr("{of} found {names} right", of=_of(count.right, count.answers), names=names)
    if 1 < count.right == count.answers < result.count:
        found = tr("all {n} who tasted it found {names} right", n=count.right, names=names)
    return ", ".join([found, *ends])


def _mean_words(result: TastingResult, judged: Judged) -> str:
    main = main_study(result)
    if main is None or main.attribute is None or judged.mean is None:
        return ""
    return tr(
        "{main} {points_in_words} of 100",
        main=main.words,
        points_in_words=points_in_words(judged.mean),
    )


def closest_words(result: TastingResult, found: Shortlist) -> str:
    """Which samples came closest, and how they were found."""
    level = [found.judged[place] for place in found.closest]
    best, series = level[0], bool(result.series)
    out = tr("yet every duration tried is out") if series else tr("yet every sample tried is out")
    yet = "" if found.left else out
    if yet and not any(count.right for each in level for count in each.counts) and best.counts:
        if series:
            return tr("no duration came close; nobody found any right, and every one is out")
        return tr("no sample came close; nobody found any right, and every one is out")
    alike = all(each.counts == best.counts for each in level)
    counted = [
        _count_words(result, number, count)
        for number, count in enumerate(best.counts if alike else ())
        if count.answers
    ]
    said = clauses([came_words(result), *counted, _mean_words(result, best)])
    return clauses([f"{said}{_rather_words(result, found)}", yet])


def came_words(result: TastingResult) -> str:
    """Which samples lead: best in texture and score, highest by score alone, or first by rank."""
    found, main = result.decision, main_study(result)
    assert found is not None
    names = hours_of(result, found.closest, found)
    best = bool(texture_names(result)) or main is None
    if best and len(found.closest) > 1:
        return tr("{names} came out equally good", names=names)
    if result.beside_series:
        return _of_tried(result, main, names, best=best)
    if best or main is None:
        return tr("{names} came out best", names=names)
    if result.benchmark is None:
        if main.attribute is None:
            return tr("{names} came first in {attribute}", names=names, attribute=main.name)
        return tr("{names} scored highest", names=names)
    benchmark = result.samples[result.benchmark].words
    if main.attribute is None:
        return tr(
            "{names} came first in {attribute} of those beside {benchmark}",
            names=names,
            attribute=main.name,
            benchmark=benchmark,
        )
    return tr(
        "{names} scored highest of those beside {benchmark}", names=names, benchmark=benchmark
    )


def _of_tried(
    result: TastingResult, main: AttributeResult | None, names: str, *, best: bool
) -> str:
    """Which of a series leads, where samples of other series stood beside it and may lie above."""
    tried = listed([result.samples[column].words for column in result.series])
    if best or main is None:
        return tr("of {tried}, {names} came out best", tried=tried, names=names)
    if main.attribute is None:
        return tr(
            "of {tried}, {names} came first in {attribute}",
            tried=tried,
            names=names,
            attribute=main.name,
        )
    return tr("of {tried}, {names} scored highest", tried=tried, names=names)


# Out, and left


def out_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    """Which are out and why, or that none is."""
    main = main_study(result)
    for number in range(len(texture_names(result))):
        for fault, end in ((Fault.TOO_EARLY, 0), (Fault.TOO_LATE, 1)):
            hit = [each for each in found.judged if (fault, number) in each.faults]
            if hit:
                yield _fault_words(result, hit, number, end, _ends(result, number)[end])
    worse = [each for each in found.judged if each.faults == ((Fault.WORSE, None),)]
    if worse and main is not None:
        yield _worse_words(result, main, worse)
    less = [each for each in found.judged if each.faults == ((Fault.LESS, None),)]
    if less and main is not None:
        names = listed([_other_words(result, each) for each in less])
        yield tr(
            "{names} {is_words} out: lower {main} than {other}.",
            names=names,
            is_words=tr("is") if len(less) == 1 else tr("are"),
            main=main.words,
            other=_other(result, found, less),
        )
    if not any(each.out for each in found.judged):
        yield _none_out(found, series=bool(result.series))


def _other(result: TastingResult, found: Shortlist, less: Sequence[Judged]) -> str:
    """What lies above samples: by name where it can be one alone."""
    rest = [each for each in found.judged if each not in less]
    return name_of(result, rest[0]) if len(rest) == 1 else tr("another")


def _fault_words(
    result: TastingResult, hit: Sequence[Judged], number: int, end: int, word: str
) -> str:
    names = listed([name_of(result, each) for each in hit])
    counts = [each.counts[number] for each in hit]
    shares = [_of((c.early, c.late)[end], c.answers) for c in counts]
    alike = len(hit) > 1 and len(set(shares)) == 1
    who = listed(shares[:1] if alike else shares)
    some = (counts[0].early, counts[0].late)[end] < counts[0].answers or counts[0].answers == 1
    each = tr(" each") if alike and some else ""
    return tr(
        "{names} {is_words} out: {word} to {who}{each}.",
        names=names,
        is_words=tr("is") if len(hit) == 1 else tr("are"),
        word=word,
        who=who,
        each=each,
    )


def _worse_words(result: TastingResult, main: AttributeResult, worse: Sequence[Judged]) -> str:
    names = listed([_other_words(result, each) for each in worse])
    margin = margin_in_words(margin_of(result.tasting, main.attribute) or 0.0)
    verb = tr("is") if len(worse) == 1 else tr("are")
    by_more = tr(
        "{samples} by more than {margin} points",
        samples=result.samples[result.benchmark or 0].words,
        margin=margin,
    )
    return tr(
        "{names} {verb} out: worse than {by_more} in {main}.",
        names=names,
        verb=verb,
        by_more=by_more,
        main=main.words,
    )


_NONE_OFF = {
    True: Deferred(
        "No duration is out: fewer than {fewest} answers can't show one off, even if all agree."
    ),
    False: Deferred(
        "No sample is out: fewer than {fewest} answers can't show one off, even if all agree."
    ),
}


def _none_out(found: Shortlist, *, series: bool) -> str:
    if not found.can_rule_out:
        return tr(_NONE_OFF[series], fewest=found.fewest)
    return tr("No duration is out so far.") if series else tr("No sample is out so far.")


def _others(found: Shortlist) -> list[Judged]:
    """What is left beside the closest."""
    return [found.judged[place] for place in found.left if place not in found.closest]


def may_words(result: TastingResult, found: Shortlist) -> str:
    """What may be right beside the closest; empty where nothing is left."""
    names = [_other_words(result, each) for each in _others(found)]
    return _too_words(result, listed(names)) if names else ""


def apart_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    """How those left lie to the closest, to what stands beside it, and to each other."""
    yield from better_words(result, found, _others(found))
    yield from beside_words(result, found)
    yield from _low_words(result, found)
    if names := texture_names(result):
        yield from _apart_words(result, names[0], found)


def _apart_words(result: TastingResult, name: str, found: Shortlist) -> Iterator[str]:
    """Whether those left, else those not out by texture, differ in it."""
    asked = found.left if len(found.left) > 1 else found.texture_left
    reported = [pair for pair in found.distinguished if set(pair) <= set(asked)]
    if len(asked) > 1 and not reported:
        yield tr(
            "tasters can't tell {hours} apart on {name}.",
            hours=hours_of(result, asked, found),
            name=name,
        )
    for pair in reported:
        yield tr("{hours} differ in {name}.", hours=hours_of(result, pair, found), name=name)


def _too_words(result: TastingResult, names: str) -> str:
    """What others may be: right, where anybody was asked, else as good in what was judged."""
    main = main_study(result)
    if texture_names(result) or main is None:
        return tr("{names} may be right too.", names=names)
    return tr("{names} may be as good in {main}.", names=names, main=main.words)


def _other_words(result: TastingResult, judged: Judged) -> str:
    counts = [_of(count.right, count.answers) for count in judged.counts if count.answers]
    hours = name_of(result, judged)
    return tr("{hours} ({counts} right)", hours=hours, counts=clauses(counts)) if counts else hours


def _rather_words(result: TastingResult, found: Shortlist) -> str:
    """Durations that most put above the closest, though their mean is lower."""
    main = main_study(result)
    scored = main is not None and main.attribute is not None
    others = [found.judged[each.place] for each in found.rather]
    return though_words(
        (name_of(result, other), each, other.mean if scored else None)
        for each, other in zip(found.rather, others, strict=True)
    )


def _low_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    """Durations left that lie below the benchmark by more than the margin, too few to show it."""
    main = main_study(result)
    for place in found.left if main and result.benchmark is not None else ():
        test = main.no_worse.get(result.judged[place]) if main else None
        if test is None or test.mean is None or place in found.closest:
            continue
        if test.tasters < result.fewest and test.mean < -test.margin and main:
            benchmark = result.samples[result.benchmark or 0].words
            below = tr(
                "{points_in_words} points below {benchmark} in {main}",
                points_in_words=points_in_words(-test.mean),
                benchmark=benchmark,
                main=main.words,
            )
            yield (
                tr(
                    "{name} scores {below} ({tasters_in_words}), but fewer than {fewest} "
                    "can't show it worse, even if all agree.",
                    name=name_of(result, found.judged[place]),
                    below=below,
                    tasters_in_words=tasters_in_words(test.tasters),
                    fewest=result.fewest,
                )
            )


def unlike_words(result: TastingResult) -> str:
    """What keeps one cut's durations, each at a temperature of its own, from being compared."""
    cooks = [cook for column in result.judged if (cook := result.samples[column].cook)]
    timed = {cook.for_.value for cook in cooks if cook.for_}
    heats = {cook.at.value for cook in cooks if cook.at}
    if not result.series and len({cook.cut for cook in cooks}) == 1 and len(timed) > 1 < len(heats):
        return tr("the cooks differ in temperature too, so nothing is said of hours between them")
    return ""


# Next


# The same decision in the sections below the lead


def study_words(result: TastingResult, found: AttributeResult) -> str:
    """What scores alone say of durations, at the level of the decision, and which are out."""
    assert found.study is not None
    decision = result.decision if found is main_study(result) else None
    level = decision.level if decision else result.alpha
    out = [hours_in_words(each.hours) for each in (decision.judged if decision else ()) if each.out]
    said = study_sentence(found.study, found.words, level)
    faults = [fault for each in (decision.judged if decision else ()) for fault, _ in each.faults]
    if all(fault is Fault.LESS for fault in faults):
        return said
    return tr(
        "{said} All counted, {out} {is_words} out.",
        said=said,
        out=listed(out),
        is_words=tr("is") if len(out) == 1 else tr("are"),
    )


def texture_words(result: TastingResult, right: RightResult) -> str:
    """The window of a texture, and how many more tasters would settle the closest duration."""
    assert right.window is not None
    return right_window_sentence(right.window, *right.ends, missing_words(result))


def missing_words(result: TastingResult) -> str:
    """Say that tasters are missing to settle the closest duration, empty where none are."""
    found = result.decision
    following = found.following if found else None
    if found is None or following is None or following.more == 0:
        return ""
    more = following.more if found.left else None
    closest = hours_in_words(found.judged[found.closest[0]].hours)
    would = (
        tr("; {more} more would settle {closest} if none finds it off", more=more, closest=closest)
        if more
        else ""
    )
    return tr("not enough tasters to be sure{would}", would=would)
