"""What a cook reads first of core and allergens can be read in one way only."""

from __future__ import annotations

from pathlib import Path

import pytest
from markupsafe import Markup

from builder.cooking.verdict import Outcome
from builder.pages.allergens import short_words
from builder.pages.at_the_stove import core_facts
from builder.pages.cook_heat import verdict_of
from builder.pages.log_sheets import log_page
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.pages_data.kitchens import html_of, text_of
from tests.pages_data.opened import demo_view

VIEW = demo_view()
# Its rows are as good as each other.
ONE_ROW = ", as one row of the rule asks"
BY_ONE_ROW = " is asked for by one row of the rule"


def core_words(cook: str) -> str:
    (term,) = core_facts(VIEW, VIEW.costed.content.cooks[cook])
    return Markup(term.text).striptags()


def test_a_core_that_a_rule_asks_for_has_its_hold_beside_it() -> None:
    """131 °F held for 89 min; what only has to be reached has no time."""
    assert core_words("chuck-roll-30h").endswith(f"for 89 min{ONE_ROW}")
    assert " for " not in core_words("duck-legs-24h")


def test_a_core_that_the_plan_does_not_reach_is_asked_for() -> None:
    """Among what is done it would read as done: this bath stays below every row of the rule."""
    words = core_words("eye-of-round-18h")
    assert words.endswith(" is asked for, and not met")


def test_every_cook_that_a_rule_times_says_so_first() -> None:
    timed = 0
    for cook in VIEW.costed.content.cooks.values():
        verdict = verdict_of(VIEW, cook)
        check = verdict and verdict.asked_of_core
        if check and check.row.hold_s:
            timed += bool(list(core_facts(VIEW, cook)))
            for term in core_facts(VIEW, cook):
                assert check.row.printed_hold in Markup(term.text).striptags(), cook.id
    assert timed > 10


def test_a_record_without_allergens_is_not_read_as_one_that_states_none() -> None:
    """Not stated is what nobody wrote; a cut that writes none names none."""
    cut = VIEW.costed.content.cuts["beef-chuck-roll"]
    assert short_words(VIEW, cut) == "none named"


BURGERS = {
    "kitchen.yaml": (
        "name: Invented kitchen\ncurrency: USD\nunits: us customary\nloaded wage: 20.00/h\n"
        "authority: us-food-code-2017\n"
    ),
    "cuts/chuck.yaml": "species: beef\nprice: 6.00/lb\nallergens: none\n",
    "cooks/burger.yaml": (
        "cut: chuck\nhow: grill\nfor: 8 min\ncore: 155 °F\nform: ground\nload: 8 lb\nloss: 27 %\n"
    ),
}


@pytest.mark.parametrize(
    ("core", "stated", "shown"),
    [
        (
            "155 °F",
            f"155 °F for 17 s{BY_ONE_ROW}",
            "155 °F / 68.3 °C or above and stays",
        ),
        ("150 °F", f"150 °F for 1 min{BY_ONE_ROW}", "stays there for 1 min"),
        ("152 °F", "152 °F; the rule asks 150 °F / 65.6 °C for 1 min", "stays there for 1 min"),
        ("160 °F", "160 °F", "158 °F / 70.0 °C or above at least once"),
    ],
)
def test_a_stated_core_has_the_hold_of_its_own_row(
    core: str, stated: str, shown: str, tmp_path: Path
) -> None:
    """Ground beef: 145 °F for 3 min, 150 °F for 1 min, 155 °F for 17 s, 158 °F on reaching it."""
    cook = BURGERS["cooks/burger.yaml"].replace("155 °F", core)
    costed = costed_from(write(tmp_path, {**BURGERS, "cooks/burger.yaml": cook}))
    view, burger = View.of(costed, []), costed.content.cooks["burger"]
    (term,) = core_facts(view, burger)
    assert Markup(term.text).striptags().replace("\xa0", " ") == stated
    sheet = " ".join(text_of(html_of(log_page(view, burger))).split()).replace("\xa0", " ")
    assert shown in sheet


STEAK = {
    "cuts/chuck.yaml": "species: beef\nprice: 6.00/lb\nallergens: none\n",
    "cooks/steak.yaml": (
        "cut: chuck\nhow: grill\nfor: 8 min\ncore: 130 °F\nform: intact\ncounts as: steak\n"
        "seared: yes\nload: 8 lb\nloss: 15 %\n"
    ),
}


@pytest.mark.parametrize(
    ("seared", "stated"),
    [("yes", "130 °F"), ("no", "130 °F; the rule asks 145 °F / 62.8 °C for 15 s")],
)
def test_a_clause_on_the_surface_asks_nothing_of_the_core(
    seared: str, stated: str, tmp_path: Path
) -> None:
    """A whole-muscle steak that is seared meets its clause whatever its core is."""
    cook = STEAK["cooks/steak.yaml"].replace("seared: yes", f"seared: {seared}")
    files = {"kitchen.yaml": BURGERS["kitchen.yaml"], **STEAK, "cooks/steak.yaml": cook}
    costed = costed_from(write(tmp_path, files))
    view = View.of(costed, [])
    (term,) = core_facts(view, costed.content.cooks["steak"])
    assert Markup(term.text).striptags().replace("\xa0", " ") == stated


@pytest.mark.parametrize(
    ("long", "hold"), [("8 min", "70 °C for 2 min"), ("1 h", "60 °C for 45 min")]
)
def test_a_rule_asks_a_row_that_the_cook_is_long_enough_for(
    long: str, hold: str, tmp_path: Path
) -> None:
    """Of 60 °C for 45 min, 65 °C for 10 min, 70 °C for 2 min only the last fits into 8 min."""
    kitchen = BURGERS["kitchen.yaml"].replace("us-food-code-2017", "uk-core-equivalents")
    files = {
        "kitchen.yaml": kitchen.replace("us customary", "metric"),
        "cuts/turbot.yaml": "species: fish\nprice: 26.00/kg\nallergens: [fish]\n",
        "cooks/turbot.yaml": "cut: turbot\nhow: pan\nform: intact\ncounts as: steak\n"
        f"for: {long}\nload: 1.4 kg\nloss: 11 %\n",
    }
    costed = costed_from(write(tmp_path, files))
    view, turbot = View.of(costed, []), costed.content.cooks["turbot"]
    (term,) = core_facts(view, turbot)
    assert Markup(term.text).striptags().replace("\xa0", " ") == f"{hold}{BY_ONE_ROW}"
    sheet = " ".join(text_of(html_of(log_page(view, turbot))).split()).replace("\xa0", " ")
    core, held = hold.split(" for ")
    assert f"the core is at {core} or above and stays there for {held}" in sheet


def test_a_core_is_as_the_rule_asks_only_of_a_plan_that_meets_it() -> None:
    """Stated or not: a plan that fails or that can't be compared does not do what is asked."""
    ends = {
        Outcome.MEETS: (", as the rule asks", ONE_ROW),
        Outcome.DOES_NOT_MEET: (" is asked for, and not met",),
        Outcome.NOT_COVERED: (" is asked for", BY_ONE_ROW),
    }
    seen = set()
    for cook in VIEW.costed.content.cooks.values():
        verdict = verdict_of(VIEW, cook)
        words = core_words(cook.id) if verdict and list(core_facts(VIEW, cook)) else ""
        if verdict and ("asked for" in words or words.endswith(ends[Outcome.MEETS])):
            assert words.endswith(ends[verdict.outcome]), cook.id
            seen.add(verdict.outcome)
    assert seen == set(Outcome)
