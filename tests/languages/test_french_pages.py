"""Pages of a kitchen that writes in French: its names have a gender and a number of their own."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from builder.build import build, compute_content
from builder.costing.spreads import AP_PRICE, COVER_AMOUNT
from builder.data.synonyms import groups, other_words, plain, search_words
from builder.language import written_in
from builder.pages.input_names import words_of_input
from builder.pages.portions import counted_words
from builder.pages.search import search_records
from builder.pages.view import View
from builder.problems import Place
from builder.quantities import Dimension
from builder.records.sizes import Counted
from tests.kitchens import write
from tests.site.sites import pages_of, text_of

KITCHEN = {
    "kitchen.yaml": (
        "name: Cuisine du Pont\ncurrency: EUR\nlocale: fr_FR\nloaded wage: 21/h\nenergy: 0.19/kWh\n"
        "targets: {food cost: 28 %}\nauthority: us-food-code-2017\nsections: [plats]\n"
        "equipment:\n  armoire: {title: Étuve, kind: water bath, volume: 20 L, holds: 6 kg, "
        "price: 640, service life: 9000}\n"
    ),
    "cuts/paleron.yaml": "species: beef\nprice: 14/kg\ntrim: {loss: 10 %}\nallergens: none\n",
    "cuts/huitres.yaml": (
        "name: Huîtres\nspecies: fish\nprice: 0.90/each\neach: 85 g\nallergens: [molluscs]\n"
    ),
    "cooks/paleron.yaml": (
        "name: Paleron 24 h\ncut: paleron\nhow: water bath\nat: 58 °C\nfor: 24 h\n"
        "piece: {shape: slab, thickness: 55 mm, starts at: 4 °C, weight: 1.2 kg}\n"
        "load: 4.8 kg\nequipment: armoire\nhands-on: 30 min\nloss: 20 %\n"
        "cool: {to: 3 °C, within: 6 h}\nstore: {at: 3 °C, for: 5 d}\n"
        "reheat: {at: 58 °C, for: 45 min}\n"
        "steps: [Saler, {what: Cuire, for: 24 h}]\n"
    ),
    "pantry/oignons.yaml": (
        "name: Oignons\nprice: 16.00/bag\nyield: 88 %\nallergens: none\n"
        "sold as: {pack: bag of 10 kg, minimum: 2 bags}\n"
    ),
    "pantry/puree.yaml": (
        "name: Purée\nof: {oignons: 2 kg}\nmakes: 1.5 kg\nhands-on: 20 min\n"
    ),
    "plates/paleron.yaml": (
        "name: Assiette du menu\nmenu: plats\ncook: paleron\nportion: 170 g\nprice: 22\n"
        "with: {puree: 120 g}\nsold: {2026-08: 190, 2026-09: 204}\n"
    ),
    "plates/huitres.yaml": (
        "name: Huîtres au naturel\nmenu: plats\ncut: huitres\nportion: 6 pieces\nprice: 13\n"
    ),
    "swaps/deux.yaml": "name: Le plat du menu\nbenchmark: huitres\nchallengers: [paleron]\n",
    "services/soir.yaml": "day: friday\nat: 19:00\nplates: {huitres: 3, paleron: 30}\n",
    "menus/un.yaml": "name: Le petit\nprice: 13\nplates: [paleron]\nguests: 9\n",
    "buffets/un.yaml": "name: Buffet\nprice: 9\nitems: {puree: 120 g}\n",
}  # fmt: skip


DAY = date(2026, 10, 1)
FORMULAS = ("writing", "methods", "data.html")
"""Pages on files and formulas, which name keys and tables."""


# The file as it is written, and what scripts read.
NOT_PROSE = re.compile(r'<script.*?</script>|<ol class="?lines"?>.*?</ol>|<pre.*?</pre>', re.DOTALL)


def seen(html: str) -> str:
    """What a reader sees of a page, a blank between its parts and spaces made plain."""
    return text_of(NOT_PROSE.sub(" ", html).replace("<t", " <t"))


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("fr"), KITCHEN)


@pytest.fixture(scope="module")
def view(kitchen: Path) -> View:
    costed, problems = compute_content(kitchen, None, DAY)
    assert costed is not None, problems
    return View.of(costed, problems)


@pytest.fixture(scope="module")
def pages(kitchen: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Every page by its path, as a reader sees it, spaces made plain."""
    here = tmp_path_factory.mktemp("site")
    assert build(kitchen, here / "site", None, DAY, cache=here / "cache").report is not None
    return {
        path: seen((here / "site" / path).read_text(encoding="utf-8"))
        for path in pages_of(here / "site")
    }


def test_sheets_of_a_cook_say_its_way_and_the_clock_in_french(pages: dict[str, str]) -> None:
    for sheet in ("cooks/paleron-spec", "paleron-cooking-loss"):
        assert "bain thermostaté" in pages[f"forms/{sheet}.html"]
        assert "water bath" not in pages[f"forms/{sheet}.html"]
    assert "Heure Cœur" in pages["forms/paleron-log.html"]


def test_a_name_keeps_its_own_gender_and_number(pages: dict[str, str]) -> None:
    assert "Huîtres : 0,90 € l'unité (10,59 €/kg) à l'achat" in pages["cuts/huitres.html"]
    assert "Huîtres : sans cuisson." in pages["cuts/huitres.html"]
    assert "Huîtres : sans cuisson" in pages["forms/soir-prep.html"]
    assert "Prix d'achat : 1,60 €/kg ; part utilisée : 88,0 %" in pages["pantry/oignons.html"]
    wrong = re.compile(
        r"Huîtres (?:est|s'achète)|Acheté à|surréservé|ne peut pas.{0,12} être comparé"
    )
    assert [path for path, text in pages.items() if wrong.search(text)] == []
    assert "La remise en température ne se compare pas" in pages["cooks/paleron.html"]


