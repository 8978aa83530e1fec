"""French signs and whole sentences: nothing is joined in the code, no line ends before a sign."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from markupsafe import Markup

import builder
from builder.costing.costed import _over_booked
from builder.language import catalogue, labelled, tr, written_in
from builder.pages.in_clauses import in_clauses
from builder.pages.spacing import spaced

ROOMS = ("pages", "costing", "tasting", "cooking", "money", "display")
# What is written for files or for whoever looks after the builder: no reader sees it as prose; and
# names of figures, each of which is a text of the catalogue as a whole.
OF_FILES = {
    "pages/reference.py", "pages/shapes.py", "costing/trial_files.py", "costing/staffing.py",
    "pages/view.py", "cooking/rule_fields.py", "money/intervals.py", "pages/kitchen_data.py",
}  # fmt: skip
NBSP, NARROW = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"


def glued(tree: ast.AST) -> list[int]:
    """Lines where two values are joined by a colon or a semicolon outside a template."""
    raised = {id(each) for node in ast.walk(tree) if isinstance(node, ast.Raise)
              for each in ast.walk(node)}  # fmt: skip
    found = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.JoinedStr) or id(node) in raised:
            continue
        for before, colon, after in zip(
            node.values, node.values[1:], node.values[2:], strict=False
        ):
            if (
                isinstance(before, ast.FormattedValue)
                and isinstance(colon, ast.Constant)
                and re.fullmatch(r"[):]*[:;] ", str(colon.value))
                and isinstance(after, ast.FormattedValue)
            ):
                found.append(node.lineno)
    return found


def test_a_label_and_its_value_are_joined_by_a_template() -> None:
    assert glued(ast.parse('f"{name}: {value}"')) == [1]
    assert glued(ast.parse('f"{one}; {two}"')) == [1]
    assert glued(ast.parse('raise ValueError(f"{name}: {value}")')) == []
    root = Path(builder.__file__).parent
    found = {
        f"{path.relative_to(root)}:{line}"
        for room in ROOMS
        for path in sorted((root / room).rglob("*.py"))
        if str(path.relative_to(root)) not in OF_FILES
        for line in glued(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert found == set()


@pytest.mark.parametrize("name", ["Entrecôte du menu", "Le rôti, day", "Côte, bone in"])
def test_a_name_that_ends_in_a_key_has_its_space_before_the_colon(name: str) -> None:
    with written_in("fr"):
        said = labelled(name, "prix carte")
    assert said == f"{name}{NBSP}: prix carte"
    assert spaced(f"<p>{said}</p>", "fr") == f"<p>{said}</p>"


def test_no_line_of_the_catalogue_ends_before_a_sign() -> None:
    """Within code, and in files that a kitchen copies, a space is a space."""
    said = {
        text
        for forms in catalogue("fr").texts.values()
        for text in forms
        if re.search(r"(?<=\S) [:;?!%»](?=[\s.,)]|$)", re.sub(r"`[^`]*`", "", text))
    }
    files = {
        text for text in said if re.search(r"\b(?:yield|shankbook new|codes de sortie)\b|#", text)
    }
    assert {text for text in said - files if "« " not in text} == set()


def test_what_a_kitchen_typed_has_the_space_that_no_line_ends_at() -> None:
    assert spaced("<p>12 % ? « oui » !</p>", "fr") == (
        f"<p>12{NBSP}%{NARROW}? «{NBSP}oui{NBSP}»{NARROW}!</p>"
    )
    assert spaced("<p>12 % ?</p>", "en") == "<p>12 % ?</p>"


@pytest.mark.parametrize("shown", ["{mon-fri: 07:00, sat: 10:00}", "| --- | ---: |"])
def test_what_is_copied_into_a_file_stays(shown: str) -> None:
    assert spaced(f"<p>comme {shown} ici</p>", "fr") == f"<p>comme {shown} ici</p>"


OVER = "Bain : 178 h 30 réservées sur 168 h pour une semaine"
NEVER = float("inf")


@pytest.mark.parametrize(
    ("needed", "booked", "there", "said"),
    [
        (2.0, 178.5, 1.0, f"{OVER} ; il en faut donc 2"),
        (4.0, 620.0, 2.0, f"{OVER} ; il en faut donc 2, il y en a 1"),
        (NEVER, 178.5, 1.0, f"{OVER}, et une charge dure plus longtemps"),
        (
            NEVER,
            NEVER,
            1.0,
            "Bain : plus de 168 h réservées pour une semaine, et une charge dure plus longtemps",
        ),
    ],
)
def test_equipment_that_is_over_booked_is_told_in_one_sentence(
    needed: float, booked: float, there: float, said: str
) -> None:
    with written_in("fr"):
        found = tr(
            _over_booked(needed, booked, there),
            gear="Bain", week="une semaine", booked="178 h 30", whole="168 h", needed="2",
            there="1",
        )  # fmt: skip
    assert found.replace(NBSP, " ").replace(NARROW, " ") == said


def markup_joins(tree: ast.AST) -> list[int]:
    """Lines where markup is joined by a semicolon or a colon of no template.

    Signs are set apart within a text, not where it ends at a tag.
    """
    return [
        node.lineno
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and getattr(node.func, "id", "") == "Markup"
        and node.args
        and isinstance(node.args[0], ast.Constant)
        and re.fullmatch(r"(?:\{\})?[;:] (?:\{\})?", str(node.args[0].value))
    ]


def test_clauses_with_ways_in_them_are_joined_by_the_language() -> None:
    root = Path(builder.__file__).parent
    found = {
        f"{path.relative_to(root)}:{line}"
        for path in root.rglob("*.py")
        for line in markup_joins(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert found == set()
    assert markup_joins(ast.parse('Markup("; ").join(parts)')) == [1]
    with written_in("fr"):
        said = in_clauses((Markup("<span>+3 %</span>"), Markup("<a>9 $</a>")))
    assert said == f"<span>+3 %</span>{NARROW}; <a>9 $</a>"
