"""The kept chart scripts: taken again only while they are whole and nobody else's."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.pages.charts import assets

BUNDLE = "assets/chart-bundle.js"


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[bytes]:
    """Count how often the bundle is made, without the seconds that the real one takes."""
    scripts = [b"a", b"b", b"c"]
    monkeypatch.setattr(assets, "_bundle", lambda: scripts.pop(0))
    monkeypatch.setattr(assets, "_kinds", lambda: b"kinds")
    return scripts


def bundle_in(cache: Path) -> Path:
    return next(cache.glob("bundle-*.js"))


def test_a_whole_script_is_taken_again(made: list[bytes], tmp_path: Path) -> None:
    first, second = assets.chart_assets(tmp_path), assets.chart_assets(tmp_path)
    assert first[BUNDLE] == second[BUNDLE] == b"a"
    assert sorted(path.suffix for path in tmp_path.iterdir()) == [".js", ".js"]


@pytest.mark.parametrize(
    "damage",
    [
        pytest.param(lambda path: path.write_bytes(path.read_bytes()[:-1]), id="cut short"),
        pytest.param(lambda path: path.write_bytes(b"alert(1)"), id="another script"),
        pytest.param(lambda path: path.write_bytes(path.read_bytes() + b";x"), id="added to"),
        pytest.param(lambda path: path.write_bytes(b""), id="empty"),
        pytest.param(lambda path: path.chmod(0o666), id="anybody may write it"),
    ],
)
def test_a_damaged_script_is_made_again(made: list[bytes], tmp_path: Path, damage: object) -> None:
    assert callable(damage)
    assets.chart_assets(tmp_path)
    damage(bundle_in(tmp_path))
    assert assets.chart_assets(tmp_path)[BUNDLE] == b"b"
    assert assets.chart_assets(tmp_path)[BUNDLE] == b"b"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root may give")
def test_another_user_s_script_is_made_again(made: list[bytes], tmp_path: Path) -> None:
    assets.chart_assets(tmp_path)
    os.chown(bundle_in(tmp_path), 12345, 12345)
    assert assets.chart_assets(tmp_path)[BUNDLE] == b"b"


def test_a_shared_umask_keeps_scripts_too(made: list[bytes], tmp_path: Path) -> None:
    before = os.umask(0o002)
    try:
        assets.chart_assets(tmp_path)
        assert assets.chart_assets(tmp_path)[BUNDLE] == b"a"
    finally:
        os.umask(before)
