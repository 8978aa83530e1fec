"""Words of a kitchen's files that the builder knows are said in the language of the pages."""

import re
from pathlib import Path

import pytest

from builder.costing.services import BURNERS
from builder.data import plausible_ranges
from builder.engine.tables import named
from builder.language import written_in
from builder.pages.ways import _GEAR, _PACKS, gear_words, pack_words, species_words, way_words
from builder.quantities.measures import PACK_WORDS
from builder.records import peers
from builder.records.plans import COLD, HOT, HOT_MEANT, METERED, MODELLED
from builder.records.species import SPECIES
from tests.tastings.kitchens import KITCHEN, PLACE, SCORES, computed

ROOT = Path(__file__).parents[2]
DEMO, STARTERS = ROOT / "content", ROOT / "builder" / "starter"


def test_no_species_and_no_medium_of_the_files_stays_english() -> None:
    with written_in("fr"):
        assert [each for each in SPECIES if species_words(each) == each] == []
        assert [each for each in (*COLD, *HOT, *MODELLED) if way_words(each) == each] == []


def test_what_things_are_sold_in_is_known_by_every_word_that_is_read() -> None:
    """Some words are alike in both languages, so it is the lists that are compared."""
    assert set(PACK_WORDS.split("|")) == _PACKS


def _kinds_of_equipment() -> set[str]:
    """Those that checks and computing know by name, and those of the kitchens that come along."""
    named = (re.fullmatch(r"kitchen\.equipment\..* \((.+)\)", key) for key in plausible_ranges())
    checked = {found[1] for found in named if found}
    files = [DEMO / "kitchen.yaml", *STARTERS.glob("*/kitchen.yaml")]
    written = {
        kind for file in files for kind in re.findall(r"\bkind: ([\w ]+)", file.read_text("utf-8"))
    }
    assert "combi oven" in checked
    assert "water bath" in written
    return {*checked, *written, *METERED, *HOT_MEANT, *COLD, *BURNERS}


def test_kinds_of_equipment_are_known_by_every_word_that_is_read() -> None:
    assert _kinds_of_equipment() - _GEAR == set()


def test_kinds_species_and_packs_are_said_in_french() -> None:
    with written_in("fr"):
        assert gear_words("Water bath") == "bain thermostaté"
        assert species_words("beef") == "bœuf"
        assert pack_words("bag") == "sac"


@pytest.mark.parametrize("word", ["Grandmother's pot", "Rotisserie"])
def test_a_word_of_the_kitchens_own_stays(word: str) -> None:
    with written_in("fr"):
        assert (gear_words(word), pack_words(word), species_words(word)) == (word,) * 3


def test_a_name_with_initials_begins_small_within_a_french_sentence() -> None:
    assert named("ap_price") == "AP price"
    with written_in("fr"):
        assert named("ap_price") == "prix d'achat"


def test_what_values_are_compared_with_is_said_in_french() -> None:
    with written_in("fr"):
        for name in peers.NAMES.values():
            assert f"{name}" != str(name), str(name)


def test_the_ballots_own_word_for_right_is_an_answer() -> None:
    """A French ballot prints "juste bien"; the file's own "right" counts the same."""
    french = KITCHEN["kitchen.yaml"] + "language: fr\n"
    counts = []
    for word in ("right", "juste bien"):
        scores = SCORES.replace(", right]", f", {word}]")
        view, problems = computed({"kitchen.yaml": french, PLACE: scores})
        assert view is not None, [str(problem) for problem in problems]
        [right] = view.costed.tastings["trial"].rights
        counts.append([(each.right.count, each.answers) for each in right.shares])
    assert counts[0] == counts[1] == [(3, 3), (1, 3), (1, 3)]
