"""A hint is made from what was written, or says that it is an example; taken up, it mends."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.problems import Problem
from tests.kitchens import TODAY, write
from tests.kitchens.small import SMALL
from tests.records.mistakes import EXTRA, KITCHEN, MARK, MISTAKES, SERVICE, STEAK, Mistake
from tests.test_house import BUILDER, ROOT

FILES = {**SMALL, **EXTRA}
COOK = "cooks/chuck-30h.yaml"
CUT = "cuts/chuck.yaml"

# Where a value goes in, what is written, and all that the hint says.
WAYS = [
    *((SERVICE, "at: 18:00", "at: {}", text, hint) for text, hint in (
        ("5:00 pm", "write 17:00"), ("5 PM", "write 17:00"), ("12.30", "write 12:30"),
        ("12:00 am", "write 0:00"), ("12 p.m.", "write 12:00"), ("1830", "write 18:30"),
        ("18h30", "write 18:30"), ("18 h", "write 18:00"), ("noon", "write 12:00"),
        ("24:00", "write 0:00"), ("18.30 Uhr", "write 18:30"), ("18", "write 18:00"),
        ("25:00", "from 0:00 to 23:59, for example 18:00"),
        ("13:00 pm", "from 0:00 to 23:59, for example 18:00"),
        ("in the evening", "from 0:00 to 23:59, for example 18:00"),
    )),
    *((KITCHEN, "service life: 6000", "service life: {}", text, hint) for text, hint in (
        ("20000 h", "write 20000 alone"), ("20'000", "write 20000"),
        ("20.000", "write 20 or 20000"),
        ("6000.0", "write 6000"), ("6.500", "write 6500"), ("Sixty-five", "write 65"),
         ("6000.5", "write 6000 or 6001"), ("6e3", "write 6000"),
        ("06000", "write 6000"), ("-5", "whole numbers here are 0 or more"),
        ("many", "a whole number, for example 14000"), ("12345678901", "at most 999999999"),
    )),
    *((CUT, "2026-09-03", "{}", text, hint) for text, hint in (
        ("3 Sept 2026", "write it as 2026-09-03"), ("20260903", "write it as 2026-09-03"),
        ("30.9.2026", "write it as 2026-09-30"), ("3.9.26", "a date, for example 2026-09-03"),
        ("3/9/2026", "write it as 2026-09-03 or 2026-03-09"),
        ("yesterday", "a date, for example 2026-09-03"),
    )),
    *((STEAK, "2026-08: 412", "{}: 412", text, hint) for text, hint in (
        ("8/2026", "write it as 2026-08"), ("2026-8", "write it as 2026-08"),
        ("Aug 2026", "write it as 2026-08"), ("August", "a month, for example 2026-08"),
    )),
    *((CUT, "in: 8.42 kg", "in: {}", text, hint) for text, hint in (
        ("8.4e0 kg", "write 8.4 kg"), ("8-9 kg", "write one number, 8 kg or 9 kg"),
        ("8-1/2 kg", "write 8 1/2 kg"), ("17/2 kg", "write 8 1/2 kg for a fraction or "
         "case of 17 x 2 kg for packs"), ("08.42 kg", "write 8.42 kg"),
        ("8.420,5 kg", "write 8420.5 kg"),
    )),
    *((KITCHEN, "currency: CAD", "currency: {}", text, hint) for text, hint in (
        ("cad", "write CAD"), ("£", "write GBP"), ("euro", "write EUR"),
        ("money", "an ISO 4217 code, such as CAD or EUR"),
    )),
    *((COOK, "for: 30 h", "for: {}", text, hint) for text, hint in (
        ("20000 h", "up to 7 d, 168 h"), ("200 h", "up to 7 d, 168 h"),
        ("12:30", "write a duration as 12 h 30 min"),
        ("30,5 h", "write 30.5 h"),
    )),
    *((COOK, "piece: {weight", "piece: {{shape factor: {}, weight", text, hint)
      for text, hint in (("1/2", "write 0.5"), ("0.5 mm", "a number from 0 to 2, for example 0.5"),
                         ("50 %", "write 0.5"),
                         ("3", "0 is a slab, 2 a sphere"))),
    *((STEAK, "price: 27.00", "price: {}", text, hint) for text, hint in (
        ("abc", "an amount, for example 14.80"), ("2700c", "write 27"), ("2S.00", "write 25.00"),
        ("=1+1", "write 2"), ("=2*13.5", "write 27"), ("27+3", "write 30"), ("=27", "write 27"),
        ("1.038,00", "write 1038.00"), ("027.00", "write 27.00"),
        ("14 %", "an amount, for example 14.80"),
        ("27 kg", "an amount, for example 14.80"),
        ("=SUM(A1:A3)", "write its result"), ("=27+3+1", "write its result"),
    )),
    *((KITCHEN, "loaded wage: 24.50/h", "loaded wage: {}", text, hint) for text, hint in (
        ("24.50 an hour", "write 24.50/hour"), ("2450 cents/h", "write 24.5/h"),
        ("24,50/h", "write 24.50/h"), ("1.200,50/h", "write 1200.50/h"),
        ("1,250.00/h", "write 1250.00/h"), ("024.50/h", "write 24.50/h"),
        ("1 250.50/h", "write 1250.50/h"), ("49/2,0 h", "write 49/2.0 h"),
        ("24.-/h", "write 24/h"), ("1,200/h", "write 1200/h for thousands or "
         "1.200/h for decimals"), ("28p/h", "write 0.28/h"),
    )),
    # An example is one of the key: what a plate's weeks sell, what a panel holds.
    (STEAK, "2026-08: 412", "2026-08: {}", "many", "a whole number, for example 380"),
    (STEAK, "price: 27.00", "price: 27.00\nforecast: {}", "many", "a whole number, for example 60"),
    (STEAK, "price: 27.00", "price: 27.00\nforecast: {}", "sixty", "write 60"),
    (KITCHEN, "covers: [40, 120]", "covers: [{}]", "many", "a whole number, for example 40"),
    (KITCHEN, "margin: 14.00", "margin: {}", "14 %", "an amount, for example 16.00"),
    (SERVICE, "plates: {chuck-steak: 40", "plates: {{chuck-steak: {}", "lots",
     "a whole number, for example 40"),
    ("tastings/t.yaml", "tasters: 2", "tasters: 2\nmost samples: {}", "lots",
     "a whole number, for example 4"),
    ("tastings/t.yaml", "tasters: 2", "tasters: 2\nserve at: {}", "late",
     "from 0:00 to 23:59, for example 15:00"),
    ("tastings/t.yaml", "tasters: 2", "tasters: 2\nmargin: {}", "14 points",
     "write % for points of 100"),
    ("tastings/t.yaml", "0-5", "{}", "5-0", "write 0-5"),
    *((SERVICE, "at: 18:00", "at: 18:00\non hand: {{chuck: {}}}", text, hint)
      for text, hint in (
        ("1 tails", "of pieces write 1 each; units that fit: kg, g, lb, oz, L, mL, fl oz, cup, "
         "pt, qt, gal, each, dozen, case of 12"),
        ("1 killos", 'did you mean "kilos"? units that fit: kg, g, lb, oz, L, mL, fl oz, cup, '
         "pt, qt, gal, each, dozen, case of 12"),
    )),
    (COOK, "piece: {weight", "load: {}\npiece: {{weight", "40 wings", "write 40 pieces, or call "
     "a piece so, as name under piece; units that fit: kg, g, lb, oz"),
    (KITCHEN, "units: metric", "units: metric\nauthority: {}", "none",
     "leave authority out, and no rule set is applied"),
    (SERVICE, "at: 18:00", "at: 18:00\nmenus: {{sunday: {}}}", "-2",
     "whole numbers here are 0 or more"),
    (KITCHEN, "fuel: gas", "fuel: {}", "natural gas", 'did you mean "gas"?'),
    (CUT, "species: beef", "species: {}", "chicken", 'did you mean "poultry"?'),
    (CUT, "species: beef", "species: {}", "Duck", 'did you mean "poultry"?'),
    (COOK, "for: 30 h", "for: 30 h\nat: {}", "135 °C", "did you mean 135 °F?"),
    (COOK, "for: 30 h", "for: 30 h\ncool: {{to: {}, within: 6 h}}", "41 °C",
     "did you mean 41 °F?"),
    (COOK, "for: 30 h", "for: 30 h\nstore: {{at: {}, for: 5 d}}", "30 °C",
     "did you mean 3 °C or 30 °F?"),
    (COOK, "for: 30 h", "for: 30 h\ncool: {{to: {}, within: 6 h}}", "40 °C",
     "did you mean 4 °C or 40 °F?"),
    (COOK, "for: 30 h", "for: 30 h\ncool: {{to: 4 °C, within: 6 h}}\n"
     "reheat: {{at: 60 °C, for: 1 h, in: {}}}", "combi oven",
     "write steam oven if it steams; reheating in dry heat is not computed, so say it in a note"),
    (KITCHEN, "units: metric", "units: {}", "us", 'did you mean "us customary"?'),
    ("prices/list.csv", "date,item,price", "date,item,{}", "cost",
     'did you mean "price"? allowed: '
     'candidate, date, deposit, item, minimum, muscle, note, price, sold as, supplier'),
    *((COOK, "piece: {weight", "form: {}\npiece: {{weight", text, hint) for text, hint in (
        ("pumped", 'did you mean "injected"?'),
        ("brined", "write injected if a needle or a vacuum brought it in, intact if the piece "
         "only lay in it"),
    )),
    *((SERVICE, "at: 18:00", "at: 18:00\n{}: 3", key, f'did you mean "{meant}"?')
      for key, meant in (("date", "day"), ("weekday", "day"), ("title", "name"))),
    *((COOK, "piece: {weight", "{}: 3\npiece: {{weight", key, f'did you mean "{meant}"?')
      for key, meant in (("temperature", "at"), ("duration", "for"), ("method", "how"))),
    *(("prices/list.csv", "date,item,price", "date,item,price,{}", name,
       f'did you mean "{meant}"? allowed: '
     'candidate, date, deposit, item, minimum, muscle, note, price, sold as, supplier')
      for name, meant in (("vendor", "supplier"), ("suplier", "supplier"), ("comment", "note"))),
]  # fmt: skip
TASTING = "test: scores\nsamples: {a: chuck-30h}\ntasters: 2\nattributes: {flavour: 0-5}\n"


def reported(root: Path, file: str, text: str) -> list[Problem]:
    files = {**FILES, "tastings/t.yaml": TASTING, file: text}
    _, problems = compute_content(write(root, files), None, TODAY)
    return [problem for problem in problems if problem.is_error]


def alternatives(hint: str) -> list[str]:
    """What a hint says to write instead, each way; none where it says no value."""
    found = re.fullmatch(r"write (?:it as |a duration as |one number, )?(.*[0-9A-Z].*)", hint)
    if (
        found is None
        or re.search(EXAMPLE, hint)
        or "[" in hint
        or ":," in hint
        or "points of" in hint
    ):
        return []
    return [re.sub(r" (?:for|alone).*", "", each) for each in found[1].split(" or ")]


@pytest.mark.parametrize(("file", "old", "new", "text", "hint"), WAYS, ids=lambda text: text[:24])
def test_a_hint_is_made_from_what_was_written(
    tmp_path: Path, file: str, old: str, new: str, text: str, hint: str
) -> None:
    """And whatever it says to write is then read, where that is a whole value."""
    before = {**FILES, "tastings/t.yaml": TASTING}[file]
    assert before.count(old) == 1
    [error] = reported(tmp_path, file, before.replace(old, new.format(text)))
    assert error.hint == hint
    unit = text.rpartition(" ")[2] if text.endswith("kg") else ""
    for value in alternatives(hint):
        mended = f"{value} {unit}" if unit and not value.endswith(unit) else value
        left = reported(tmp_path, file, before.replace(old, new.format(mended)))
        # Another value may still not suit the rest of the file, but it is read.
        assert [e for e in left if e.place == error.place and mended in e.message] == []


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        (
            KITCHEN,
            "margin: 14.00",
            "margin: 14 %",
            '"14 %" is a share; this asks for an amount of money',
        ),
        (KITCHEN, "food cost: 30 %", "food cost: 8.00", '"8.00" has no unit'),
        (
            KITCHEN,
            "food cost: 30 %",
            "food cost: 2 kg",
            '"2 kg" is a weight; this asks for a share',
        ),
        (
            KITCHEN,
            "24.50/h",
            "24.50/kg",
            '"24.50/kg" is a price by weight; this asks for a price by time',
        ),
        (
            KITCHEN,
            "energy: 0.14/kWh",
            "energy: 0.14/3 kg",
            '"0.14/3 kg" is a price by weight; this asks for a price for energy',
        ),
        (STEAK, "price: 27.00", "price: 2 h", '"2 h" is a time; this asks for an amount of money'),
        (
            STEAK,
            "portion: 180 g",
            "portion: 3 h",
            '"3 h" is a time; this asks for a weight or a number of pieces',
        ),
        (COOK, "for: 30 h", "for: 30 kWh", '"30 kWh" is an amount of energy; this asks for a time'),
        (
            COOK,
            "for: 30 h",
            "for: 30 h\nat: 6 cm",
            '"6 cm" is a length; this asks for a temperature',
        ),
        (
            "prices/list.csv",
            "13.90/kg",
            "13.90/h",
            '"13.90/h" is a price by time; this asks for a price by weight, by volume or by the '
            "piece",
        ),
        (
            "tastings/t.yaml",
            "tasters: 2",
            "tasters: 2\nmargin: 14 g",
            '"14 g" is a weight; this asks for a share',
        ),
    ],
)
def test_what_has_the_wrong_unit_is_named_and_what_is_asked_for(
    tmp_path: Path, file: str, old: str, new: str, message: str
) -> None:
    before = {**FILES, "tastings/t.yaml": TASTING}[file]
    assert before.count(old) == 1, before
    [error] = reported(tmp_path, file, before.replace(old, new))
    assert error.message == message


# A hint with a value that nobody wrote says that it is an example, or it names a limit.
EXAMPLE = (
    r"such as|as in |for example|at most|up to|[0-9] (?:to|or) -?[0-9]|from [0-9]|above 0|or more|"
    r"[0-9] min to |0 is a slab|units that fit|units? such|wanted is|did you mean|that month has|"
    r"piece of .+ weighs"
)


def value_of(line: str, column: int) -> str:
    """The value that begins at a column of a line."""
    found = re.match(r"[^,}\]#]*", line[column - 1 :])
    return found[0].rstrip() if found else ""


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda m: f"{m.file}: {m.new.strip()}")
def test_every_value_in_a_hint_comes_from_the_file_or_is_an_example(
    tmp_path: Path, mistake: Mistake
) -> None:
    text = FILES[mistake.file].replace(mistake.old, mistake.new) if mistake.old else (
        FILES[mistake.file] + mistake.new
    )  # fmt: skip
    for error in reported(tmp_path, mistake.file, text.replace(MARK, "")):
        hint = error.hint.partition("\n")[0]
        numbers = re.findall(r"[0-9]+(?:[.:-][0-9]+)*", re.sub(r"\S+\.(?:yaml|csv)\S*", "", hint))
        written = re.sub(r"[^0-9.:-]+", " ", " ".join(FILES.values()) + text)
        made = all(number.strip(".") in written or _from(number, text) for number in numbers)
        assert made or re.search(EXAMPLE, hint), (error.message, hint)


def _from(number: str, text: str) -> bool:
    """Whether a number is one of the file's with a point or a zero put in."""
    digits = re.sub(r"[^0-9]", "", number).strip("0")
    return digits in re.sub(r"[^0-9 \n]", "", text)


