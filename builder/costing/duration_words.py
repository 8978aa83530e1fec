"""What a panel says of durations, in words: the closest first, who is out, what comes next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.costing.panels import OFF_TEXTURE, level
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.tasting.panel_sentences import next_cook_sentence
from builder.tasting.shortlist import (
    Counts,
    Fault,
    Following,
    Judged,
    Question,
    Shortlist,
    Step,
    shortlist,
)
from builder.tasting.wording import (
    hours_in_words,
    level_in_words,
    listed,
    points_in_words,
    tasters_in_words,
)

_NOTABLE = 10.0
"""Points of 100 by which a higher score is worth a word: common practice, no published source."""


def main_study(result: TastingResult) -> AttributeResult | None:
    """The attribute that leads over the durations."""
    return next((found for found in result.attributes if found.study), None)


def durations(result: TastingResult) -> Shortlist | None:
    """What the panel supports of the durations; None without a series or answers on it."""
    main = main_study(result)
    asked = [right for right in result.rights if right.along is not None]
    if not result.series or result.choice is not None or not (main or asked):
        return None
    hours = [result.samples[column].hours or 0.0 for column in result.series]
    limit = level(result.tasting.off_texture, OFF_TEXTURE)
    questions = [Question(right.along, limit) for right in asked if right.along is not None]
    return shortlist(hours, main.along if main else None, questions, result.alpha)


def durations_sentences(result: TastingResult) -> Iterator[str]:
    """Say which duration came closest, which are out, which may be right, and what comes next."""
    found = durations(result)
    if found is None:
        return
    yield f"{tasters_in_words(result.count)}: {_closest_words(result, found)}."
    yield from _out_words(result, found)
    yield from _left_words(result, found)
    yield _next_words(result, found)
    if any(each.out for each in found.judged):
        risk = level_in_words(found.risk)
        yield f"The risk that a right one is out is {risk} at most, all counted."


def short_durations(result: TastingResult) -> str:
    """The same in one or two sentences, for lists."""
    return " ".join(list(durations_sentences(result))[:2])


# The closest


def _hours(places: Sequence[int], found: Shortlist) -> str:
    return listed([hours_in_words(found.judged[place].hours) for place in places])


def _ends(result: TastingResult, number: int) -> tuple[str, str]:
    return [right for right in result.rights if right.along is not None][number].ends


def _names(result: TastingResult) -> list[str]:
    return [right.name for right in result.rights if right.along is not None]


def _of(count: int, answers: int) -> str:
    """How many of those who answered.

    >>> _of(7, 7), _of(5, 7)
    ('all 7', '5 of 7')
    """
    return f"all {answers}" if count == answers and count > 1 else f"{count} of {answers}"


def _count_words(result: TastingResult, number: int, count: Counts) -> str:
    low, high = _ends(result, number)
    ends = [f"{n} {word}" for n, word in ((count.early, low), (count.late, high)) if n]
    found = f"{_of(count.right, count.answers)} found {_names(result)[number]} right"
    return ", ".join([found, *ends])


def _mean_words(result: TastingResult, judged: Judged) -> str:
    main = main_study(result)
    if main is None or main.attribute is None or judged.mean is None:
        return ""
    return f"{main.name} {points_in_words(judged.mean)} of 100"


def _closest_words(result: TastingResult, found: Shortlist) -> str:
    best = found.judged[found.closest[0]]
    counted = [
        _count_words(result, number, count)
        for number, count in enumerate(best.counts)
        if count.answers
    ]
    said = "; ".join(filter(None, [*counted, _mean_words(result, best)]))
    names = _hours(found.closest, found)
    if len(found.closest) > 1:
        return f"{names} came equally close{': ' if said else ''}{said}"
    yet = "" if found.left else "; yet every duration tried is out"
    return f"{names} came closest{': ' if said else ''}{said}{yet}"


# Out, and left


def _out_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    main = main_study(result)
    for number in range(len(_names(result))):
        for fault, end in ((Fault.TOO_EARLY, 0), (Fault.TOO_LATE, 1)):
            hit = [each for each in found.judged if (fault, number) in each.faults]
            if hit:
                yield _fault_words(hit, number, end, _ends(result, number)[end])
    less = [each for each in found.judged if each.faults == ((Fault.LESS, None),)]
    if less and main is not None:
        names = listed([_other_words(each) for each in less])
        yield f"{names} {'is' if len(less) == 1 else 'are'} out: lower {main.name} than others."
    if not any(each.out for each in found.judged):
        yield _none_out(found)


def _fault_words(hit: Sequence[Judged], number: int, end: int, word: str) -> str:
    names = listed([hours_in_words(each.hours) for each in hit])
    counts = [each.counts[number] for each in hit]
    who = listed([_of((c.early, c.late)[end], c.answers) for c in counts])
    return f"{names} {'is' if len(hit) == 1 else 'are'} out: {word} to {who}."


def _none_out(found: Shortlist) -> str:
    fewest = min((each.answers for each in found.judged if each.counts), default=found.fewest)
    if fewest < found.fewest:
        return (
            "No duration is out: fewer than"
            f" {found.fewest} answers can't show one off, even if all agree."
        )
    return "No duration is out so far."


def _left_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    others = [found.judged[place] for place in found.left if place not in found.closest]
    names = [_other_words(each) for each in others]
    if names:
        yield f"{listed(names)} may be right too."
    yield from _better_words(result, found, others)
    if _names(result):
        yield from _apart_words(_names(result)[0], found)


def _apart_words(name: str, found: Shortlist) -> Iterator[str]:
    """Whether those left, else those not out by texture, differ in it."""
    asked = found.left if len(found.left) > 1 else found.texture_left
    told = [pair for pair in found.told_apart if set(pair) <= set(asked)]
    if len(asked) > 1 and not told:
        yield f"{_hours(asked, found)} can't be told apart on {name}."
    for pair in told:
        yield f"{_hours(pair, found)} differ in {name}."


def _other_words(judged: Judged) -> str:
    counts = [_of(count.right, count.answers) for count in judged.counts if count.answers]
    hours = hours_in_words(judged.hours)
    return f"{hours} ({'; '.join(counts)} right)" if counts else hours


def _better_words(
    result: TastingResult, found: Shortlist, others: Sequence[Judged]
) -> Iterator[str]:
    """Durations left that score clearly higher than the closest."""
    main, own = main_study(result), found.judged[found.closest[0]].mean
    if main is None or main.attribute is None or own is None:
        return
    for each in others:
        if each.mean is not None and each.mean - own >= _NOTABLE:
            means = f"{points_in_words(each.mean)} against {points_in_words(own)}"
            yield f"Mean {main.name} is higher at {hours_in_words(each.hours)} ({means})."


# Next


def _next_words(result: TastingResult, found: Shortlist) -> str:
    main, following = main_study(result), found.following
    if following is None:
        study = main.study if main else None
        if study is None or study.next_cook is None or main is None or main.attribute is None:
            return "Next: taste those left again with more tasters."
        said = next_cook_sentence(study.next_cook, study.tasters)
        return f"Next: {said.partition('next: ')[2]}"
    if following.step is Step.SETTLED:
        return f"{_hours(found.left, found)} is shown right within your limit."
    return f"Next: {_step_words(found, following)}."


def _step_words(found: Shortlist, following: Following) -> str:
    parts = []
    if following.again:
        parts.append(f"taste {_hours(following.again, found)} again{_more_words(following)}")
    if following.hours:
        new = listed([hours_in_words(hours) for hours in following.hours])
        parts.append(f"cook {new}{' as well' if parts else ''}")
    return listed(parts)


def _more_words(following: Following) -> str:
    if not following.more:
        return " with more tasters"
    who = tasters_in_words(following.more).replace(" taster", " more taster")
    return f" ({who} would settle the closest if none finds it off)"
