"""Problems of reading and of checking come out together, and none of them twice."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.build import compute_content
from tests.kitchens import write
from tests.kitchens.small import SMALL

DAY = date(2026, 10, 1)


def reported(root: Path, files: dict[str, str]) -> list[tuple[str, str, str]]:
    """Every error of a kitchen: its place, its message, its hint."""
    write(root, files)
    costed, problems = compute_content(root, None, DAY)
    assert costed is None
    return [(str(p.place), p.message, p.hint) for p in problems if p.is_error]


def test_a_file_that_cannot_be_read_hides_no_other_files_problem(tmp_path: Path) -> None:
    plate = next(name for name in SMALL if name.startswith("plates/") and "cook: " in SMALL[name])
    cut = next(name for name in SMALL if name.startswith("cuts/"))
    cook = SMALL[plate].split("cook: ")[1].split("\n")[0].strip()
    files = {
        **SMALL,
        cut: SMALL[cut] + "\ncolour: red\n",
        plate: SMALL[plate].replace(f"cook: {cook}", f"cook: {cook}x"),
    }
    messages = [message for _, message, _ in reported(tmp_path, files)]
    # The cooks of the unreadable cut are not told that there is no such cut: there is a file.
    assert messages == ['unknown key "colour"', f'there is no cook "{cook}x"']


def test_a_decimal_comma_in_a_short_mapping_is_explained(tmp_path: Path) -> None:
    cut = next(
        n for n in SMALL if n.startswith("cuts/") and "{date:" in SMALL[n] and ".4" in SMALL[n]
    )
    weight = next(part for part in SMALL[cut].split("in: ")[1:]).split(",")[0]
    files = {**SMALL, cut: SMALL[cut].replace(weight, weight.replace(".", ","), 1)}
    [(_, message, hint)] = reported(tmp_path, files)
    assert message == f'"{weight.replace(".", ",")}" has a comma, which ends the value here'
    assert hint == f"write {weight}"


@pytest.mark.parametrize("number", ["70,000,000", "2,500,000", "1,000,000,000"])
def test_a_number_in_groups_of_thousands_is_told_once_and_whole(
    tmp_path: Path, number: str
) -> None:
    """Its groups are neither a decimal's digits nor keys given twice."""
    service = "day: friday\nat: 18:00\nplates: {%s: %s}\n"
    plate = next(name for name in SMALL if name.startswith("plates/"))[7:-5]
    files = {**SMALL, "services/dinner.yaml": service % (plate, number)}
    assert reported(tmp_path, files) == [
        (
            f"services/dinner.yaml:3:{12 + len(plate)}",
            f'"{number}" has a comma, which ends the value here',
            f"write {number.replace(',', '')}",
        )
    ]


@pytest.mark.parametrize(
    ("file", "key", "slip"),
    [
        ("plates/chuck-steak.yaml", "menu: ", "menue: "),
        ("swaps/chuck-for-ribeye.yaml", "challengers: ", "chalengers: "),
        ("cuts/chuck.yaml", "species: ", "“species”: "),
        ("cuts/chuck.yaml", "in: ", "inn: "),
    ],
)
def test_a_misspelt_key_is_not_reported_as_a_missing_one_too(
    tmp_path: Path, file: str, key: str, slip: str
) -> None:
    [(_, message, hint)] = reported(tmp_path, {**SMALL, file: SMALL[file].replace(key, slip, 1)})
    assert message.startswith("unknown ")
    assert f'"{key.strip(": ,")}"' in hint


@pytest.mark.parametrize("empty", ["''", '""', "' '"])
def test_empty_quotes_are_no_name(tmp_path: Path, empty: str) -> None:
    files = {**SMALL, "cuts/chuck.yaml": f"name: {empty}\n" + SMALL["cuts/chuck.yaml"]}
    assert ("cuts/chuck.yaml:1:7", "nothing is written here", "write a few words") in reported(
        tmp_path, files
    )


@pytest.mark.parametrize("name", ["Chuck.yaml", "chuck .yaml", "chuck.yaml.txt", "chuck.YAML"])
def test_who_needs_a_misnamed_file_is_not_reported_too(tmp_path: Path, name: str) -> None:
    """The file has its own problem; mended, nothing else is wrong."""
    write(tmp_path, SMALL)
    (tmp_path / "cuts" / name).parent.mkdir(exist_ok=True)
    (tmp_path / "cuts/chuck.yaml").rename(tmp_path / "cuts" / name)
    costed, problems = compute_content(tmp_path, None, DAY)
    assert costed is None
    assert [problem.place.file.startswith("cuts/") for problem in problems] == [True]
