"""Steps, keeping times, labels and spec sheets on pages, on paper and in the search."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest
from markupsafe import Markup
from PIL import Image
from playwright.sync_api import Browser

from builder.build import compute_content
from builder.pages.components import Form, FormLabels, FormNote, Page, StepList, Table, walk
from builder.pages.keeping import KITCHEN_STATES
from builder.pages.rendering import assets, render
from builder.pages.search import search_records
from builder.pages.site import site_assets
from builder.pages.view import View
from tests.kitchens import pages_but_methods, write
from tests.pages_data.kitchens import SITE, SMALL, by_path, view_of
from tests.site.opened import sheets_of

SERVICE = "day: friday\nat: 18:00\nplates: {chuck-steak: 30}\n"
LONG = ", ".join(["turn it over and look at it again"] * 4)
STEPS = ", ".join([f'"{LONG}"'] * 9)
SLICED, PLATE_SPEC = "steps: [Slice]\n", "forms/plates/chuck-steak-spec.html"
KITCHEN = {
    **SMALL,
    "kitchen.yaml": SMALL["kitchen.yaml"] + "authority: us-food-code-2017\n",
    "pantry/bones.yaml": "price: 2.5/kg\nallergens: [celery, milk, mustard]\n",
    "pantry/sauce.yaml": SMALL["pantry/sauce.yaml"]
    + f"store: {{at: 3 °C, for: 4 d}}\nsteps: [{STEPS}]\n",
    "services/friday.yaml": SERVICE,
}


def pages_of(view: View) -> dict[str, Page]:
    return by_path(pages_but_methods(view))


PAGES = pages_of(view_of(KITCHEN))


def labels(path: str) -> list[tuple[str, dict[str, str], str]]:
    blocks = (b for form in PAGES[path].sections if isinstance(form, Form) for b in form.blocks)
    return [
        (str(each.title), {str(k): str(v) for k, v in each.fields}, " ".join(each.notes))
        for block in blocks
        if isinstance(block, FormLabels)
        for each in block.items
    ]


def test_a_cook_s_page_has_its_steps_with_times_from_their_lines() -> None:
    [steps] = [s for s in walk(PAGES["cooks/chuck-30h.html"].sections) if isinstance(s, StepList)]
    assert [line.what for line in steps.lines] == ["Season and bag", "Hold in the bath"]
    found = steps.lines[1].facts
    facts = [str(Markup(fact).striptags()).replace("\N{NO-BREAK SPACE}", " ") for fact in found]
    assert facts == ["30 h", "57 °C"]
    facts = [
        Markup(fact).striptags().replace("\N{NO-BREAK SPACE}", " ") for fact in steps.lines[1].facts
    ]
    assert facts == ["30 h", "57 °C"]
    assert "chuck-30h.html#L" in steps.lines[1].facts[0]
    assert steps.lines[1].caution == "Lids away from you"
    assert "=scaled.scaled_amount." in steps.lines[0].amounts[0][1]


@pytest.mark.parametrize(
    ("at", "made", "opened"),
    [("3 °C", "Kept cold", "Kept cold once opened"), ("18 °C", "Kept", "Kept once opened")],
)
def test_what_is_kept_in_the_kitchen_is_not_kept_cold(at: str, made: str, opened: str) -> None:
    """Bread in its box: 18 °C is no cold room."""
    store = f"store: {{at: {at}, for: 2 d}}\n"
    files = {
        **KITCHEN,
        "pantry/sauce.yaml": SMALL["pantry/sauce.yaml"] + store,
        "pantry/bones.yaml": KITCHEN["pantry/bones.yaml"] + store,
    }
    pages = pages_of(view_of(files))
    for path, words in (("pantry/sauce.html", made), ("pantry/bones.html", opened)):
        tables = {t.id: t for t in walk(pages[path].sections) if isinstance(t, Table)}
        assert str(tables["keeping-table"].rows[0].cells[0].text) == words


@pytest.mark.parametrize(
    ("path", "source", "rule"),
    [
        ("cooks/chuck-30h.html", "the head chef", "3-502.12(D)"),
        ("pantry/sauce.html", KITCHEN_STATES, "meets: 3-501.17"),
    ],
)
def test_keeping_names_who_says_so_and_the_clause(path: str, source: str, rule: str) -> None:
    tables = {s.id: s for s in walk(PAGES[path].sections) if isinstance(s, Table)}
    _, _, _, says, clause = tables["keeping-table"].rows[0].cells
    assert says.text == source
    assert rule in clause.text
    assert clause.href == "~/rules.html#limits"


def test_labels_leave_lines_to_write_on_and_name_allergens() -> None:
    found = labels("forms/pantry/sauce-labels.html")
    assert len(found) == 8
    title, fields, notes = found[0]
    assert title == "Sauce"
    assert fields == {"Made": "", "Use by": "", "Initials": ""}
    assert f"at most 4 days: {KITCHEN_STATES}." in notes
    assert "Contains milk, celery and mustard." in notes


def test_spec_sheets_say_what_is_known_of_allergens() -> None:
    assert "Contains milk, celery and mustard." in notes_of(PAGES["forms/pantry/sauce-spec.html"])
    plate = {**KITCHEN, "plates/chuck-steak.yaml": KITCHEN["plates/chuck-steak.yaml"] + SLICED}
    [found] = [
        notes_of(page) for path, page in pages_of(view_of(plate)).items() if path == PLATE_SPEC
    ]
    assert "Contains milk, celery and mustard. Not every part states its allergens" in found


def notes_of(page: Page) -> str:
    blocks = (block for form in page.sections if isinstance(form, Form) for block in form.blocks)
    return " ".join(str(block.text) for block in blocks if isinstance(block, FormNote))


def test_a_service_s_labels_are_dated_from_it() -> None:
    """Served on Friday at 18:00 straight from the cook, kept 5 days: Wednesday."""
    found = labels("forms/services/friday-labels.html")
    by_title = {title: fields for title, fields, _ in found}
    assert by_title["Chuck 30h"]["Made"].startswith("Fri ")
    assert by_title["Chuck 30h"]["Use by"].startswith("Wed ")
    assert by_title["Chuck 30h"]["Use by"].endswith("5 days on")
    assert by_title["Sauce"]["Made"] == ""


def test_labels_of_what_is_kept_too_long_say_so_and_leave_the_day_open() -> None:
    """8 days at 3 °C, of 7 that FDA Food Code 3-502.12(D)(2)(e) allows (secondary)."""
    cook = KITCHEN["cooks/chuck-30h.yaml"].replace("for: 5 d", "for: 8 d")
    pages = pages_of(view_of({**KITCHEN, "cooks/chuck-30h.yaml": cook}))
    for path, many in (
        ("forms/cooks/chuck-30h-labels.html", 8),
        ("forms/services/friday-labels.html", 1),
    ):
        found = [
            each
            for form in pages[path].sections
            if isinstance(form, Form)
            for block in form.blocks
            if isinstance(block, FormLabels)
            for each in block.items
            if str(each.title) == "Chuck 30h"
        ]
        assert len(found) >= many
        for label in found:
            assert "Kept so it does not meet 3-502.12(D)." in label.notes
            assert dict(label.fields)["Use by"] == ""


def test_search_finds_words_of_steps() -> None:
    words = {path: text for _, _, path, text in search_records(view_of(KITCHEN))}
    assert "Season and bag" in words["cooks/chuck-30h.html"]
    assert "Lids away from you" in words["cooks/chuck-30h.html"]
    assert "turn it over" in words["pantry/sauce.html"]


def pictured(folder: Path, steps: int) -> View:
    """A kitchen whose plate has so many steps, each with a picture."""
    plate = SMALL["plates/chuck-steak.yaml"]
    step = '{what: Slice, picture: [pictures/plate.png, Five "slices"]}'
    listed = f"steps: [{', '.join([step] * steps)}]\n"
    write(folder, {**SMALL, "plates/chuck-steak.yaml": plate + listed})
    (folder / "pictures").mkdir()
    Image.new("RGB", (1200, 900), "red").save(folder / "pictures" / "plate.png")
    costed, problems = compute_content(folder, None, date(2026, 10, 1))
    assert costed is not None, problems
    assert not [p for p in problems if "picture" in p.message]
    return View.of(costed, problems)


def test_a_step_s_picture_is_published_bare_with_its_words(tmp_path: Path) -> None:
    view = pictured(tmp_path, 1)
    pages = pages_of(view)
    for path, up in (
        ("plates/chuck-steak.html", ".."),
        (PLATE_SPEC, "../.."),
    ):
        html = render(pages[path], SITE).decode()
        assert f"src={up}/assets/pictures/plate.png" in html
        assert 'alt="Five &#34;slices&#34;"' in html
        # On the page in words below it, which a screen reader has heard; a sheet has no room.
        words = "<figcaption aria-hidden=true>Five &#34;slices&#34;</figcaption>"
        assert (words in html) == path.startswith("plates/")
    assert "assets/pictures/plate.png" in dict(site_assets(view, tmp_path / "cache"))


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    "name",
    ["cooks/chuck-30h-spec", "pantry/sauce-spec", "pantry/sauce-labels", "services/friday-labels"],
)
def test_a_sheet_takes_one_page(browser: Browser, tmp_path: Path, name: str, paper: str) -> None:
    prints_as_its_forms(browser, tmp_path, PAGES[f"forms/{name}.html"], assets(), paper)


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("steps", [4, 9])
def test_pictures_have_room_on_a_sheet(
    browser: Browser, tmp_path: Path, steps: int, paper: str
) -> None:
    view = pictured(tmp_path / "kitchen", steps)
    page = pages_of(view)[PLATE_SPEC]
    files = dict(site_assets(view, tmp_path / "cache"))
    prints_as_its_forms(browser, tmp_path / "site", page, files, paper)


FIRST_7 = "[gluten, crustaceans, eggs, fish, peanuts, soy, milk]"
LAST_7 = "[tree nuts, celery, mustard, sesame, sulphites, lupin, molluscs]"
SOURCE = "as the head chef and the county agreed on the plan for cooling and reheating of sauces"


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_label_with_every_allergen_is_printed_whole(
    browser: Browser, tmp_path: Path, paper: str
) -> None:
    """What is cut off a label is not read: six of a sheet are as high as their words are."""
    bones = f"price: 2.5/kg\nallergens: {FIRST_7}\nmay contain: {LAST_7}\n"
    sauce = KITCHEN["pantry/sauce.yaml"].replace("for: 4 d", f"for: 4 d, source: {SOURCE} twice")
    files = {**KITCHEN, "pantry/bones.yaml": bones, "pantry/sauce.yaml": sauce}
    pages = pages_of(view_of(files))
    page = pages["forms/pantry/sauce-labels.html"]
    assert render(page, SITE).count(b"sesame") == 6
    prints_as_its_forms(browser, tmp_path, page, assets(), paper)
    tab = browser.new_page(viewport={"width": 688, "height": 900})
    tab.goto((tmp_path / page.path).as_uri())
    tab.emulate_media(media="print")
    assert tab.locator(".labels > section").evaluate_all(
        "all => all.every((it) => it.scrollHeight <= it.clientHeight)"
    )
    tab.close()


def prints_as_its_forms(
    browser: Browser, folder: Path, page: Page, files: Mapping[str, bytes], paper: str
) -> None:
    """Each form of a page takes one sheet."""
    for path, data in {page.path: render(page, SITE), **files}.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)
    tab = browser.new_page()
    tab.goto((folder / page.path).as_uri())
    printed = tab.pdf(format=paper)
    tab.close()
    forms = sum(isinstance(section, Form) for section in page.sections)
    assert sheets_of(printed) == forms
