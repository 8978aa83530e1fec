"""A test is called as the trade calls it, and an estimate is called one."""

from __future__ import annotations

import re

import pytest

from builder.build import compute_content
from builder.pages.tastings import short_verdict, tasting_pages
from builder.pages.view import View
from builder.records.method_names import method_name
from builder.records.tasting_values import TESTS
from builder.tasting.discrimination import share_who_can_tell
from builder.tasting.protocols import DUO_TRIO, PAIRED_EITHER_WAY, TRIANGLE, forced_choice
from builder.tasting.verdicts import share_sentence
from tests.tastings.kitchens import ROOT, TODAY


def test_every_test_has_a_name_of_its_own() -> None:
    names = [method_name(test) for test in TESTS]
    assert len(set(names)) == len(names)
    assert not set(names) & set(TESTS) - {"ranking"}
    # ISO 13301 calls it so.
    assert method_name("3-afc") == "3-alternative forced choice (3-AFC)"


def test_no_page_prints_the_key_of_a_test() -> None:
    costed, problems = compute_content(ROOT, None, TODAY)
    assert costed is not None, problems
    pages = {page.path: page for page in tasting_pages(View.of(costed, problems))}
    for tasting in costed.content.tastings.values():
        page = pages[f"tastings/{tasting.id}.html"]
        assert page.kind == f"Tasting, {method_name(tasting.test)}"


@pytest.mark.parametrize("protocol", [TRIANGLE, DUO_TRIO, forced_choice(2), PAIRED_EITHER_WAY])
@pytest.mark.parametrize(("correct", "tasters"), [(9, 12), (18, 24), (40, 48), (5, 6)])
def test_a_share_is_never_firmer_than_its_limits(
    protocol: object, correct: int, tasters: int
) -> None:
    """What a dozen tasters bring is an estimate with limits, said in one breath."""
    share = share_who_can_tell(correct, tasters, protocol)  # type: ignore[arg-type]
    words = share_sentence(share, protocol)  # type: ignore[arg-type]
    assert re.search(r"an estimated \d+ %.* between [-−]?\d+ % and \d+ % \(", words), words


def test_the_share_in_a_list_is_an_estimate() -> None:
    costed, problems = compute_content(ROOT, None, TODAY)
    assert costed is not None, problems
    said = [short_verdict(result) for result in costed.tastings.values() if result.choice]
    bare = re.compile(
        r"(?<!estimated )(?<!fewer than )(?<!at most )(?<!more than )\b\d+ % can tell"
    )
    assert said
    assert not [words for words in said if bare.search(words.replace("that 30 % can tell", ""))]
