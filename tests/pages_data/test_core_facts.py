"""What a cook reads first of core and allergens can be read in one way only."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.allergens import short_words
from builder.pages.at_the_stove import core_facts
from builder.pages.cook_heat import verdict_of
from tests.pages_data.opened import demo_view

VIEW = demo_view()


def core_words(cook: str) -> str:
    (term,) = core_facts(VIEW, VIEW.costed.content.cooks[cook])
    return Markup(term.text).striptags()


def test_a_core_that_a_rule_asks_for_has_its_hold_beside_it() -> None:
    """131 °F held for 89 min; what only has to be reached has no time."""
    assert core_words("chuck-roll-30h").endswith("for 89 min, as the rule asks")
    assert " for " not in core_words("duck-legs-24h")


def test_every_cook_that_a_rule_times_says_so_first() -> None:
    timed = 0
    for cook in VIEW.costed.content.cooks.values():
        verdict = verdict_of(VIEW, cook)
        check = verdict and (verdict.ruling_hold or verdict.asked)
        if check and check.row.hold_s and not VIEW.batch(cook).traced("core_target"):
            timed += bool(list(core_facts(VIEW, cook)))
            for term in core_facts(VIEW, cook):
                assert check.row.printed_hold in Markup(term.text).striptags(), cook.id
    assert timed > 10


def test_a_record_without_allergens_is_not_read_as_one_that_states_none() -> None:
    """Not stated is what nobody wrote; a cut that writes none names none."""
    cut = VIEW.costed.content.cuts["beef-chuck-roll"]
    assert short_words(VIEW, cut) == "none named"
