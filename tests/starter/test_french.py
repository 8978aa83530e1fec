"""A first kitchen in French: its remarks and names, with the keys that every kitchen has."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from builder.build import compute_content
from builder.cli import DONE, USAGE, main
from builder.language import written_in
from builder.pages.worked import LINKS, example, worked
from builder.starter import Choices, start
from builder.starter.records import KINDS, new_record
from builder.starter.schemas import schemas
from tests.kitchens import TODAY

CHOICES = [
    Choices(language="fr"),
    Choices(language="fr", currency="EUR"),
    Choices(language="fr", currency="CHF", units="us customary"),
    Choices(language="fr", currency="JPY"),
    Choices(language="fr", locale="en_CA"),
    Choices(locale="fr_BE", currency="EUR"),
]
# The keys of mappings, and words that keys take, are the same in every language.
WORDS = {"description", "examples"}
ENGLISH = re.compile(r"\b(?:the|is|what|with|weighed|loss|until|steak, bone)\b")


@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_it_is_clean_and_its_pages_are_french(tmp_path: Path, choices: Choices) -> None:
    start(tmp_path / "k", choices)
    costed, problems = compute_content(tmp_path / "k", None, TODAY)
    assert [f"{p.place}: {p.message}" for p in problems if p.is_error] == []
    assert costed is not None
    kitchen = costed.content.kitchen
    assert (kitchen.language, kitchen.locale) == ("fr", choices.numbers)
    assert kitchen.name == "Notre cuisine"


def test_it_gives_the_warnings_of_the_english_one(tmp_path: Path) -> None:
    found = []
    for language in ("en", "fr"):
        start(tmp_path / language, Choices(language=language))
        _, problems = compute_content(tmp_path / language, None, TODAY)
        found.append([problem.place for problem in problems])
    assert found[0] == found[1]


def shape(value: object) -> object:
    """Keys and kinds of what a file holds, without its words; a course is named by the kitchen."""
    if isinstance(value, dict):
        named = {"plat": "main", **{key: key for key in value if key != "plat"}}
        return {named[key]: shape(item) for key, item in value.items() if key != "language"}
    return [shape(item) for item in value] if isinstance(value, list) else type(value)


@pytest.mark.parametrize("units", ["metric", "us customary"])
def test_keys_and_files_stay_and_every_remark_is_french(tmp_path: Path, units: str) -> None:
    for language in ("en", "fr"):
        start(tmp_path / language, Choices(language=language, units=units))
        for kind in KINDS:
            with written_in(language):
                new_record(tmp_path / language, kind, f"Beef cheek {kind}")
    english = {p.relative_to(tmp_path / "en"): p for p in (tmp_path / "en").rglob("*.yaml")}
    french = {p.relative_to(tmp_path / "fr"): p for p in (tmp_path / "fr").rglob("*.yaml")}
    assert english.keys() == french.keys()
    for name, path in french.items():
        texts = [each.read_text("utf-8") for each in (english[name], path)]
        assert not set("‹›«»") & set(texts[1].replace("« ", "")), name
        first, second = (shape(yaml.load(text, yaml.BaseLoader)) for text in texts)
        assert first == second, name
        remarks = re.findall("# (.*)", texts[1].partition("\n")[2])
        words = [re.sub(r"\w[\w ]*: \S+", "", each.split("# ")[-1]) for each in remarks]
        assert [each for each in words if ENGLISH.search(each)] == []


def test_every_kind_of_record_is_clean_in_french(tmp_path: Path) -> None:
    root = tmp_path / "k"
    start(root, Choices(language="fr"))
    for kind in KINDS:
        with written_in("fr"):
            path = new_record(root, kind, f"Joue de bœuf {kind}")
        _, problems = compute_content(root, None, TODAY)
        assert [f"{p.place}: {p.message}" for p in problems if p.is_error] == [], path


def test_worked_examples_of_pages_are_french() -> None:
    with written_in("fr"):
        text = worked("kitchen", customary=False)[0]
        plate = worked("plates", customary=False)[0]
    assert "façon dont les pages écrivent les nombres" in text
    assert "menu: plats" in plate
    assert "sections: [entrées, plats]" in text


def test_the_environments_language_is_taken_where_none_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LC_ALL", "fr_FR.UTF-8")
    for name, options in (("a", []), ("b", ["--language", "en"]), ("c", ["--locale", "en_GB"])):
        assert main(["new", str(tmp_path / name), *options]) == DONE
    first = {name: (tmp_path / name / "kitchen.yaml").read_text() for name in "abc"}
    assert "language: fr" in first["a"]
    assert "language:" not in first["b"]
    assert "language:" not in first["c"]


def test_a_language_without_pages_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", str(tmp_path / "k"), "--language", "xx"]) == USAGE
    assert "known: en, fr" in capsys.readouterr().err
    assert not (tmp_path / "k").exists()


def test_schemas_mark_the_same_in_every_language() -> None:
    def without_words(value: object) -> object:
        if isinstance(value, dict):
            return {k: without_words(v) for k, v in value.items() if k not in WORDS}
        return [*map(without_words, value)] if isinstance(value, list) else value

    english = schemas()
    with written_in("fr"):
        french = schemas()
    assert without_words(french) == without_words(english)
    assert french != english


@pytest.mark.parametrize("language", ["en", "fr"])
@pytest.mark.parametrize("customary", [False, True])
@pytest.mark.parametrize("kind", KINDS)
def test_remarks_behind_values_stand_in_one_column(
    kind: str, customary: bool, language: str
) -> None:
    with written_in(language):
        text = example(kind, "T", LINKS, customary=customary)
    behind = re.findall(r"(?m)^((?:# )?[^#\n]*[^#\s])( +)# ", text)
    assert [value for value, blanks in behind if len(value + blanks) < 28] == []
    long = [blanks for value, blanks in behind if len(value) > 25]
    assert set(long) <= {"  "}
