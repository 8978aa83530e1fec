"""What to cook next, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from builder.costing.decisions import main_study
from builder.costing.tasting_results import (
    TastingResult,
)
from builder.display.words import listed
from builder.language import tr
from builder.tasting.following import Following, FollowingKind, complaint_side
from builder.tasting.judged import Judged
from builder.tasting.panel_sentences import (
    next_cook_words,
)
from builder.tasting.shortlist import Shortlist
from builder.tasting.wording import (
    hours_in_words,
    more_tasters_in_words,
)


def name_of(result: TastingResult, judged: Judged) -> str:
    """A sample by its duration, or by its name where more than the time differs."""
    if result.series:
        return hours_in_words(judged.hours)
    return result.samples[result.judged[judged.place]].words


def hours_of(result: TastingResult, places: Sequence[int], found: Shortlist) -> str:
    """The hours of some of the judged samples, as a sentence lists them."""
    return listed([name_of(result, found.judged[place]) for place in places])


def next_words(result: TastingResult) -> str:
    """What to cook and taste next, in lead and table alike; empty without a decision."""
    found = result.decision
    return "" if found is None else what_next(result, found)


def what_next(result: TastingResult, found: Shortlist) -> str:
    """What to cook and taste next, from a decision."""
    main, following = main_study(result), found.following
    if not result.series:
        return tr("Next: {next_sample_words}.", next_sample_words=_next_sample_words(result, found))
    if following is None:
        study = main.study if main else None
        if study is None or study.next_cook is None or main is None or main.attribute is None:
            if len(found.left) == 1:
                return tr(
                    "Next: cook durations near {hours}.", hours=hours_of(result, found.left, found)
                )
            return tr(
                "Next: taste {hours} again with more tasters.",
                hours=hours_of(result, found.left, found),
            )
        said = next_cook_words(study.next_cook)
        few = (
            "" if found.can_rule_out else tr(", for {fewest} tasters or more", fewest=found.fewest)
        )
        return tr("Next: {said}{few}.", said=said, few=few)
    if following.step is FollowingKind.SETTLED:
        return tr(
            "{hours} is shown right within your limit.", hours=hours_of(result, found.left, found)
        )
    if following.step is FollowingKind.OTHER:
        return tr("Next: change more than the time, such as the temperature.")
    return tr("Next: {step_words}.", step_words=_step_words(result, found, following))


def _step_words(result: TastingResult, found: Shortlist, following: Following) -> str:
    parts = []
    if following.again:
        parts.append(
            tr(
                "taste {hours} again{more_words}",
                hours=hours_of(result, following.again, found),
                more_words=_more_words(following, alone=len(following.again) == 1),
            )
        )
    if following.hours:
        new = listed([hours_in_words(hours) for hours in following.hours])
        parts.append(tr("cook {new}{as_well}", new=new, as_well=tr(" as well") if parts else ""))
    return listed(parts)


def _next_sample_words(result: TastingResult, found: Shortlist) -> str:
    """What to cook or taste next of samples that differ in more than time."""
    if found.left:
        following = found.following
        alone = len(found.left) == 1
        more = _more_words(following, alone=alone) if following else tr(" with more tasters")
        if alone and following and following.more == 0:
            return tr(
                "cook {hours}, shown right within your limit",
                hours=hours_of(result, found.left, found),
            )
        return tr("taste {hours} again{more}", hours=hours_of(result, found.left, found), more=more)
    early, late = ([each for each in found.judged if complaint_side(each) == s] for s in (-1, 1))
    if early and late:
        ends = (listed([name_of(result, each) for each in some]) for some in (early, late))
        return tr("cook between {ends}", ends=listed(list(ends)))
    if early or late:
        return tr(
            "cook {longer_or} than these",
            longer_or=tr("longer or hotter") if early else tr("shorter or cooler"),
        )
    return tr("try another cook or cut")


def _more_words(following: Following, *, alone: bool) -> str:
    """How many more tasters it takes for what is tasted again: it alone, or the closest of them."""
    if not following.more:
        return tr(" with more tasters")
    who = more_tasters_in_words(following.more)
    if alone:
        return tr(" ({who} would settle it if none finds it off)", who=who)
    return tr(" ({who} would settle the closest of them if none finds it off)", who=who)
