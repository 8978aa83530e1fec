"""What tasters found, on the pages of the swaps and plates that lean on a tasting."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.decisions import judged_at
from builder.costing.duration_words import came_words
from builder.costing.served_plates import serves
from builder.costing.tasting_grades import Standing, against_benchmark, beside_benchmark
from builder.costing.tasting_results import Served, TastingResult
from builder.costing.tasting_words import findings_in_full, headline, supported
from builder.costing.window_words import window_words
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Chart, Link, LinkList, Notice, Part, Section
from builder.pages.difference_charts import difference_intervals
from builder.pages.marks import on_a_page, with_marks
from builder.pages.parts import paragraph, part
from builder.pages.tasting_charts import right_bars, share_interval
from builder.pages.tasting_pieces import challengers, kitchen_spread, page_path
from builder.pages.view import View
from builder.records.kinds import Plate, Swap
from builder.tasting.wording import counted_once, hours_in_words, tasters_in_words


def swap_mouth(view: View, swap: Swap, *only: Plate) -> str:
    """What tasters found, in the lead of a swap: its challengers, else the whole tasting.

    Of `only` some challengers nothing is said of the others.
    """
    if not _are_granted(view):
        return ""
    result = _of_swap(view, swap)
    if result is None:
        return tr("No tasting yet.")
    plates = only or tuple(view.costed.content.plates[name] for name in swap.challengers)
    if not any(_is_tasted(view, result, plate) for plate in plates):
        names = listed([plate.title for plate in plates])
        return tr("No tasting of {names} yet.", names=names)
    found = [
        against_benchmark(result, column) for plate in plates for column in _columns(result, plate)
    ]
    said = counted_once(filter(None, found)) or headline(result, kitchen_spread(view))
    return on_a_page(said, view.style)


_LOST = {
    Standing.WORSE: Deferred("tasters found it worse in {what}"),
    Standing.BELOW: Deferred("tasters found it below the benchmark in {what}"),
}


def lost_words(view: View, swap: Swap, plate: Plate) -> str:
    """In what tasters found a challenger less than the benchmark by more than was asked for."""
    result = _of_swap(view, swap)
    columns = _columns(result, plate) if result else []
    found = [beside for column in columns if result for beside in beside_benchmark(result, column)]
    said = []
    for standing, words in _LOST.items():
        names = dict.fromkeys(each.attribute.words for each in found if each.standing is standing)
        said += [tr(words, what=listed(list(names)))] if names else []
    return clauses(said)


def swap_evidence(view: View, swap: Swap) -> Part | None:
    """The tasting of a swap: its verdict, a picture, the way to its page."""
    result = _of_swap(view, swap)
    if result is None:
        return None
    plates = [view.costed.content.plates[name] for name in swap.challengers]
    if not any(_is_tasted(view, result, plate) for plate in plates):
        # What others were served says nothing of these.
        return part("tasters", tr("What tasters found"), paragraph(swap_mouth(view, swap)))
    notices = [notice for plate in plates if (notice := other_duration(result, plate))]
    found = part(
        "tasters",
        tr("What tasters found"),
        *notices,
        paragraph(" ".join(findings_in_full(result, kitchen_spread(view)))),
        *_pictures(view, result),
        _link(result),
    )
    return with_marks(found, view.style)


def swap_pictures(view: View, swap: Swap, plate: Plate) -> list[Chart]:
    """The pictures of what tasters found of a challenger, the one that says most first."""
    result = _of_swap(view, swap)
    if result is None or not _is_tasted(view, result, plate):
        return []
    found = _pictures(view, result, _columns(result, plate) or None)
    pictures = (picture for picture in found if isinstance(picture, Chart))
    return [with_marks(picture, view.style) for picture in pictures]


def _of_swap(view: View, swap: Swap) -> TastingResult | None:
    return view.costed.tastings[swap.tasting] if _are_granted(view) and swap.tasting else None


def _are_granted(view: View) -> bool:
    """Whether a reader sees what tasters found."""
    return view.grants("tastings", "tasting answers")


def _is_tasted(view: View, result: TastingResult, plate: Plate) -> bool:
    """Whether a plate, or a cook of one of its cuts, is among the samples of a tasting."""
    return serves(view.costed.content, result.tasting, plate)


def _pictures(
    view: View, result: TastingResult, only: list[int] | None = None
) -> Iterator[Section | None]:
    if result.choice is not None:
        yield share_interval(view, result, result.choice)
    for found in result.attributes[:1]:
        yield difference_intervals(view, result, found, only)
    for right in result.rights[:1]:
        yield right_bars(view, result, right, only)


def _link(result: TastingResult) -> LinkList:
    about = f"{tasters_in_words(result.count)}{('' if result.held else tr(' asked'))}"
    return LinkList((Link(result.tasting.title, f"~/{page_path(result)}", about),))


def _columns(result: TastingResult, plate: Plate) -> list[int]:
    """The challengers of a tasting that are this plate, or its cook."""
    return [column for column in challengers(result) if _is_of(result.samples[column], plate)]


def _is_of(sample: Served, plate: Plate) -> bool:
    """Whether a sample is this plate, or its cook."""
    if sample.plate is not None:
        return sample.plate.id == plate.id
    return sample.cook is not None and sample.cook.id == plate.cook


# Plates


def plate_evidence(view: View, plate: Plate) -> Part | None:
    """Which duration the evidence supports for a plate's cook, and whether it uses that one."""
    results = list(_of_plate(view, plate)) if _are_granted(view) else []
    if not results:
        return None
    sections: list[Section] = []
    for result in results:
        notice = other_duration(result, plate)
        words = [] if notice else [_plate_words(result, plate)]
        sections += [notice] if notice else []
        said = filter(None, [*words, *_mouth(view, result, plate)])
        sections.append(paragraph(counted_once(said)))
        sections.append(_link(result))
    return with_marks(part("tasters", tr("What tasters found"), *sections), view.style)


