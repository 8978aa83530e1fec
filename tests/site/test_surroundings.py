"""What surrounds a build: a cache that can't be kept, a Python without docstrings, odd units."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from builder.engine.tables import Table, formula
from builder.pages.charts import assets
from tests.site.command import in_process
from tests.site.sites import files_of

WRONG_UNIT = """\
from builder.engine.tables import formula
from builder.money.kitchen import KITCHEN
@formula(KITCHEN, unit="money per hour", source="common practice, no published source")
def twice_the_wage(loaded_wage):
    return loaded_wage * 2
"""


def file_in_its_place(cache: Path) -> None:
    cache.write_text("x")


def folders_in_their_places(cache: Path) -> None:
    for name in ("bundle", "kinds"):
        (cache / f"{name}-{assets._key()}.js" / "inside").mkdir(parents=True)


@pytest.mark.parametrize("spoil", [file_in_its_place, folders_in_their_places])
def test_scripts_are_made_where_none_can_be_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, spoil: Callable[[Path], None]
) -> None:
    monkeypatch.setattr(assets, "_bundle", lambda: b"bundle")
    monkeypatch.setattr(assets, "_kinds", lambda: b"kinds")
    spoil(tmp_path / "cache")
    before = sorted(tmp_path.rglob("*"))
    assert sorted(assets.chart_assets(tmp_path / "cache").values()) == [b"bundle", b"kinds"]
    assert sorted(tmp_path.rglob("*")) == before


def test_a_build_without_a_cache_is_the_same_site(kitchen: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    sites = []
    for name, cache in (("one", tmp_path / "cache"), ("two", tmp_path / "file")):
        arguments = ("-m", "builder", "build", kitchen, tmp_path / name, "--as-of", "2026-02-01")
        ran = in_process(*arguments, changes={"XDG_CACHE_HOME": str(cache)})
        assert ran.code == 0, ran.reported
        assert "Traceback" not in ran.reported
        sites.append(files_of(tmp_path / name))
    assert sites[0] == sites[1]


@pytest.mark.parametrize("command", ["build", "check"])
def test_a_python_without_docstrings_is_refused_in_a_line(
    kitchen: Path, tmp_path: Path, command: str
) -> None:
    folders = (kitchen, tmp_path / "site") if command == "build" else (kitchen,)
    ran = in_process("-m", "builder", command, *folders, changes={"PYTHONOPTIMIZE": "2"})
    assert (ran.code, ran.reported.count("\n")) == (3, 1), ran.reported
    assert "docstrings" in ran.reported
    assert not (tmp_path / "site").exists()


def test_a_python_without_assertions_will_do(kitchen: Path) -> None:
    ran = in_process("-m", "builder", "check", kitchen, changes={"PYTHONOPTIMIZE": "1"})
    assert (ran.code, ran.reported) == (0, "the content can be published\n")


def test_an_undeclared_unit_fails_at_import(tmp_path: Path) -> None:
    (tmp_path / "more_figures.py").write_text(WRONG_UNIT)
    script = f"import sys; sys.path.append({str(tmp_path)!r}); import more_figures"
    ran = in_process("-c", script)
    assert ran.code == 1
    last = ran.reported.splitlines()[-1]
    assert last.startswith('ValueError: kitchen.twice_the_wage: no unit "money per hour"')


@pytest.mark.parametrize(
    "declare",
    [
        lambda table: table.given("size", "kilo", "Its size"),
        lambda table: table.recursive("size", "inside", table, "size", "kilo", "Its size"),
        lambda table: formula(table, unit="kilo", source="")(np.zeros),
    ],
    ids=["given", "recursive", "formula"],
)
def test_every_way_of_declaring_a_figure_asks_for_a_known_unit(
    declare: Callable[[Table], object],
) -> None:
    with pytest.raises(ValueError, match='no unit "kilo"'):
        declare(Table("pot", "Pots"))
