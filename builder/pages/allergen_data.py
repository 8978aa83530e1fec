"""Plates by allergens, and the kitchen's list of allergens, as open data."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred, tr
from builder.pages.allergen_matrix import Matrix
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.contained import Contained, Holder, in_words, state_of, whole_of

NO_PART = Deferred("no part states it")


def _plates(view: View) -> Iterator[tuple[int, Texts]]:
    matrix, row = Matrix(view), 0
    for plate, found in zip(matrix.plates, matrix.found, strict=True):
        for name in matrix.names:
            yield row, _texts(plate, found, name)
            row += 1


def _texts(plate: Holder, found: Contained, name: str) -> Texts:
    state = state_of(name, found)
    stated = found.may if state == "may contain" else found.contains
    kinds = [kind for kind in stated if name in kind or kind == (whole_of(name), "")]
    records = found.unstated if state == "not stated" else ()
    records = (*(each for kind in kinds for each in stated[kind]), *records)
    return (
        f"{plate.id}/{slug(name) or name}",
        plate.id,
        name,
        state or tr(NO_PART),
        in_words(kinds) or None,
        " ".join(dict.fromkeys(each.path for each in records)) or None,
    )


def _list(view: View) -> Iterator[tuple[int, Texts]]:
    matrix = Matrix(view)
    law = matrix.list.law
    rows = {row.name: row for row in law.rows} if law else {}
    for number, name in enumerate(matrix.names):
        row = rows.get(name)
        by = "law" if row else "kitchen" if name in matrix.list.rows else tr("a file only")
        texts: Texts = (None,) * 5
        if law and row:
            texts = (law.id, row.clause, row.law, law.source, law.status)
        yield number, (slug(name) or name, name, by, *texts)


ALLERGEN_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "plate_allergens",
        Deferred("Plates by allergens, from the kitchen's own files"),
        "",
        (
            Field("id", "Plate and allergen"),
            Field("plate", "Plate on the menu", refers="plates"),
            Field("allergen", "Allergen of the kitchen's list, or one that only a file names"),
            Field(
                "state", f"contains, may contain, not stated, or {NO_PART!s}, which is no promise"
            ),
            Field("kinds", "The allergen with its kinds, as far as named"),
            Field("records", "Paths of the records that state it, or that state nothing"),
        ),
        _plates,
    ),
    Resource(
        "allergens",
        Deferred("The allergens that the kitchen's pages list"),
        "",
        (
            Field("id", "Allergen, as part of an address"),
            Field("name", "Allergen"),
            Field("listed_by", "law, kitchen, or a file only"),
            Field("law", "Law that lists it"),
            Field("clause", "Where in the law"),
            Field("wording", "What the law lists, in short"),
            Field("source", "The law in full"),
            Field("status", "How far the law was read"),
        ),
        _list,
    ),
)
