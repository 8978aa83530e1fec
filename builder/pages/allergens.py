"""What is known of the allergens of one record, in words and line by line."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from markupsafe import Markup

from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.anchors import anchor
from builder.pages.components import Cell, Column, Link, Notice, Part, Row, Table
from builder.pages.found_once import contained_in
from builder.pages.parts import ALLERGENS, links, page_of, paragraph, part
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.withheld import WITHHELD
from builder.records.contained import Contained, Holder, Kind, in_words
from builder.records.kinds import Plate

LIST_PAGE = "allergens.html"
ALL_STATED = Deferred("Every part states its allergens, and none is named.")


def allergens_part(view: View, record: Holder) -> Part | None:
    """What is known of allergens, who states it, and the caution that belongs to it."""
    if not are_granted(view):
        return None
    found = contained_in(view, record)
    return part(
        "allergens",
        tr("Allergens"),
        *(paragraph(text) for text in sentences(found)),
        _sources(found, record),
        Notice(tr(ALLERGENS), "caution"),
        links(tr("See also"), [Link(tr("All plates by allergen"), f"~/{LIST_PAGE}")]),
    )


def are_granted(view: View) -> bool:
    """Whether a reader sees allergens: the records that state them, or do not, are named."""
    return view.grants("allergens", "cuts", "pantry", "plates")


def sentences(found: Contained) -> Iterator[str]:
    """What it contains, may contain, and what states nothing, a sentence each."""
    if found.contains:
        yield tr("Contains {in_words}.", in_words=in_words(found.contains, found.rows))
    yield from beside_contained(found)


def beside_contained(found: Contained) -> Iterator[str]:
    """What it may contain beside what it does, and what states nothing, a sentence each."""
    if found.may:
        yield tr("May contain {in_words}.", in_words=in_words(found.may, found.rows))
    if found.unstated:
        yield tr(
            "{unstated_words}, so what else is in it is not known.",
            unstated_words=unstated_words(found),
        )
    elif not found.contains:
        yield tr(ALL_STATED)


def short_words(view: View, record: Holder) -> str:
    """What a cell of a list says of a record's allergens."""
    if not are_granted(view):
        return WITHHELD
    found = contained_in(view, record)
    stated = in_words(found.contains, found.rows) or ("" if found.unstated else tr("none named"))
    may = (
        tr("may contain {in_words}", in_words=in_words(found.may, found.rows)) if found.may else ""
    )
    unknown = tr("not stated") if found.unstated == (record,) else tr("part not stated")
    return clauses((stated, may, unknown if found.unstated else ""))


def unstated_words(found: Contained) -> str:
    """Which parts state no allergens.

    A long list is cut short, as a sentence has to be read.
    """
    titles = [record.title for record in found.unstated]
    shown = (
        titles if len(titles) < 5 else [*titles[:3], tr("{titles} others", titles=len(titles) - 3)]
    )
    return tr("No allergens are stated for {shown}", shown=listed(shown))


def _sources(found: Contained, record: Holder) -> Table | None:
    rows = [
        *_source_rows(found.contains, tr("contains"), found.rows),
        *_source_rows(found.may, tr("may contain"), found.rows),
        *(
            Row((Cell(tr("Any other")), Cell(tr("not stated")), _named([each])))
            for each in found.unstated
        ),
    ]
    if not rows or found.unstated == (record,):
        return None
    columns = (
        Column("what", tr("Allergen")),
        Column("state", tr("In it")),
        Column("by", tr("From")),
    )
    return Table("allergen-sources", tr("Where it comes from"), columns, tuple(rows))


def _source_rows(
    found: Mapping[Kind, tuple[Holder, ...]], state: str, rows: Collection[str]
) -> Iterator[Row]:
    for kind, records in found.items():
        yield Row((Cell(capital(in_words([kind], rows))), Cell(state), _named(records)))


def _named(records: Iterable[Holder]) -> Cell:
    """Records by name, each with the way to its page."""
    found = [anchor(f"~/{page_of(each)}", each.title) for each in records]
    return Cell(Markup(", ").join(found))


def swap_allergens(view: View, plates: Iterable[Plate], benchmark: Plate) -> Part | None:
    """What guests with an allergy have to hear of a swap: allergens gained, lost and unknown."""
    if not are_granted(view):
        return None
    old = contained_in(view, benchmark)
    found = [(plate, contained_in(view, plate)) for plate in plates]
    return part(
        "allergens",
        tr("Allergens"),
        *(
            section
            for plate, new in found
            for section in (
                paragraph(_change_words(plate, benchmark, new, old)),
                _changes(plate, benchmark, new, old),
            )
        ),
        Notice(tr(ALLERGENS), "caution"),
    )


def change_words(view: View, plate: Plate, benchmark: Plate) -> str:
    """What a swap changes for a guest with an allergy, in sentences."""
    new, old = (contained_in(view, each) for each in (plate, benchmark))
    return _change_words(plate, benchmark, new, old)


def _changes(plate: Plate, benchmark: Plate, new: Contained, old: Contained) -> Table:
    kinds = [
        (tr("Gained"), _without(new.contains, old.contains)),
        (tr("Gone"), _without(old.contains, new.contains)),
        (tr("In both"), [kind for kind in new.contains if kind in old.contains]),
        (tr("May contain, not before"), _without(new.may, {**old.contains, **old.may})),
        (tr("May have contained, not now"), _without(old.may, {**new.contains, **new.may})),
    ]
    rows = [Row((Cell(what), Cell(in_words(found, new.rows)))) for what, found in kinds if found]
    rows += [
        Row((Cell(tr("Not stated in {each}", each=each.title)), _named(found.unstated)))
        for each, found in ((plate, new), (benchmark, old))
        if found.unstated
    ]
    return Table(
        f"{plate.id}-allergens",
        tr(
            "{plate} instead of {benchmark}: allergens",
            plate=plate.title,
            benchmark=benchmark.title,
        ),
        (Column("change", tr("Change")), Column("allergens", tr("Allergens"))),
        tuple(rows),
        empty=tr("Neither plate has a part with a stated allergen, and every part is stated."),
    )


def _without(found: Iterable[Kind], other: Iterable[Kind]) -> list[Kind]:
    known = set(other)
    return [kind for kind in found if kind not in known]


def _change_words(plate: Plate, benchmark: Plate, new: Contained, old: Contained) -> str:
    gained, lost = _without(new.contains, old.contains), _without(old.contains, new.contains)
    title, against = plate.title, benchmark.title
    words = []
    if gained:
        known = tr(" where it was not stated") if old.unstated else ""
        words.append(
            tr(
                "New with {title}: {in_words}{known}.",
                title=title,
                in_words=in_words(gained, new.rows),
                known=known,
            )
        )
    if lost:
        known = tr(" as far as it is stated") if new.unstated else ""
        words.append(
            tr(
                "Gone with {title}: the {in_words} of {against}{known}.",
                title=title,
                in_words=in_words(lost, new.rows),
                against=against,
                known=known,
            )
        )
    if not words:
        words.append(tr("No stated allergen changes with {title}.", title=title))
    if new.unstated:
        words.append(
            tr(
                "{unstated_words}: find out before it goes on the menu.",
                unstated_words=unstated_words(new),
            )
        )
    return " ".join(words)
