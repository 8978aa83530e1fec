"""The list of words that the search reads, against a plain look through every record."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.pages.search_words import word_list, words_in

WEIGHTS = 3
TEXT = st.text(alphabet="ab É1'-œ", max_size=8)
RECORD = st.tuples(TEXT, TEXT, st.sampled_from(["cuts/a.html", "x.html"]), TEXT)
FOLDERS = {"cuts": "b meat"}


def read_off(listed: str, places: str) -> dict[str, dict[int, int]]:
    """By word the records with their weights, as the page's script reads them."""
    found: dict[str, dict[int, int]] = {}
    for word, steps in zip(listed.split(), places.split(), strict=True):
        number, found[word] = 0, {}
        for step in steps.split(","):
            gap, weight = divmod(int(step, 36), WEIGHTS)
            number += gap
            assert number not in found[word]
            found[word][number] = weight
    return found


@given(st.lists(RECORD, max_size=60))
def test_every_word_leads_to_all_its_records_at_their_least_weight(
    records: list[tuple[str, str, str, str]],
) -> None:
    naive: dict[str, dict[int, int]] = {}
    for number, (title, kind, path, extra) in enumerate(records):
        of_folder = FOLDERS.get(path.split("/")[0], "")
        for weight, text in ((2, of_folder), (2, kind), (1, extra), (0, title)):
            for word in words_in(text):
                naive.setdefault(word, {})[number] = weight
    assert read_off(*word_list(records, FOLDERS)) == naive


def test_words_have_no_accents_capitals_and_ligatures() -> None:
    assert words_in("Bœuf à la crème, 12 % (L'Été)_2") == [
        "boeuf", "a", "la", "creme", "12", "l", "ete", "2",
    ]  # fmt: skip
    assert words_in("Straße Žďár 牛肉 x²") == ["strasse", "zdar", "牛肉", "x²"]