ROOMS = ("quantities", "reading", "records", "costing", "cooking")
TELLS = {"Problem", "refuse", "QuantityError", "RuleSetError", "PictureError", "_warn", "_warning"}


def literals(node: ast.AST) -> Iterator[str]:
    """The texts of an expression; what is put into one is a gap."""
    match node:
        case ast.Constant(value=str() as text):
            yield re.sub(r"\{[^{}]*\}", "…", text)
        case ast.JoinedStr():
            yield "".join(
                str(part.value) if isinstance(part, ast.Constant) else "…" for part in node.values
            )
        case _:
            for child in ast.iter_child_nodes(node):
                yield from literals(child)


def canned() -> Iterator[str]:
    for path in BUILDER:
        if path.relative_to(ROOT / "builder").parts[0] not in ROOMS:
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        told = TELLS | set(_makers(tree))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and _called(node) in told:
                given = [*node.args, *(each.value for each in node.keywords)]
            elif isinstance(node, ast.Assign) and "hint" in ast.unparse(node.targets[0]):
                given = [node.value]
            else:
                continue
            texts = [text for each in given for text in literals(each)]
            yield from (f"{path.name}: {text}" for text in texts if _is_data(text))


def _called(node: ast.Call) -> str:
    return str(getattr(node.func, "attr", getattr(node.func, "id", "")))


def _makers(tree: ast.Module) -> Iterator[str]:
    """The module's own functions that make a problem of what they are given."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("_"):
            calls = (each for each in ast.walk(node) if isinstance(each, ast.Call))
            if any(_called(each) in TELLS for each in calls):
                yield node.name


def _is_data(text: str) -> bool:
    """Whether a text holds a value of a kitchen's file and does not say that it is an example."""
    held = re.search(r"(?<![A-Z0-9-])[0-9]+(?:\.[0-9]+)?(?: ?(?:kg|g|h|min|%|mm|L)\b|/|:)", text)
    return bool(held) and not re.search(EXAMPLE, text)


def test_no_hint_in_the_code_is_another_s_value() -> None:
    assert sorted(canned()) == []


def test_a_canned_value_would_be_seen() -> None:
    """The check above can fail."""
    assert [_is_data(text) for text in ("write 13.60/kg", "write it as 18:00", "for: 30 h")] == [
        True, True, True,
    ]  # fmt: skip
    assert not _is_data("write load:, such as load: 8 kg")
