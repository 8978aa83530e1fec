"""The demo's editions: nothing of what is withheld is in any byte, nor moves one."""

from __future__ import annotations

import html
import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.allergens import sentences
from builder.pages.view import View
from builder.records.contained import contained, in_words
from builder.records.editions import READY
from tests.editions.made import Kitchen, another, computed, files_of, named
from tests.editions.searched import (
    amounts_in,
    forms_of,
    holding,
    names_withheld,
    numbers,
    with_numbers,
)
from tests.editions.small import SMALL, written

DEMO = Path("content")
EDITIONS = [name for name in READY if name != "owner"]
Files = Mapping[str, bytes]


@pytest.fixture(scope="module")
def demo() -> Kitchen:
    return computed(DEMO)


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("scripts")


@pytest.fixture(scope="module")
def files(demo: Kitchen, cache: Path) -> dict[str, Files]:
    return {name: files_of(demo, named(demo, name), cache) for name in EDITIONS}


@pytest.mark.parametrize("name", EDITIONS)
def test_no_name_of_what_is_withheld_is_in_any_byte(
    name: str, demo: Kitchen, files: dict[str, Files]
) -> None:
    words = set(names_withheld(demo[0].content, named(demo, name), files[name].keys()))
    assert {"Harrow Lane Meats", "chuck-for-ribeye"} <= words
    assert holding(files[name], words) == {}


@pytest.mark.parametrize("name", EDITIONS)
def test_no_amount_of_money_is_on_any_page(name: str, files: dict[str, Files]) -> None:
    texts = (".html", ".csv", ".json", "search-data.js", "rows-0.js")
    found = {path: amounts_in(files[name][path]) for path in files[name] if path.endswith(texts)}
    assert {path: amounts for path, amounts in found.items() if amounts} == {}


@pytest.mark.parametrize("name", EDITIONS)
def test_no_form_of_a_withheld_figure_is_in_any_byte(
    name: str, demo: Kitchen, files: dict[str, Files], cache: Path, tmp_path: Path
) -> None:
    withheld = numbers(forms_of(View.of(*demo), named(demo, name)))
    assert len(withheld) > 1000
    # A number of another kitchen's scripts is no sign of this one.
    other = files_of(computed(written(SMALL, tmp_path)), named(demo, name), cache)
    scripts = {path: data for path, data in other.items() if path.endswith((".js", ".css"))}
    found = set().union(*with_numbers(files[name], withheld).values())
    assert found <= set().union(*with_numbers(scripts, withheld).values())


@pytest.mark.parametrize(
    ("name", "kept"), [("kitchen", ()), ("front-of-house", ("weights", "cooking", "work"))]
)
def test_whatever_has_the_withheld_values_the_edition_is_the_same(
    name: str, kept: tuple[str, ...], demo: Kitchen, files: dict[str, Files], cache: Path,
    tmp_path: Path,
) -> None:  # fmt: skip
    reader = named(demo, name)
    other = computed(another(DEMO, tmp_path, reader, 1.37, kept))
    assert wage(other[0]) == pytest.approx(1.37 * wage(demo[0]), abs=0.005)
    assert files_of(other, reader, cache) == files[name]


def wage(costed: Costed) -> float:
    return costed.figures.value("kitchen", "loaded_wage", 0)


def test_the_kitchen_reads_what_it_works_by(files: dict[str, Files]) -> None:
    site = files["kitchen"]
    cook = site["cooks/chuck-roll-30h.html"].decode()
    for words in (
        "57\u00a0°C", "30\u00a0h", "7.64\u00a0kg to serve", "Weighings: cook", "meets",
        "A batch, stage by stage",
    ):  # fmt: skip
        assert words in cook
    assert "Starts in their order" in site["services/friday-dinner.html"].decode()
    assert {"forms/friday-dinner-prep.html", "forms/chuck-roll-30h-log.html",
            "allergens.html", "assets/live/model.js"} <= site.keys()  # fmt: skip
    assert not {"menu.html", "swaps.html", "prices.html", "kitchen.html"} & site.keys()


def test_the_front_of_house_reads_what_guests_ask(files: dict[str, Files]) -> None:
    site = files["front-of-house"]
    plate = site["plates/chuck-steak.html"].decode()
    assert "Contains gluten (rye and wheat), milk, celery and sulphites." in plate
    assert "Chuck roll 30h, Bone sauce, Mashed potato and Buttered greens" in plate
    assert "served without a cook" in site["plates/oysters.html"].decode()
    assert {"forms/allergens.html", "forms/lamb-second-try-ballots.html"} <= site.keys()
    assert not [path for path in site if path.startswith(("data/", "methods", "counts"))]


