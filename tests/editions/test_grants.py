"""Any grants on a kitchen with a record of every kind: nothing else is in any byte."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from builder.costing.model import MODEL
from builder.pages.data import NEEDS, RESOURCES
from builder.pages.editions import reader_of
from builder.pages.reader import Reader
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from builder.publish.links import broken_links
from builder.records.base import Written
from builder.records.editions import GROUPS, KINDS, PARTS, edition
from builder.records.notes import web_links
from tests.editions.made import another, computed, files_of
from tests.editions.proved import WORDS, of_scripts, searched, words_withheld
from tests.editions.searched import forms_of, holding, numbers, with_numbers
from tests.editions.small import OPTIONAL, SMALL, without, written


def most(names: tuple[str, ...]) -> st.SearchStrategy[frozenset[str]]:
    """Some of the names: all but a few, or a few."""
    few = st.frozensets(st.sampled_from(names), max_size=len(names))
    return st.one_of(few, few.map(lambda left: frozenset(names) - left), st.just(frozenset(names)))


@st.composite
def readers(draw: st.DrawFn) -> Reader:
    granted = (sorted(draw(most(names))) for names in (KINDS, GROUPS, PARTS))
    return reader_of("somebody", edition(*granted))


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("scripts")


@pytest.fixture(scope="module")
def scripts(cache: Path, tmp_path_factory: pytest.TempPathFactory) -> set[bytes]:
    return of_scripts(tmp_path_factory.mktemp("kitchens"), cache)


@settings(max_examples=25, phases=(Phase.explicit, Phase.generate))
@given(reader=readers(), factor=st.floats(1.05, 1.6))
def test_nothing_that_is_not_granted_is_anywhere(
    reader: Reader, factor: float, cache: Path, scripts: set[bytes]
) -> None:
    if reader.is_owner:
        return
    with TemporaryDirectory() as folder:
        root = written(SMALL, Path(folder) / "as-written")
        # Both are written out by one hand, as a listing shows how a file is written.
        one, other = (
            computed(another(root, made(Path(folder) / str(by)), reader, by)) for by in (1, factor)
        )
    files = files_of(one, reader, cache)
    assert broken_links(files, web_links(one[0].content)) == []
    assert searched(one, reader, files, scripts) == {}
    assert files_of(other, reader, cache) == files


@settings(max_examples=15, phases=(Phase.explicit, Phase.generate))
@given(
    reader=readers(),
    factor=st.floats(1.05, 1.6),
    left_out=st.sets(st.sampled_from(OPTIONAL)),
    customary=st.booleans(),
)
def test_nothing_withheld_moves_a_byte_whatever_a_kitchen_writes(
    reader: Reader, factor: float, left_out: set[tuple[str, str]], customary: bool, cache: Path
) -> None:
    """With other values behind what is withheld the site is the same, so it tells of none."""
    if reader.is_owner:
        return
    with TemporaryDirectory() as folder:
        files = without(sorted(left_out), customary=customary)
        root = written(files, Path(folder) / "as-written")
        one, other = (
            computed(another(root, made(Path(folder) / str(by)), reader, by)) for by in (1, factor)
        )
    site = files_of(one, reader, cache)
    assert broken_links(site, web_links(one[0].content)) == []
    assert holding(site, words_withheld(one, reader, site)) == {}
    assert files_of(other, reader, cache) == site


def made(folder: Path) -> Path:
    folder.mkdir()
    return folder


def test_the_words_are_there_to_be_found(cache: Path, tmp_path: Path) -> None:
    """The search finds all of it where it is: in the site of one who lacks only the forms."""
    kitchen = computed(written(SMALL, tmp_path))
    parts = [part for part in PARTS if part != "forms"]
    reader = reader_of("almost", edition(KINDS, GROUPS, parts))
    files = files_of(kitchen, reader, cache)
    found = set().union(*holding(files, WORDS).values())
    assert found == set(WORDS) - {"nobody guesses"}
    nobody = reader_of("nobody", edition((), (), ()))
    sought = numbers(forms_of(View.of(*kitchen), nobody))
    there = set().union(*with_numbers(files, sought).values())
    # Of several forms of a value a site has one or two.
    assert len(there) > len(sought) / 3


def test_keys_that_may_be_read_are_keys_of_a_record() -> None:
    kinds = _all(Written)
    assert sum(bool(kind.granted) for kind in kinds) > 30
    for kind in kinds:
        assert kind.granted.keys() <= kind.model_fields.keys(), kind
        for grant in kind.granted.values():
            assert grant in ("", *GROUPS, *PARTS, *KINDS), (kind, grant)


def test_every_table_has_its_grant() -> None:
    """One that is new is refused until somebody says what it needs."""
    assert NEEDS.keys() == {resource.name for resource in RESOURCES}
    nobody = reader_of("nobody", edition((), (), ()))
    kitchens = {table for table in MODEL.tables if nobody.has_rows(table)}
    assert kitchens == {"kitchen", "equipment"}
    assert {need for needs in NEEDS.values() for need in needs} <= {*GROUPS, *KINDS, *PARTS}


def _all(kind: type[Written]) -> list[type[Written]]:
    return [kind, *(each for below in kind.__subclasses__() for each in _all(below))]


def test_a_service_has_its_page_without_the_set_menus_that_its_order_rests_on(
    tmp_path: Path,
) -> None:
    kinds = [kind for kind in KINDS if kind not in {"menus", "buffets"}]
    reader = reader_of(
        "nobody's guest", edition(kinds, GROUPS, [p for p in PARTS if p != "allergens"])
    )
    view = View.of(*computed(written(SMALL, tmp_path)), reader)
    assert view.costed.services
    pages = list(schedule_pages(view))
    assert len(pages) == 1 + len(view.costed.services)
    assert "order" not in {getattr(part, "id", "") for page in pages for part in page.sections}
