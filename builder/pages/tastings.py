"""The pages of the tastings: the verdict first, then pictures, tables, the panel, the answers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from builder.costing.choice_words import choice_sentences
from builder.costing.duration_words import texture_words
from builder.costing.durations_said import short_durations
from builder.costing.tasting_grades import against_benchmark
from builder.costing.tasting_results import ChoiceResult, TastingResult, margin_stated
from builder.costing.tasting_words import (
    headline,
    in_order,
    supported,
)
from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    FigureTile,
    Link,
    LinkList,
    Notices,
    Page,
    Part,
    Row,
    Section,
    Table,
    Term,
)
from builder.pages.marks import with_marks
from builder.pages.parts import page_of, paragraph, part, present, record_link
from builder.pages.remarks import remarks
from builder.pages.tasting_charts import right_bars, share_interval
from builder.pages.tasting_listings import listings
from builder.pages.tasting_panel import answers_part, panel_part
from builder.pages.tasting_pieces import (
    NAV,
    challengers,
    choice_cell,
    kitchen_spread,
    method_href,
    page_path,
    points,
    share_cells,
    share_title,
)
from builder.pages.tasting_plan import moment, plan_part, tasters_part
from builder.pages.tasting_sheets import sheet_pages
from builder.pages.tasting_tables import attribute_part
from builder.pages.values import capital, paragraph_of
from builder.pages.view import View
from builder.pages.warned import notices_of
from builder.records.method_names import method_name
from builder.tasting.distance_sentences import distance_sentence
from builder.tasting.wording import (
    chance_in_words,
    counted_once,
    hours_in_words,
    percent_in_words,
    tasters_in_words,
)

PATH = "tastings.html"


def tasting_pages(view: View) -> Iterator[Page]:
    """The list of tastings, a page for each, and their printed sheets."""
    yield with_marks(_list_page(view), view.style)
    for result in view.costed.tastings.values():
        yield with_marks(_tasting_page(view, result), view.style)
    yield from sheet_pages(view)


def _tasting_page(view: View, result: TastingResult) -> Page:
    tasting = result.tasting
    (lead, *also), behind = in_order(result, kitchen_spread(view))
    return Page(
        path=page_path(result),
        title=tasting.title,
        lead=lead,
        also=paragraph_of(also),
        kind=tr("Tasting, {method_name}", method_name=method_name(tasting.test)),
        crumbs=(Link(tr("Tastings"), NAV),),
        nav=NAV,
        aside=_facts(view, result),
        sections=present(
            view.notices(tasting.path),
            _warnings(view, result),
            _tiles(view, result),
            _choice_part(view, result),
            *_evidence(view, result, behind),
            _sure_part(result),
            panel_part(view, result) if result.attributes and _has_codes(view) else None,
            tasters_part(view, result),
            plan_part(view, result),
            _used_part(view, result),
            answers_part(view, result) if result.held and _has_codes(view) else None,
            *remarks(view, tasting),
            listings(view, result),
        ),
    )


def _evidence(view: View, result: TastingResult, behind: list[str]) -> Iterator[Section]:
    """The pictures and tables, the first of them before the words of how it was decided."""
    shown = present(
        _right_part(view, result),
        *(attribute_part(view, result, found) for found in result.attributes),
    )
    yield from shown[:1]
    if behind:
        yield part("decided", tr("Which are out, and at what risk"), paragraph(" ".join(behind)))
    yield from shown[1:]


def _warnings(view: View, result: TastingResult) -> Notices | None:
    """What is wrong with the cooks that tasters are served, for who plans or repeats it."""
    plates = [sample.plate for sample in result.samples if sample.plate]
    names = [name for plate in plates for name in plate.cooks]
    cooks = [sample.cook for sample in result.samples if sample.cook]
    return notices_of(view, [*cooks, *map(view.costed.content.cooks.__getitem__, names)], plates)


def _facts(view: View, result: TastingResult) -> tuple[Term, ...]:
    tasting = result.tasting
    facts = [Term(tr("To find out"), str(tasting.question))] if tasting.question else []
    facts.append(Term(_state(result), moment(view, tasting) or tr("no date")))
    for sample in result.samples:
        record = sample.plate or sample.cook
        mark = tr("benchmark") if sample.name == tasting.benchmark else ""
        href = f"~/{page_of(record)}" if record else ""
        facts.append(Term(sample.words, sample.title, href, mark))
    return tuple(facts)


def _state(result: TastingResult) -> str:
    """What is said of its day."""
    return tr("Held") if result.held or result.answers_kept else tr("Planned")


def _has_codes(view: View) -> bool:
    """Whether a reader sees which taster gave which answer."""
    return view.grants("personal codes")


def _tiles(view: View, result: TastingResult) -> Figures:
    label = tr("Tasters") if result.held else tr("Tasters asked")
    tiles = [FigureTile(label, str(result.count), trace_href="#answers" * result.held)]
    tiles.append(FigureTile(tr("Samples"), str(len(result.samples))))
    support = supported(result)
    if support is not None:
        words = [hours_in_words(result.samples[c].hours or 0.0) for c in support.columns]
        href = method_href("shortlist")
        tiles.append(
            FigureTile(tr("Durations not ruled out"), listed(words) or "–", trace_href=href)
        )
    if result.choice is not None and not result.choice.share.below_chance:
        low, mid, high = share_cells(view, result, result.choice)
        note = tr("{low} to {high}", low=low.text, high=high.text)
        tiles.append(
            FigureTile(share_title(result, result.choice), mid.text, trace_href=mid.href, note=note)
        )
    found = (margin_stated(result.tasting, each) for each in result.tasting.scored.values())
    stated = {margin: measure for measure, margin in found if measure is not None}
    if stated and result.benchmark is not None:
        words = [points(margin).removesuffix(".0") for margin in sorted(stated)]
        place = stated[min(stated)].place
        href = view.where.line_href(place.file, place.line)
        value = tr("{words} of 100", words=listed(words))
        tiles.append(
            FigureTile(tr("Tasting margin"), value, trace_href=href, note=tr("stated beforehand"))
        )
    return Figures(tuple(tiles))


def _choice_part(view: View, result: TastingResult) -> Part | None:
    choice = result.choice
    if choice is None:
        return None
    columns = (
        Column("test", tr("Test")),
        Column("correct", _counted(result, choice), numeric=True),
        Column("tasters", tr("Tasters"), numeric=True),
        Column("limit", tr("Would be enough"), numeric=True),
        Column("chance", tr("Chance")),
    )
    rows = [_test_row(view, result, choice, Deferred("difference"), _enough(choice))]
    if choice.similarity is not None:
        most = choice.similarity.few_enough
        least = ceil(choice.similarity.tasters * choice.protocol.guess)
        words = tr("no number") if most is None else between(least, most)
        rows.append(_test_row(view, result, choice, Deferred("similarity"), words))
    table = Table("tests", capital(tr(choice.protocol.name)), columns, tuple(rows))
    pair = (choice.first, choice.second) if choice.protocol.two_sided else ()
    distance = distance_sentence(choice.distance, [result.words_of(name) for name in pair])
    words = counted_once([*choice_sentences(result), distance])
    title = tr("Which is chosen?") if choice.protocol.two_sided else tr("Can guests tell?")
    picture = share_interval(view, result, choice)
    return part("can-tell", title, picture, table, paragraph(words))


def between(least: int, most: int) -> str:
    """How many would show a likeness."""
    return str(most) if least == most else tr("{least} to {most}", least=least, most=most)


def _counted(result: TastingResult, choice: ChoiceResult) -> str:
    """What the answers are counted as."""
    return (
        tr("Chose {words_of}", words_of=result.words_of(choice.first))
        if choice.protocol.two_sided
        else tr("Correct")
    )


def _enough(choice: ChoiceResult) -> str:
    """How many would show a difference."""
    fewest, tasters = choice.difference.minimum_correct, choice.difference.tasters
    if fewest is None:
        return tr("no number")
    either = (
        tr(", or {tasters} or fewer", tasters=tasters - fewest) if choice.protocol.two_sided else ""
    )
    return tr("{fewest} or more{either}", fewest=fewest, either=either)


def _test_row(
    view: View, result: TastingResult, choice: ChoiceResult, test: str, limit: str
) -> Row:
    names = ("correct", "tasters", "critical_number", "p_value")
    cells = (choice_cell(view, result, choice, name, test) for name in names)
    correct, tasters, enough, chance = cells
    return Row((Cell(test), correct, tasters, replace(enough, text=limit), chance))


def _right_part(view: View, result: TastingResult) -> Part | None:
    if not result.rights:
        return None
    sections: list[Section] = []
    for found in result.rights:
        sections.append(right_bars(view, result, found))
        if found.window is not None:
            sections.append(paragraph(texture_words(result, found)))
    about = tr(
        "Too far is a failure as well, so answers on both sides of right are shown, never a mean."
    )
    names = listed([found.name for found in result.rights])
    return part("right", names.capitalize(), *sections, about=about)


def _sure_part(result: TastingResult) -> Part | None:
    """How many questions were asked at once, and what that does to each answer."""
    if not result.attributes:
        return None
    words = [
        tr(
            "{tasters_in_words}. The risk of a false claim is {percent_in_words} for "
            "each question asked of an attribute.",
            tasters_in_words=tasters_in_words(result.count),
            percent_in_words=percent_in_words(result.alpha),
        )
    ]
    count = len(challengers(result))
    if any(found.no_worse for found in result.attributes) and count > 1:
        words.append(
            tr(
                "Differences to the benchmark are judged by the largest of all at once, "
                "and bounds against the margin share the risk among the {count} "
                "challengers.",
                count=count,
            )
        )
    beside = any(found.differences for found in result.attributes)
    if beside or any(found.attribute and found.pairs for found in result.attributes):
        counts = tr("with the benchmark") if beside else tr("of all pairs")
        words.append(
            tr(
                "Where tests disagree, the comparison {counts} counts before means and "
                "ranks: it assumes nothing about how scores spread.",
                counts=counts,
            )
        )
    if len(result.attributes) > 1:
        reported = [
            f"{found.name} ({chance_in_words(found.holm_p_value)})" for found in result.attributes
        ]
        words.append(
            tr(
                "{attributes} attributes were asked; their rank tests, adjusted after "
                "Holm for being several: {reported}. The first attribute is the one that "
                "counts.",
                attributes=len(result.attributes),
                reported=listed(reported),
            )
        )
    words.append(tr("Where no test shows a difference, that is no proof of likeness."))
    return part("sure", tr("How sure"), paragraph(" ".join(words)))


def _used_part(view: View, result: TastingResult) -> Part | None:
    """The swaps and plates that lean on this tasting."""
    content, tasting = view.costed.content, result.tasting.id
    links = [
        Link(swap.title, f"~/{page_of(swap)}", tr("swap"))
        for swap in content.swaps.values()
        if swap.tasting == tasting
    ]
    links += [
        record_link(plate, tr("plate"))
        for plate in content.plates.values()
        if plate.evidence == tasting
    ]
    return part("used", tr("What rests on it"), LinkList(tuple(links))) if links else None


# The list


def _list_page(view: View) -> Page:
    results = list(view.costed.tastings.values())
    columns = (
        Column("tasting", tr("Tasting")),
        Column("date", tr("Date")),
        Column("test", tr("Test")),
        Column("tasters", tr("Tasters"), numeric=True),
        Column("samples", tr("Samples"), numeric=True),
        Column("verdict", tr("What it supports")),
    )
    rows = tuple(_list_row(view, result) for result in results)
    table = Table(
        "tastings", tr("Tastings"), columns, rows, sortable=len(rows) > 1, filterable=len(rows) > 8
    )
    return Page(
        path=PATH, title=tr("Tastings"), lead=_list_lead(view, results), nav=NAV, sections=(table,)
    )


def _list_lead(view: View, results: list[TastingResult]) -> str:
    """How many there are; of answers only where these may be seen."""
    if not view.grants("tasting answers"):
        over = sum(result.answers_kept for result in results)
        if not over:
            return tr(
                "{tastings}, each as it is planned.",
                tastings=ntr("{count} tasting", "{count} tastings", len(results)),
            )
        count = tr(
            "{tastings} held, {results} planned",
            tastings=ntr("{count} tasting", "{count} tastings", over),
            results=len(results) - over,
        )
        return tr("{count}; what tasters found is not in this edition.", count=count)
    held = [result for result in results if result.held]
    people = sum(result.count for result in held)
    if not results:
        return tr("No tasting yet: a file in tastings/ plans one, before anybody cooks.")
    values = {
        "tastings": ntr("{count} tasting", "{count} tastings", len(held)),
        "results": len(results) - len(held),
        "ballots": ntr("{count} ballot", "{count} ballots", people),
    }
    # Of a session of which only a number was kept there are no codes.
    if any(result.tasting.correct is not None for result in held):
        return tr("{tastings} held, {results} planned; {ballots}.", **values)
    return tr("{tastings} held, {results} planned; {ballots}, all under private codes.", **values)


def _list_row(view: View, result: TastingResult) -> Row:
    tasting = result.tasting
    day = tasting.date.day if tasting.date else None
    return Row(
        (
            Cell(tasting.title, tasting.title.lower(), f"~/{page_path(result)}"),
            Cell(view.style.date(day) if day else "–", day.isoformat() if day else None),
            Cell(method_name(tasting.test)),
            Cell(str(result.count), result.count, note="" if result.held else tr("asked")),
            Cell(str(len(result.samples)), len(result.samples)),
            Cell(short_verdict(result, kitchen_spread(view))),
        )
    )


def short_verdict(result: TastingResult, spread: float | None = None) -> str:
    """The shortest answer that a tasting gives; the count of tasters is in it."""
    if not result.held:
        return headline(result, spread)
    if result.choice is not None:
        return counted_once(choice_sentences(result))
    if result.decision is not None:
        return short_durations(result)
    found = [against_benchmark(result, column) for column in challengers(result)]
    return counted_once(filter(None, found)) or headline(result)
