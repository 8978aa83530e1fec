"""Common words for a key lead to the key of their record, not to one that is spelled alike."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cooks.kitchens import FILES, problems

PLATE, CUT, COOK = "plates/chuck-plate.yaml", "cuts/chuck.yaml", "cooks/chuck-30h.yaml"
KITCHEN, PANTRY, SERVICE = "kitchen.yaml", "pantry/jus.yaml", "services/friday.yaml"
MORE = {
    PANTRY: "name: Jus\nprice: 4.00/L\n",
    SERVICE: "day: Friday\nat: 18:00\nplates: {chuck-plate: 20}\n",
    "plates/ribeye.yaml": "menu: mains\ncook: chuck-30h\nportion: 220 g\nprice: 31.00\n",
    "swaps/swap.yaml": "benchmark: ribeye\nchallengers: [chuck-plate]\n",
    "menus/feast.yaml": "price: 60.00\ncourses: {main: [chuck-plate]}\n",
}
WORDS = {
    PLATE: {
        "with": "items ingredients components sides garnishes accompaniments extras sauce recipe",
        "portion": "weight size serves quantity",
        "menu": "section category",
        "steps": "method",
    },
    CUT: {"each": "weight", "price": "cost", "trim": "waste", "species": "type animal"},
    COOK: {
        "at": "temp temperature",
        "for": "time hours minutes duration",
        "load": "quantity qty batch",
        "equipment": "bath machine oven",
        "cool": "chill chilled",
        "loss": "shrinkage",
        "consumables": "bags",
    },
    PANTRY: {"of": "items ingredients", "makes": "qty quantity", "litre": "density"},
    KITCHEN: {"tax": "vat", "energy": "electricity", "staffed": "hours", "equipment": "gear"},
    SERVICE: {"plates": "items dishes", "menus": "guests", "at": "time", "steps": "tasks"},
    "swaps/swap.yaml": {"challengers": "candidates cheap plates", "benchmark": "reference"},
    "menus/feast.yaml": {"plates": "dishes items", "guests": "forecast"},
}


@pytest.mark.parametrize(
    ("file", "word", "key"),
    [
        (file, word, key)
        for file, keys in WORDS.items()
        for key, words in keys.items()
        for word in words.split()
    ],
)
def test_a_common_word_leads_to_its_key(file: str, word: str, key: str, tmp_path: Path) -> None:
    files = {**FILES, **MORE}
    files[file] += f"{word}: 1\n"
    (found,) = [p for p in problems(tmp_path, files) if p.message == f'unknown key "{word}"']
    assert found.hint == f'did you mean "{key}"?'
