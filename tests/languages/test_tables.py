"""Tables to download: ids, kinds and units are the same in every language, sentences are not."""

from __future__ import annotations

import shutil
from pathlib import Path

import pandas as pd
import pytest

from builder.build import compute_content
from builder.language import written_in
from builder.pages.data import RESOURCES, frame_of
from builder.pages.resource import doubt_field
from builder.pages.view import View
from tests.golden import HERE, NO_DAY

Tables = dict[str, pd.DataFrame]
# A menu that all guests take one plate of.
MORE = {
    "menus/combo.yaml": "name: Combo\nprice: 31.00\nplates: [clod-sandwich]\nguests: 25\n",
}


def tables(root: Path, language: str) -> Tables:
    kitchen = root / "kitchen.yaml"
    kitchen.write_text(kitchen.read_text("utf-8") + f"language: {language}\n")
    costed, problems = compute_content(root, None, NO_DAY)
    assert costed is not None, problems
    with written_in(language):
        view = View.of(costed, problems)
        return {each.name: frame_of(view, each) for each in RESOURCES}


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Tables, Tables]:
    found = []
    for language in ("en", "fr"):
        root = tmp_path_factory.mktemp(language) / "k"
        shutil.copytree(HERE / "customary" / "content", root)
        for name, text in MORE.items():
            (root / name).parent.mkdir(exist_ok=True)
            (root / name).write_text(text)
        found.append(tables(root, language))
    return found[0], found[1]


def test_what_programs_read_is_the_same_in_every_language(both: tuple[Tables, Tables]) -> None:
    english, french = both
    differ = {}
    for resource in RESOURCES:
        one, other = english[resource.name], french[resource.name]
        assert list(one.columns) == list(other.columns)
        doubt = doubt_field(resource)
        said = {each.name for each in resource.fields if each.said} | {doubt.name if doubt else ""}
        for column in (name for name in one.columns if name not in said):
            if not one[column].equals(other[column]):
                differ[f"{resource.name}.{column}"] = (one[column].iloc[0], other[column].iloc[0])
    assert differ == {}


def test_sentences_and_labels_follow_the_language(both: tuple[Tables, Tables]) -> None:
    english, french = both
    assert not english["scaled"]["what"].equals(french["scaled"]["what"])
    assert "every guest" in set(english["set_menu_courses"]["course"])
