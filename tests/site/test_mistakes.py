"""Mistakes in content files, all the way through the command line."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.reading.folder import PICTURES
from builder.records.content import FOLDERS
from tests.kitchens import write
from tests.site.command import Command

HERE = "¦"
"""Stands in a text where the problem must be told, and is taken out before it is written."""

ONE_EACH = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nloaded wage: ¦24.50\n",
    "cuts/chuck.yaml": "species: ¦beeef\nprice: 13.60/kg\n",
    "cooks/braise.yaml": "cut: chuck\nhow: braise\n¦hands onn: 35 min\nload: 5 kg\n",
    "pantry/mash.yaml": "price: 1.80/kg\nallergens: [¦nuts]\n",
    "plates/steak.yaml": "menu: mains\ncook: braise\nportion: ¦180\nprice: 27.00\n",
    "prices/list.csv": "date,item,price\n2026-09-01,chuck,¦thirteen\n",
    "rules/house.yaml": "title: House\n¦title: Another\n",
    "services/friday.yaml": "day: ¦Fryday\nat: 18:00\nplates: {steak: 20}\n",
    "swaps/one.yaml": "benchmark: steak\nchallengers: [steak]\nforecast: ¦12.5\n",
    "tastings/first.yaml": "¦tasterss: 3\n",
    "menus/lunch.yaml": "price: ¦cheap\nplates: [steak]\n",
    "buffets/counter.yaml": "price: 24.00/kg\n¦cookss: {braise: 1 kg}\n",
    "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {steak: ¦many}\n",
    "sales/september.csv": "date,plate,count\n2026-09-21,steak,¦many\n",
    "notes/opening.md": "---\n¦titel: Opening\n---\nBaths on.\n",
}
LEADING_NOWHERE = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nloaded wage: 24/h\nauthority: ¦hous\n",
    "cuts/chuck.yaml": "species: beef\nprice: 13.60/kg\n",
    "cooks/braise.yaml": "cut: ¦chukc\nhow: braise\nload: 5 kg\nloss: 30 %\n",
    "pantry/mash.yaml": "of: {¦potato: 2 kg}\nmakes: 2 kg\n",
    "plates/steak.yaml": "menu: mains\nprice: 9.00\nwith: {¦mahs: 180 g}\n",
    "prices/list.csv": "date,item,price\n2026-09-01,¦brisket,9.00/kg\n",
    "services/friday.yaml": "day: Friday\nat: 18:00\nplates: {¦stake: 20}\n",
    "swaps/one.yaml": "benchmark: ¦stake\nchallengers: [steak]\n",
    "menus/lunch.yaml": "price: 19.00\nplates: [¦stake]\n",
    "buffets/counter.yaml": "price: 24.00/kg\ncooks: {¦brais: 1 kg}\n",
    "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {¦stake: 20}\n",
    "sales/september.csv": "date,plate,count\n2026-09-21,¦stake,20\n",
}


def spoilt(root: Path, files: dict[str, str]) -> set[str]:
    """Write the files without their marks; return where the marks stood, as file:line:col."""
    write(root, {path: text.replace(HERE, "") for path, text in files.items()})
    places = set()
    for path, text in files.items():
        for found in re.finditer(HERE, text):
            lines = text[: found.start()].replace(HERE, "").split("\n")
            places.add(f"{path}:{len(lines)}:{len(lines[-1]) + 1}")
    return places


def test_every_kind_of_file_has_its_mistake() -> None:
    """A new folder of content must get one too; pictures have no lines, notes name them."""
    assert {Path(path).parent.name for path in ONE_EACH} == {"", *FOLDERS} - {PICTURES}


@pytest.mark.parametrize("files", [ONE_EACH, LEADING_NOWHERE], ids=["in a file", "among files"])
def test_one_mistake_in_each_kind_of_file_is_reported_at_once(
    command: Command, tmp_path: Path, files: dict[str, str]
) -> None:
    places = spoilt(tmp_path / "kitchen", files)
    ran = command("build", tmp_path / "kitchen", tmp_path / "site")
    reported = re.findall(r"^(\S+): error: .", ran.reported, re.MULTILINE)
    assert ran.code == 1, ran.reported
    assert set(reported) >= places, ran.reported
    assert "nothing published" in ran.reported
    assert not (tmp_path / "site").exists()


def test_what_may_have_been_meant_is_said(command: Command, tmp_path: Path) -> None:
    spoilt(tmp_path, ONE_EACH)
    reported = command("check", tmp_path).reported
    assert 'did you mean "beef"?' in reported
    assert 'did you mean "hands on"?' in reported
    assert 'did you mean "friday"?' in reported


def alias_bomb(root: Path) -> str:
    layers = [f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 10)]
    text = "\n".join(["l0: &l0 [x, x, x, x, x, x, x, x, x]", *layers])
    (root / "cuts" / "bomb.yaml").write_text(text)
    return "cuts/bomb.yaml"


def huge_file(root: Path) -> str:
    (root / "cuts" / "huge.yaml").write_text("species: beef\nnote: " + "x" * 4_000_000)
    return "cuts/huge.yaml"


def deep_nesting(root: Path) -> str:
    (root / "cuts" / "deep.yaml").write_text("[" * 5_000 + "]" * 5_000)
    return "cuts/deep.yaml"


def latin_1(root: Path) -> str:
    (root / "cuts" / "cote.yaml").write_bytes("name: Côte de bœuf".encode("cp1252"))
    return "cuts/cote.yaml"


def link_out(root: Path) -> str:
    outside = root.parent / "outside.yaml"
    outside.write_text("species: beef\nprice: 13.60/kg\n")
    (root / "cuts" / "linked.yaml").symlink_to(outside)
    return "cuts/linked.yaml"


@pytest.mark.parametrize("spoil", [alias_bomb, huge_file, deep_nesting, latin_1, link_out])
def test_a_hostile_file_is_refused_by_name(
    command: Command, kitchen: Path, spoil: Callable[[Path], str]
) -> None:
    file = spoil(kitchen)
    ran = command("build", kitchen, kitchen.parent / "site")
    assert ran.code == 1
    assert re.search(rf"^{re.escape(file)}(:\d+:\d+)?: error: .", ran.reported, re.MULTILINE), (
        ran.reported
    )
    assert len(ran.reported) < 5_000
    assert not (kitchen.parent / "site").exists()
