"""What the operating system refuses is said in the language of the command."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from builder.cli import main
from builder.language import clauses, written_in
from builder.publish.history import read_history
from builder.publish.paths import HISTORY
from builder.refusals import _REASONS, refusal
from tests.kitchens import PUBLISHED, costed_from

BUILDER = Path(__file__).parents[2] / "builder"


@pytest.mark.parametrize("code", sorted(_REASONS))
def test_every_reason_has_its_french(code: int) -> None:
    english = refusal(OSError(code, os.strerror(code)))
    assert english == os.strerror(code)
    with written_in("fr"):
        assert refusal(OSError(code, os.strerror(code))) != english


def test_a_reason_that_is_not_known_stays_as_it_comes() -> None:
    with written_in("fr"):
        assert refusal(OSError(errno.ECHILD, "No child processes")) == "No child processes"


def test_the_command_says_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LC_ALL", "fr_CA.UTF-8")
    (tmp_path / "file").write_text("", encoding="utf-8")
    main(["new", str(tmp_path / "file" / "kitchen")])
    said = capsys.readouterr().err
    assert "Ce n'est pas un dossier" in said
    assert "directory" not in said


def test_a_damaged_record_of_the_build_before_is_said_in_french(tmp_path: Path) -> None:
    (tmp_path / HISTORY).write_text("damaged", encoding="utf-8")
    with written_in("fr"):
        _, [problem] = read_history(tmp_path, costed_from(PUBLISHED).content)
    assert "endommagé" in problem.message
    assert "recommence" in problem.hint


def test_clauses_are_joined_as_the_language_does() -> None:
    with written_in("fr"):
        assert clauses(["un", "", "deux"]) == "un\N{NARROW NO-BREAK SPACE}; deux"


def test_no_sentence_is_joined_by_an_english_semicolon() -> None:
    """A server's header has its own."""
    texts = {
        path.name: path.read_text("utf-8").replace('Markup("; ")', "")
        for path in BUILDER.rglob("*.py")
        if path.parent.name != "preview"
    }
    assert [name for name, text in texts.items() if '"; ".join' in text] == []
