"""What people in a kitchen type finds what they mean, on the demo's site in a real browser.

The words are common practice, no published source; what each should find is ours.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.site.opened import opened
from tests.site.sites import BuiltSite

pytestmark = pytest.mark.browser

Ask = Callable[[str], list[str]]
NEAR = 4
"""How many of the first that are found are looked at."""
# What is asked, and what the title and the kind of one of the first begin with.
ASKED = {
    # Cuts by their other names
    "eye round": "Beef eye of round", "eye of the round": "Beef eye of round",
    "sirloin": "Beef striploin", "new york strip": "Beef striploin", "rib-eye": "Beef ribeye",
    "filet mignon": "Beef tenderloin", "flat iron": "Beef top blade", "bavette": "Beef flank",
    "oxtails": "Oxtail", "shin": "Beef shank", "short ribs": "Beef chuck short rib",
    "boston butt": "Pork butt", "rack of lamb": "Lamb rack", "magret": "Duck breast",
    "confit": "Duck leg", "shrimp": "Prawn", "116a": "Beef chuck roll",
    # Ways and times
    "sous vide": "Brisket 36h", "low temperature": "Brisket 36h", "48 hours": "Short rib, 48 h",
    "135f": "Top blade 24h", "57c": "Top blade 24h", "combi": "Braised shank",
    "barbecue": "Flank and prawns", "baths": "Brisket 36h",
    # Allergens: who may not eat one is led to the matrix
    "dairy": "Bowl of mash", "shellfish": "Half a dozen oysters", "coeliac": "Oxtail on toast",
    "gluten free": "Allergens", "no gluten": "Allergens", "nut free": "Allergens",
    "vegetarian": "Allergens", "peanuts": "Allergens", "allergen matrix": "Allergens",
    # The menu: target, classes, actions
    "over target": "Flank and prawns", "too expensive": "Flank and prawns",
    "reprice": "Braised shank", "sells and earns": "Dish of gratin",
    "best seller": "Dish of gratin", "neither": "Slaw", "menu engineering": "Menu",
    "order today": "What to do", "weigh again": "Oxtail on toast", "warnings": "What to do",
    "swap that loses": "Top blade for flank", "losing swap": "Top blade for flank",
    "swap to make": "Chuck roll for ribeye", "sell more": "Oxtail on toast",
    "take off the menu": "Slaw", "drop": "Slaw",
    # Suppliers, money, methods
    "harrow lane": "Harrow Lane Meats", "saltmarsh": "Lamb neck", "vendor": "Prices",
    "invoice": "Prices", "vat": "Kitchen", "payroll": "Kitchen", "pos": "Sales",
    "gross profit": "Menu", "food cost %": "Menu", "breakeven": "Break even cost",
    "contribution margin": "Contribution margin: plate", "triangle test": "Short rib, two days",
    "payback": "Pork butt for loin",
    # Sheets and what they are for
    "prep list": "Sunday lunch", "mise en place": "Sunday lunch", "shopping list": "Sunday lunch",
    "log sheet chuck": "Chuck roll 30h", "spec sheet short rib": "Glazed short rib bites",
    "decision sheet": "Pork butt for loin", "tray map": "Pork butt or loin", "haccp": "Rules",
    "use by": "Brisket 36h", "stocktake": "Counts", "by the pound": "Pulled pork by weight",
    "prix fixe": "Set menus", "over-booked": "Equipment", "export": "Tables to download",
    "gravy": "Lamb neck with gratin", "poultry": "Chicken supreme",
    # What a search by hand missed
    "anchovy": "Cold eye of round", "bread": "Oxtail on toast", "demi glace": "Lamb jus",
    "hourly rate": "Kitchen", "loses money": "Top blade for flank",
    "price increase": "Braised shank", "low margin": "Pulled pork bun",
    "doneness brisket": "Brisket 36h", "what contains mustard": "Allergens",
    # Without accents, and with a slip
    "ragu": "Shank ragù", "puree": "Bowl of mash", "brisquet": "Beef brisket",
    "tenderlion": "Beef tenderloin", "chuk rol": "Beef chuck roll", "potatos": "Potatoes",
}  # fmt: skip


@pytest.fixture(scope="module")
def ask(browser: Browser, demo: BuiltSite) -> Iterator[Ask]:
    """What is found first, "title kind" each, for what is asked."""
    with opened(browser, demo.home("file"), "index.html") as page:
        page.keyboard.press("/")
        expect(page.locator("dialog [role=status]")).not_to_contain_text("Reading")
        yield lambda words: found(page, words)


def found(page: Page, words: str) -> list[str]:
    page.get_by_label("Search by name").fill(words)
    return [" ".join(text.split()) for text in page.locator("[role=option]").all_inner_texts()]


@pytest.mark.parametrize("words", ASKED)
def test_what_is_typed_finds_what_is_meant(ask: Ask, words: str) -> None:
    first = ask(words)[:NEAR]
    assert [each for each in first if each.startswith(ASKED[words])], first


@pytest.mark.parametrize("words", ["gluten free", "no gluten", "nut free", "dairy free"])
def test_who_may_not_eat_something_is_not_shown_what_contains_it(ask: Ask, words: str) -> None:
    assert ask(words) == ["Allergens page"]


def slips(word: str) -> Iterator[str]:
    """A word with one letter left out, written twice, changed, or two turned round."""
    for at in range(1, len(word) - 1):
        yield word[:at] + word[at + 1 :]
        yield word[:at] + word[at] + word[at:]
        yield word[:at] + ("x" if word[at] != "x" else "k") + word[at + 1 :]
        yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]


@pytest.mark.parametrize("word", ["brisket", "tenderloin", "oxtail", "striploin", "mushrooms"])
def test_one_wrong_letter_finds_the_same(ask: Ask, word: str) -> None:
    meant = ask(word)[0]
    lost = [slip for slip in slips(word) if meant not in ask(slip)[:NEAR]]
    assert lost == []


def test_words_that_no_page_has_together_find_the_nearest_and_say_so(
    browser: Browser, demo: BuiltSite
) -> None:
    with opened(browser, demo.home("file"), "index.html?search=brisket+unicorn") as page:
        expect(page.locator("[role=option]").first).to_contain_text("Beef brisket")
        status = page.locator("dialog [role=status]")
        expect(status).to_contain_text("No page has all of these words.")
        page.get_by_label("Search by name").fill("unicorn")
        expect(status).to_have_text("Nothing found. Try fewer letters.")
