"""The plan of a tasting on its page: tasters needed, orders, what to cook and when."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.panels import session_rules
from builder.costing.tasting_hours import served_at, step_at, whole_steps
from builder.costing.tasting_results import TastingResult
from builder.costing.tasting_words import (
    USUAL_SPREAD,
    Question,
    questions,
    share_who_get_one,
)
from builder.display.estimates import about
from builder.language import tr
from builder.pages.components import Cell, Column, Link, LinkList, Row, Section, Table
from builder.pages.parts import paragraph, part
from builder.pages.tasting_pieces import (
    has_sheets,
    kitchen_spread,
    method_href,
    named_cell,
    points,
    session_is_over,
    sheet_path,
    sheets_of,
)
from builder.pages.view import View
from builder.pages.withheld import WITHHELD
from builder.records.tastings import Tasting
from builder.tasting.needed import TastersNeeded
from builder.tasting.wording import percent_in_words, tasters_in_words


def plan_part(view: View, result: TastingResult) -> Section:
    """How it is served, to whom, and what is cooked for it."""
    rules = session_rules(result.tasting)
    servings = tr(
        "A serving is {portion}, with {rest} for water and bread between two; "
        "the session takes {session}.",
        portion=view.style.weight(rules.portion / 1000),
        rest=view.style.duration(rules.palate_break / 60),
        session=about(view.style, result.plan.session),
    )
    said = (result.plan.sentence, warm_up_sentence(result), servings)
    return part(
        "plan",
        tr("How it is served"),
        paragraph(" ".join(filter(None, said))),
        *_sheets(view, result),
        *_cooked(view, result),
    )


def warm_up_sentence(result: TastingResult) -> str:
    """What is served before what is scored; empty where nothing is."""
    if result.tasting.warm_up is None:
        return ""
    name = result.words_of(str(result.tasting.warm_up))
    return tr("First comes a warm-up that nobody scores: {sample}.", sample=name)


def _cooked(view: View, result: TastingResult) -> Iterator[Table]:
    """What is cooked for it and when, for whoever may see times."""
    if not view.grants("cooking"):
        return
    columns = (
        Column("sample", tr("Sample")),
        Column("servings", tr("Servings"), numeric=True),
        Column(
            "servable", tr("Servable weight"), numeric=True, about=tr("with what is cooked on top")
        ),
        Column("raw", tr("Into the cook"), numeric=True),
        Column("start", tr("Starts")),
        Column("out", tr("Out of the heat")),
    )
    steps = (Column("when", tr("When")), Column("what", tr("What")), Column("sample", tr("Sample")))
    yield Table("cooking", tr("What to cook"), columns, tuple(cooking_rows(view, result)))
    yield Table("timetable", tr("When"), steps, tuple(timetable_rows(view, result)))


def _sheets(view: View, result: TastingResult) -> Iterator[Section]:
    over = session_is_over(view, result)
    if not view.grants("tasting sheets", "allergens"):
        return
    if not has_sheets(view, result):
        yield paragraph(
            tr(
                "No ballots, tray map and key yet: the codes need a seed of their own in "
                "the file, words that nobody guesses."
            )
        )
        return
    if not (there := sheets_of(view, result)):
        return
    links = [
        Link(tr("Ballots"), f"~/{sheet_path(result, 'ballots')}", tr("two to a page, to cut apart"))
    ]
    if "key" in there:
        links += [
            Link(tr("Tray map"), f"~/{sheet_path(result, 'trays')}", tr("for whoever serves")),
            Link(
                tr("Key"),
                f"~/{sheet_path(result, 'key')}",
                tr("for the kitchen, apart from the rest"),
            ),
        ]
    yield LinkList(tuple(links), tr("Sheets to print"))
    if not over:
        yield paragraph(
            tr(
                "The key, the tray map and the seed are not in this site yet. The build "
                "writes the sheets into a folder beside it and names the folder; all of "
                "it joins the site once there are answers or the day has passed."
            )
        )


def cooking_rows(view: View, result: TastingResult) -> Iterator[Row]:
    """What of each sample is cooked, and when it goes in and comes out."""
    for line in result.plan.cooking:
        yield Row(
            (
                named_cell(result, line.sample),
                Cell(str(line.servings), line.servings),
                Cell(view.style.weight(line.servable / 1000), line.servable),
                _raw(view, line.raw),
                Cell(before(view, result.tasting, line.start), -line.start)
                if line.timed
                else Cell(tr("no time stated")),
                Cell(before(view, result.tasting, line.out), -line.out),
            )
        )


def _raw(view: View, grams: float) -> Cell:
    """What goes into the cook: it follows from the yields, so it is for whoever sees weights."""
    if not view.grants("weights"):
        return Cell(WITHHELD)
    return Cell(view.style.weight(grams / 1000), grams, method_href("tasting_weight_to_cook"))


def timetable_rows(view: View, result: TastingResult) -> Iterator[Row]:
    """The steps in the order of the day."""
    for step in result.plan.timetable:
        yield Row(
            (
                Cell(before(view, result.tasting, step.before), -step.before),
                Cell(step.action),
                named_cell(result, step.sample),
            )
        )


def before(view: View, tasting: Tasting, minutes: float) -> str:
    """A moment counted back from service, on the clock's five minutes and no later.

    With day and clock where the file has them.
    """
    if (served := served_at(view.costed.content, tasting)) is not None:
        at = step_at(served, minutes)
        return f"{view.style.date(at.date())}, {view.style.clock(at.time())}"
    minutes = whole_steps(minutes)
    return (
        tr("{minutes} before", minutes=view.style.duration(minutes / 60))
        if minutes
        else tr("at service")
    )


def moment(view: View, tasting: Tasting) -> str:
    """When everything is served."""
    words = [view.style.date(tasting.date.day)] if tasting.date else []
    words += (
        [tr("at {serve_at}", serve_at=view.style.clock(tasting.serve_at.hour))]
        if tasting.serve_at
        else []
    )
    return " ".join(words)


# Tasters


def tasters_part(view: View, result: TastingResult) -> Section | None:
    """How many tasters each question needs, and from which spread that is reckoned."""
    found = list(questions(result, kitchen_spread(view) or USUAL_SPREAD))
    if not found:
        return None
    columns = (
        Column("question", tr("To show")),
        Column("needed", tr("Tasters, at least"), numeric=True),
        Column("first", tr("Fewest that may do"), numeric=True),
        Column("chance", tr("Chance of showing it"), numeric=True),
    )
    asked = tasters_in_words(len(result.tasting.tasters))
    return part(
        "tasters",
        tr("How many tasters"),
        Table("needed", tr("{asked} asked", asked=asked), columns, tuple(map(_needed_row, found))),
        paragraph(_basis(view, result)),
    )


def _needed_row(question: Question) -> Row:
    needed: TastersNeeded = question.needed
    more = tr("more than {searched}", searched=needed.searched)
    href = method_href(question.method)
    return Row(
        (
            Cell(question.words),
            Cell(str(needed.at_least or more), needed.at_least, href),
            Cell(str(needed.first or more), needed.first),
            Cell(percent_in_words(needed.power), needed.power, note=question.limits),
        )
    )


def _basis(view: View, result: TastingResult) -> str:
    """What the numbers rest on."""
    if result.tasting.is_discrimination:
        return tr(
            "Counted exactly; the chance goes up and down with each taster, so a few more may do "
            "no better."
        )
    own = kitchen_spread(view)
    spread = points(USUAL_SPREAD if own is None else own)
    taken = tr("a usual one (common practice, no published source)")
    if own is not None:
        taken = tr("the middle one of this kitchen's tastings so far")
    words = [
        tr(
            "Worked out with a spread of {spread} points of 100 between tasters' "
            "differences, {taken}{the_level}.",
            spread=spread,
            taken=taken,
            the_level=tr(", the level shared among the challengers") * (len(result.samples) > 2),
        )
    ]
    if not result.everybody_gets_all:
        words.append(
            tr(
                "A taster gets {per_taster} of the {samples} samples, so that a "
                "challenger reaches {percent_in_words} of those asked.",
                per_taster=result.per_taster,
                samples=len(result.samples),
                percent_in_words=percent_in_words(share_who_get_one(result)),
            )
        )
    if result.held:
        words.append(tr("The verdicts above use the spread of this tasting itself."))
    return " ".join(words)
