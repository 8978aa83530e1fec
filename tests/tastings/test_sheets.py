"""Printed sheets: the same from the same file, blind, and with what concerns the body on them."""

from __future__ import annotations

from builder.language import written_in
from builder.pages.components import Form, Page
from builder.pages.tasting_sheets import contains, key_pages, sheet_pages
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from tests.pages_data.kitchens import by_path, hrefs_of, html_of, text_of
from tests.tastings.kitchens import SCORES, TRIANGLE, demo, trial


def sheets(view: View) -> dict[str, Page]:
    """Every printed sheet by path."""
    return by_path(sheet_pages(view))


def of(yaml: str) -> View:
    """The small kitchen with one tasting."""
    view, _ = trial(yaml)
    assert view is not None
    return view


def test_the_same_file_prints_the_same_sheets() -> None:
    assert sheets(of(SCORES)) == sheets(of(SCORES))
    assert sheets(of(SCORES)) != sheets(of(f"{SCORES}seed: another\n"))


def test_answers_change_no_sheet() -> None:
    """What was served does not depend on what was answered."""
    head, key, answers = SCORES.partition("scores:\n")
    head += "seed: grey geese\n"
    view, held = of(head), sheets(of(head + key + answers))
    apart = by_path(key_pages(view, view.costed.tastings["trial"]))
    planned = {**sheets(view), **apart}
    assert {name: page.sections for name, page in held.items()} == {
        name: page.sections for name, page in planned.items()
    }


def test_a_ballot_for_each_taster_in_the_order_of_the_tray() -> None:
    view = of(SCORES)
    forms = [s for s in sheets(view)["forms/trial-ballots.html"].sections if isinstance(s, Form)]
    trays = view.costed.tastings["trial"].plan.trays
    assert [form.reference for form in forms] == [tray.taster for tray in trays]
    for form, tray in zip(forms, trays, strict=True):
        codes = [row.cells[0].text for block in form.blocks for row in getattr(block, "rows", ())]
        assert tuple(codes) == tray.codes


def test_ballots_and_trays_give_no_sample_away() -> None:
    """On paper: the forms alone, as a sheet prints nothing else."""
    for yaml in (SCORES, TRIANGLE):
        found = sheets(of(yaml))
        for name in ("ballots", "trays"):
            forms = found[f"forms/trial-{name}.html"].sections
            assert all(isinstance(form, Form) for form in forms)
            words = repr(forms).lower()
            assert not [
                w for w in ("ribeye", "chuck", "short", "long", "24 h", "36 h") if w in words
            ]


def test_the_key_is_apart() -> None:
    found = sheets(of(SCORES))
    key = found["forms/trial-key.html"]
    codes = {line.code for line in of(SCORES).costed.tastings["trial"].plan.key}
    assert all(code in text_of(html_of(key)) for code in codes)
    for name in ("ballots", "trays"):
        links = hrefs_of(html_of(found[f"forms/trial-{name}.html"]))
        assert not [href for href in links if "key" in href or "tastings/trial" in href]


def test_a_warm_up_is_named_where_the_serving_is_said_and_on_the_key() -> None:
    """It is cooked twice as often as the others, which nothing else on the page would explain."""
    head = SCORES.partition("scores:\n")[0]
    view = of(head.replace("margin: 10 %", "warm up: short") + "seed: grey geese\n")
    page = by_path(tasting_pages(view))["tastings/trial.html"]
    said = "First comes a warm-up that nobody scores: 24 h. A serving is"
    assert said in text_of(html_of(page))
    key = key_pages(view, view.costed.tastings["trial"])
    with written_in("fr"):
        french = " ".join(
            text_of(html_of(page)) for page in key_pages(view, view.costed.tastings["trial"])
        )
    assert any("warm-up" in text_of(html_of(page)) for page in key)
    assert "mise en bouche" in french
    assert "warm-up" not in french


def test_every_scale_stands_on_the_ballot() -> None:
    words = text_of(html_of(sheets(of(SCORES))["forms/trial-ballots.html"]))
    assert "Tenderness: 1 to 9, highest is best" in words
    assert "Texture: too firm, right, or falling apart" in words


def test_allergens_and_doneness_are_on_every_ballot() -> None:
    yaml = SCORES.replace("short: chuck-24h", "short: {plate: steak}")
    page = sheets(of(yaml))["forms/trial-ballots.html"]
    words = text_of(html_of(page))
    assert words.count("Contains milk, as the kitchen's files state.") == 3
    assert words.count("cooked at 57 °C and may be pink") == 3


def test_an_allergen_that_is_not_stated_is_not_promised_away() -> None:
    view = of(SCORES)
    assert "that is no promise" in contains(view, view.costed.tastings["trial"])


def test_no_sheet_is_longer_than_its_page_can_hold() -> None:
    """20 seats to a tray map; the printed length is looked at in a browser elsewhere."""
    forms = sheets(demo())["forms/short-rib-triangle-trays.html"].sections
    assert len(forms) == 2