@pytest.mark.parametrize("name", EDITIONS)
def test_tastings_are_planned_and_what_tasters_found_is_left_out(
    name: str, files: dict[str, Files]
) -> None:
    site = files[name]
    ahead = words_of(site["tastings/lamb-second-try.html"])
    assert "Planned: 18 tasters" in ahead
    assert "href=../forms/lamb-second-try-ballots.html" in ahead
    held = words_of(site["tastings/chuck-durations.html"])
    assert "This tasting was held; what tasters found is not in this edition." in held
    assert ("What to cook" in held) == (name == "kitchen")
    assert "Planned:" not in held
    sheets = ("-key.html", "-trays.html")
    assert not [path for path in site if path.endswith(sheets)]


@pytest.mark.parametrize("name", EDITIONS)
def test_allergens_are_those_that_the_owner_reads(
    name: str, demo: Kitchen, files: dict[str, Files]
) -> None:
    """Of every plate, bread of the cover included, set menu and buffet."""
    content = demo[0].content
    for plate in content.plates.values():
        page = words_of(files[name][f"plates/{plate.id}.html"])
        assert [each for each in sentences(contained(content, plate)) if each not in page] == []
    for menu in content.menus.values():
        found = contained(content, *(content.plates[plate] for plate in menu.plate_ids))
        page = words_of(files[name][f"menus/{menu.id}.html"])
        said = " ".join(re.findall(r"(?:contains|come with|Contains) [^.]*\.", page))
        assert [kind for kind, _ in found.contains if kind not in said] == []
    party = content.buffets["staff-party"]
    dishes = [content.cuts[content.cooks[cook].cut] for cook in party.cooks]
    found = contained(content, *dishes, *(content.pantry[item] for item in party.items))
    assert in_words(found.contains) in words_of(files[name]["buffets/staff-party.html"])


def words_of(page: bytes) -> str:
    return html.unescape(page.decode())


def test_the_kitchen_has_steps_spec_sheets_and_labels(files: dict[str, Files]) -> None:
    site, floor = files["kitchen"], files["front-of-house"]
    sheets = (
        "forms/cooks/chuck-roll-30h-labels.html", "forms/pantry/bone-sauce-labels.html",
        "forms/services/friday-dinner-labels.html", "forms/cooks/chuck-roll-30h-spec.html",
        "forms/pantry/bone-sauce-spec.html", "forms/plates/chuck-steak-spec.html",
    )  # fmt: skip
    assert {*sheets} <= site.keys()
    assert not {*sheets} & floor.keys()
    sauce = words_of(site["pantry/bone-sauce.html"])
    for words in ("Pour on the wine", "20\u00a0min", "made to size", "4 days", "Wine flares"):
        assert words in sauce
    assert "Keep at 3\u00a0°C, at most" in words_of(site["forms/cooks/chuck-roll-30h-labels.html"])
    assert holding(floor, {"Pour on the wine", "Wine flares", "Five slices"}) == {}


def test_a_picture_is_in_the_files_only_where_its_step_is(files: dict[str, Files]) -> None:
    picture = "assets/pictures/chuck-steak-plating.png"
    assert picture in files["kitchen"]
    assert picture not in files["front-of-house"]


@pytest.mark.parametrize("name", EDITIONS)
def test_set_menus_and_buffets_are_shown_without_their_money(
    name: str, files: dict[str, Files]
) -> None:
    site = files[name]
    menu = words_of(site["menus/sunday-three-courses.html"])
    assert "Half a dozen oysters" in menu
    assert "every plate of the course side contains milk" in menu.lower()
    assert "menus/sunday-three-courses.html" in words_of(site["set-menus.html"])
    party = words_of(site["buffets/staff-party.html"])
    assert "Turkey thigh 14h" in party
    assert ("All that is put out" in party) == (name == "kitchen")
    for page in (menu, party):
        assert not [word for word in ("Food cost", "Guests a week", "margin") if word in page]


@pytest.mark.parametrize("name", EDITIONS)
def test_search_engines_are_asked_to_keep_away(name: str, files: dict[str, Files]) -> None:
    site = files[name]
    assert site["robots.txt"] == b"User-agent: *\nDisallow: /\n"
    pages = [data for path, data in site.items() if path.endswith(".html")]
    assert all(b'<meta name=robots content="noindex, nofollow">' in data for data in pages)