def _of_plate(view: View, plate: Plate) -> Iterator[TastingResult]:
    """The tasting that a plate names, and those of swaps in which it challenges, where served."""
    content = view.costed.content
    named = [plate.evidence] if plate.evidence else []
    swaps = [s.tasting for s in content.swaps.values() if s.tasting and plate.id in s.challengers]
    for name in dict.fromkeys([*named, *swaps]):
        if _is_tasted(view, view.costed.tastings[name], plate):
            yield view.costed.tastings[name]


def _mouth(view: View, result: TastingResult, plate: Plate) -> Iterator[str]:
    columns = _columns(result, plate)
    if not columns or not result.held or result.choice is not None:
        yield headline(result, kitchen_spread(view))
        return
    yield from (against_benchmark(result, column) for column in columns)
    yield from (window_words(result, right) for right in result.rights)


def _plate_words(result: TastingResult, plate: Plate) -> str:
    """Say whether the plate's own duration came closest, or may be right."""
    support = supported(result)
    columns = _columns(result, plate)
    if support is None or not columns or not support.reported:
        return ""
    who, closest = tasters_in_words(result.count), came_words(result)
    if support.best in map(result.represented_by, columns):
        return tr("{who}: {closest}; this plate is cooked so.", who=who, closest=closest)
    hours = hours_in_words(result.samples[columns[0]].hours or 0.0)
    return tr(
        "{who}: {closest}; the {hours} of this plate may be right too.",
        who=who,
        closest=closest,
        hours=hours,
    )


def other_duration(result: TastingResult, plate: Plate) -> Notice | None:
    """Say so where the evidence supports other durations than a plate's."""
    support = supported(result)
    if support is None:
        return _sample_out(result, plate)
    if not support.reported or plate.cook is None:
        return None
    served = _columns(result, plate)
    stand_ins = (result.represented_by(column) for column in served)
    columns = [column for column in stand_ins if column is not None]
    if any(column in support.columns for column in columns) or (served and not columns):
        return None
    own = tr("the cook of {plate} was not tasted", plate=plate.title)
    if columns:
        hours = hours_in_words(result.samples[columns[0]].hours or 0.0)
        own = tr("{hours}, the time of {plate}, is out", plate=plate.title, hours=hours)
    return Notice(
        tr(
            "{who}: {closest}; {own}.",
            who=tasters_in_words(result.count),
            closest=came_words(result),
            own=own,
        ),
        "caution",
    )


def _sample_out(result: TastingResult, plate: Plate) -> Notice | None:
    """Say so where a plate's own sample is out, among samples that are no series."""
    found = [judged for column in _columns(result, plate) if (judged := judged_at(result, column))]
    if result.decision is None or not found or not all(each.out for each in found):
        return None
    own = listed([result.samples[result.judged[each.place]].words for each in found])
    return Notice(
        tr(
            "{who}: {closest}; the sample of {plate} is out: {own}.",
            who=tasters_in_words(result.count),
            closest=came_words(result),
            plate=plate.title,
            own=own,
        ),
        "caution",
    )
