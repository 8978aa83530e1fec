"""What is known of the allergens of one record, in words and line by line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from builder.display.words import listed
from builder.pages.components import Cell, Column, Link, Notice, Part, Row, Table
from builder.pages.parts import ALLERGENS, links, page_of, paragraph, part
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.withheld import WITHHELD
from builder.records.contained import Contained, Holder, Kind, contained, in_words
from builder.records.kinds import Plate

LIST_PAGE = "allergens.html"
ALL_STATED = "Every part states its allergens, and none is named."


def allergens_part(view: View, record: Holder) -> Part | None:
    """What is known of allergens, who states it, and the caution that belongs to it."""
    if not _are_granted(view):
        return None
    found = contained(view.costed.content, record)
    return part(
        "allergens",
        "Allergens",
        *(paragraph(text) for text in sentences(found)),
        _sources(found, record),
        Notice(ALLERGENS, "caution"),
        links("See also", [Link("All plates by allergen", f"~/{LIST_PAGE}")]),
    )


def _are_granted(view: View) -> bool:
    """Whether a reader sees allergens: the records that state them, or do not, are named."""
    return view.grants("allergens", "cuts", "pantry", "plates")


def sentences(found: Contained) -> Iterator[str]:
    """What it contains, may contain, and what states nothing, a sentence each."""
    if found.contains:
        yield f"Contains {in_words(found.contains)}."
    if found.may:
        yield f"May contain {in_words(found.may)}."
    if found.unstated:
        yield f"{unstated_words(found)}, so what else is in it is not known."
    elif not found.contains:
        yield ALL_STATED


def short_words(view: View, record: Holder) -> str:
    """What a cell of a list says of a record's allergens."""
    if not _are_granted(view):
        return WITHHELD
    found = contained(view.costed.content, record)
    stated = in_words(found.contains) or ("" if found.unstated else "none stated")
    may = f"may contain {in_words(found.may)}" if found.may else ""
    unknown = "not stated" if found.unstated == (record,) else "part not stated"
    return "; ".join(filter(None, (stated, may, unknown if found.unstated else "")))


def unstated_words(found: Contained) -> str:
    """Which parts state no allergens.

    A long list is cut short, as a sentence has to be read.
    """
    titles = [record.title for record in found.unstated]
    shown = titles if len(titles) < 5 else [*titles[:3], f"{len(titles) - 3} others"]
    return f"No allergens are stated for {listed(shown)}"


def _sources(found: Contained, record: Holder) -> Table | None:
    rows = [
        *_source_rows(found.contains, "contains"),
        *_source_rows(found.may, "may contain"),
        *(Row((Cell("Any other"), Cell("not stated"), _named([each]))) for each in found.unstated),
    ]
    if not rows or found.unstated == (record,):
        return None
    columns = (Column("what", "Allergen"), Column("state", "In it"), Column("by", "From"))
    return Table("allergen-sources", "Where it comes from", columns, tuple(rows))


def _source_rows(found: Mapping[Kind, tuple[Holder, ...]], state: str) -> Iterator[Row]:
    for kind, records in found.items():
        yield Row((Cell(capital(in_words([kind]))), Cell(state), _named(records)))


def _named(records: Iterable[Holder]) -> Cell:
    """Records by name, each with the way to its page."""
    found = [Markup('<a href="~/{}">{}</a>').format(page_of(each), each.title) for each in records]
    return Cell(Markup(", ").join(found))


def swap_allergens(view: View, plates: Iterable[Plate], benchmark: Plate) -> Part | None:
    """What guests with an allergy have to hear of a swap: allergens gained, lost and unknown."""
    if not _are_granted(view):
        return None
    old = contained(view.costed.content, benchmark)
    found = [(plate, contained(view.costed.content, plate)) for plate in plates]
    return part(
        "allergens",
        "Allergens",
        *(
            section
            for plate, new in found
            for section in (
                paragraph(_change_words(plate, benchmark, new, old)),
                _changes(plate, benchmark, new, old),
            )
        ),
        Notice(ALLERGENS, "caution"),
    )


def change_words(view: View, plate: Plate, benchmark: Plate) -> str:
    """What a swap changes for a guest with an allergy, in sentences."""
    new, old = (contained(view.costed.content, each) for each in (plate, benchmark))
    return _change_words(plate, benchmark, new, old)


def _changes(plate: Plate, benchmark: Plate, new: Contained, old: Contained) -> Table:
    kinds = [
        ("Gained", _without(new.contains, old.contains)),
        ("Lost", _without(old.contains, new.contains)),
        ("In both", [kind for kind in new.contains if kind in old.contains]),
        ("May contain, not before", _without(new.may, {**old.contains, **old.may})),
        ("May have contained, not now", _without(old.may, {**new.contains, **new.may})),
    ]
    rows = [Row((Cell(what), Cell(in_words(found)))) for what, found in kinds if found]
    rows += [
        Row((Cell(f"Not stated in {each.title}"), _named(found.unstated)))
        for each, found in ((plate, new), (benchmark, old))
        if found.unstated
    ]
    return Table(
        f"{plate.id}-allergens",
        f"{plate.title} instead of {benchmark.title}: allergens",
        (Column("change", "Change"), Column("allergens", "Allergens")),
        tuple(rows),
        empty="Neither plate has a part with a stated allergen, and every part is stated.",
    )


def _without(found: Iterable[Kind], other: Iterable[Kind]) -> list[Kind]:
    known = set(other)
    return [kind for kind in found if kind not in known]


def _change_words(plate: Plate, benchmark: Plate, new: Contained, old: Contained) -> str:
    gained, lost = _without(new.contains, old.contains), _without(old.contains, new.contains)
    title, against = plate.title, benchmark.title
    words = []
    if gained:
        known = " where it was not stated" if old.unstated else ""
        words.append(f"{title} brings in {in_words(gained)}{known}.")
    if lost:
        known = " as far as it is stated" if new.unstated else ""
        words.append(f"{title} does without the {in_words(lost)} of {against}{known}.")
    if not words:
        words.append(f"No stated allergen changes with {title}.")
    if new.unstated:
        words.append(f"{unstated_words(new)}: find out before it goes on the menu.")
    return " ".join(words)
