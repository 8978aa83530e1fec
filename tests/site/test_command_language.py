"""The command speaks the kitchen's language; before there is one, that of whoever runs it."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import contextmanager
from pathlib import Path

import pytest

from builder.language import language_of_environment
from builder.preview.pages import language_of_site, missing_page, reload_script
from builder.progress import Advance, Quiet
from tests.site.command import Command, in_process
from tests.site.test_command import HEAVY, imported_by

FRENCH = {"LC_ALL": "fr_CA.UTF-8"}


@pytest.mark.parametrize(
    ("environment", "language"),
    [
        ({}, "en"),
        ({"LANG": "fr_FR.UTF-8"}, "fr"),
        ({"LANG": "fr"}, "fr"),
        ({"LANG": "fr_FR", "LC_MESSAGES": "en_US"}, "en"),
        ({"LANG": "en_US", "LC_MESSAGES": "fr_FR@euro"}, "fr"),
        ({"LANG": "fr_FR", "LC_MESSAGES": "fr_FR", "LC_ALL": "de_DE"}, "en"),
        ({"LANG": "fr_FR", "LC_ALL": ""}, "fr"),
        ({"LANG": "en_US", "LANGUAGE": "xx:fr:en"}, "fr"),
        ({"LANG": "C", "LANGUAGE": "fr"}, "en"),
        ({"LANG": "fr_FR", "LC_ALL": "C.UTF-8"}, "en"),
        ({"LC_ALL": "POSIX", "LANGUAGE": "fr"}, "en"),
    ],
)
def test_which_language_an_environment_asks_for(
    environment: Mapping[str, str], language: str
) -> None:
    assert language_of_environment(environment) == language


@pytest.fixture
def french(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", FRENCH["LC_ALL"])


@pytest.fixture
def cuisine(kitchen: Path) -> Path:
    """The same kitchen, in French."""
    file = kitchen / "kitchen.yaml"
    file.write_text(file.read_text() + "language: fr\n")
    return kitchen


@pytest.mark.usefixtures("french")
@pytest.mark.parametrize("of", ["", "build", "check", "preview", "new", "schemas"])
def test_help_is_all_french(command: Command, of: str) -> None:
    ran = command(*filter(None, (of, "--help")))
    assert ran.code == 0
    assert "usage : shankbook" in ran.out.replace("\u00a0", " ")
    assert "afficher cette aide" in ran.out
    english = (" the ", "show", "folder ", "arguments:", "options:", "exit ")
    assert [words for words in english if words in ran.out] == []


@pytest.mark.usefixtures("french")
@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("bild",), "choix inconnu"),
        ((), "il manque"),
        (("check", "a", "b"), "arguments inconnus : b"),
        (("preview", "--port"), "une valeur est attendue"),
        (("preview", "--port", "many"), "nombre entier"),
        (("build", "--as-of", "hier"), "n'est pas une date"),
        (("build", "--as-of", "3026-01-01"), "années de 1900 à 2199"),
        (("new", "cut"), "il manque un nom"),
    ],
)
def test_what_is_not_understood_is_said_in_french(
    command: Command, arguments: tuple[str, ...], said: str
) -> None:
    ran = command(*arguments)
    assert ran.code == 2
    assert said in ran.reported.replace("\u00a0", " ")
    english = ("argument is", "required", "invalid", "expected", "error:", "unrecognized")
    assert [words for words in english if words in ran.reported] == []


def test_french_help_reads_its_catalogue_and_nothing_else_heavy() -> None:
    """English help imports no library: `test_help_waits_for_no_library`."""
    ran = in_process("-m", "builder", "--help", changes=FRENCH)
    assert ran.out.startswith("usage\u00a0: shankbook")
    assert not imported_by("--help") & HEAVY


def test_check_speaks_the_kitchens_language(command: Command, cuisine: Path) -> None:
    assert command("check", cuisine).reported == "le contenu peut être publié\n"
    (cuisine / "cuts" / "zz.yaml").write_text("species: beef\nprice: thirteen\n")
    ran = command("check", cuisine)
    assert "cuts/zz.yaml:2:8: erreur: " in ran.reported
    assert ran.reported.endswith("1 erreur, 0 avertissement\n")


@pytest.mark.usefixtures("french")
def test_a_kitchens_language_goes_before_the_environments(command: Command, kitchen: Path) -> None:
    assert command("check", kitchen).reported == "the content can be published\n"


def test_many_problems_are_counted_as_the_language_writes_numbers(
    command: Command, cuisine: Path
) -> None:
    (cuisine / "prices").mkdir(exist_ok=True)
    rows = "".join(f"2026-09-01,rien-{row},1.00/kg\n" for row in range(2_000))
    (cuisine / "prices" / "long.csv").write_text(f"date,item,price\n{rows}")
    said = command("check", cuisine).reported
    # Unicode CLDR: a narrow no-break space parts the thousands of French numbers.
    assert "1\u202f950 de plus" in said
    assert "2\u202f000 erreurs" in said


class _Noted(Quiet):
    def __init__(self) -> None:
        self.names: list[str] = []

    @contextmanager
    def stage(self, name: str, total: int | None = None):  # type: ignore[no-untyped-def]
        self.names.append(name)
        with super().stage(name, total) as step:
            advance: Advance = step
            yield advance


def test_a_build_says_its_stages_and_its_end_in_french(
    command: Command, cuisine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    noted = _Noted()
    monkeypatch.setattr("builder.progress.progress_on", lambda _stream: noted)
    ran = command("build", cuisine, tmp_path / "site")
    assert noted.names == [
        "lecture et calcul", "méthodes, économat, pièces", "cuissons", "plats", "fiches",
        "listes, substitutions, dégustations",
    ]  # fmt: skip
    first, second = ran.reported.splitlines()[-2:]
    assert first.endswith(" fichiers écrits, 0 inchangé, 0 supprimé")
    assert second.startswith("ouvrir /")


def test_what_is_in_the_way_is_said_in_french(command: Command, cuisine: Path) -> None:
    (cuisine.parent / "file").write_text("x")
    ran = command("build", cuisine, cuisine.parent / "file")
    assert ran.code == 3
    assert ran.reported.endswith("file n'est pas un dossier\n")


def test_a_preview_speaks_the_kitchens_language_as_it_changes(
    command: Command, cuisine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It builds in a thread of its own, which has no language of its own."""
    from threading import Thread

    def serve(_output: Path, rebuild, *_: object, **__: object) -> None:  # type: ignore[no-untyped-def]
        def twice() -> None:
            assert rebuild()
            file = cuisine / "kitchen.yaml"
            file.write_text(file.read_text().replace("language: fr\n", ""))
            assert rebuild()

        thread = Thread(target=twice)
        thread.start()
        thread.join()

    monkeypatch.setattr("builder.preview.serve", serve)
    said = command("preview", cuisine, cuisine.parent / "site").reported
    assert said.index("fichiers écrits") < said.index("files written")
    assert said.endswith("aperçu terminé ; le site reste\n".replace(" ;", "\u202f;"))


def test_the_previews_own_page_and_note_are_in_the_sites_language(tmp_path: Path) -> None:
    assert language_of_site(tmp_path) == "en"
    (tmp_path / "index.html").write_text('<!doctype html><html class="a" lang="fr"><body></body>')
    assert language_of_site(tmp_path) == "fr"
    assert '<html lang="fr">' in missing_page("fr").decode()
    assert "introuvable" in missing_page("fr").decode()
    assert b"%FAILED%" not in reload_script("en")
    assert b"La derni\\u00e8re construction a \\u00e9chou\\u00e9" in reload_script("fr")