def test_a_list_of_allergens_is_named_in_french(pages: dict[str, str]) -> None:
    laws = re.compile(r"the EU's 14|the US nine", re.IGNORECASE)
    assert [path for path, text in pages.items() if laws.search(text)] == []
    assert "Les 14 de l'UE" in pages["writing/allergens.html"]


def test_a_word_for_initials_begins_small_after_a_name() -> None:
    """ "AP price" has its capital in English alone; a name that comes first keeps its own."""
    with written_in("fr"):
        assert words_of_input(AP_PRICE, "") == "prix d'achat"
        assert words_of_input(COVER_AMOUNT, "Beurre").startswith("Beurre")
    assert words_of_input(AP_PRICE, "") == "AP price"


def test_one_of_one_is_said_without_a_plural(pages: dict[str, str]) -> None:
    assert "Sur 1 menu, 1 dépasse" in pages["set-menus.html"]
    assert "Vendus au poids ou présentés : 1" in pages["buffets.html"]
    wrong = re.compile(r"des 1 (?:menu|plat)|\b1 portions\b")
    shown = {path: text for path, text in pages.items() if not path.startswith(FORMULAS)}
    assert [path for path, text in shown.items() if wrong.search(text)] == []


def test_words_of_the_files_are_said_in_french(pages: dict[str, str]) -> None:
    assert "6 pièces" in pages["plates/huitres.html"]
    assert "sac de 10,00 kg, au moins 2" in pages["pantry/oignons.html"].lower()
    assert "une cuisson qui satisfait à 3-401.11" in pages["cooks/paleron.html"]
    english = re.compile(r"\b(?:pieces|slices|bags|break-even|a cook that meets|its file)\b")
    shown = {path: text for path, text in pages.items() if not path.startswith(FORMULAS)}
    assert {p: m[0] for p, text in shown.items() if (m := english.search(text))} == {}


def test_a_name_that_ends_in_a_key_is_set_off(pages: dict[str, str]) -> None:
    assert "Assiette du menu : prix carte" in pages["swaps/deux.html"]
    assert "Assiette du menu: " not in pages["swaps/deux.html"]


def test_labour_that_is_not_known_is_said_so_in_every_language(pages: dict[str, str]) -> None:
    """No logic reads a sentence: the note came only where the page said it in English."""
    assert "matière et main-d'œuvre, en partie seulement" in pages["plates/paleron.html"]


def test_a_quantity_is_no_amount_of_money(pages: dict[str, str]) -> None:
    assert "Garniture Quantité" in pages["plates/paleron.html"]


@pytest.mark.parametrize(
    ("written", "said"),
    [("1 piece", "1 pièce"), ("6 pieces", "6 pièces"), ("1/2 piece", "1/2 pièce")],
)
def test_a_portion_by_number(written: str, said: str) -> None:
    portion = Counted(1.0, Place(""), written, Dimension.COUNT, counted=written)
    assert counted_words(portion) == written
    with written_in("fr"):
        assert counted_words(portion) == said


def test_published_rules_have_the_decimal_mark_of_the_page(pages: dict[str, str]) -> None:
    rules = pages["rules.html"] + pages["cooks/paleron.html"]
    assert "130 °F / 54,4 °C" in rules
    assert re.search(r"\d\.\d °C", rules) is None


ASKED = {
    "basse température": "Paleron 24 h", "sous vide": "Paleron 24 h", "bœuf": "paleron",
    "fruits de mer": "Huîtres", "mollusques": "Huîtres", "thermoplongeur":
    "Paleron 24 h", "dlc": "Paleron 24 h",
    "au-dessus de la cible": "Huîtres", "trop cher": "Huîtres",
}  # fmt: skip


@pytest.mark.parametrize("asked", ASKED)
def test_french_words_of_the_trade_lead_to_a_record(view: View, asked: str) -> None:
    with written_in("fr"):
        folders = search_words("fr").folders
        found = [
            title
            for title, _, path, words in search_records(view)
            for of_folder in (folders.get(path.partition("/")[0], ""),)
            if f" {plain(asked)} " in f" {plain(f'{title} {words} {of_folder}')} "
        ]
    assert [title for title in found if title.lower().startswith(ASKED[asked].lower())], found


def test_kinds_of_pages_are_named_in_french(view: View) -> None:
    with written_in("fr"):
        kinds = {str(kind) for _, kind, _, _ in search_records(view)}
    assert {"pièce", "plat", "cuisson", "page", "méthode", "substitution"} <= kinds
    assert kinds.isdisjoint({"cut", "plate", "cook", "method", "swap", "count", "log"})


def test_a_cut_is_found_by_its_other_names_in_both_languages() -> None:
    assert "flat iron" not in list(other_words("Paleron", "fr"))
    assert "top blade" in list(other_words("Paleron", "fr"))
    assert "paleron" in list(other_words("Beef top blade", "fr"))
    assert "paleron" not in list(other_words("Beef top blade"))
    assert set(groups()) <= set(groups("fr"))


def test_every_page_of_the_search_has_french_words() -> None:
    english, french = search_words(), search_words("fr")
    assert english.pages.keys() == french.pages.keys()
    assert [page for page, words in french.pages.items() if words == english.pages[page]] == []
    assert [name for name, words in french.folders.items() if words == english.folders[name]] == []
