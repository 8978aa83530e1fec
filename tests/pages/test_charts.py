"""The kinds of picture against the chart library itself, outside a browser."""

from __future__ import annotations

import json
import re
from importlib.metadata import files
from pathlib import Path
from xml.etree import ElementTree

import altair as alt
import pytest
import vl_convert
from markupsafe import Markup

from builder.pages.charts.assets import chart_assets
from builder.pages.charts.fields import KINDS
from builder.pages.charts.notices import PARTS, grammar_version, third_party
from builder.pages.charts.specs import BUILDERS, schema_version, specs
from builder.pages.components import Chart, Part, Prose, Table, walk
from tests.pages.chart_examples import CHARTS, WATERFALL

SVG = "{http://www.w3.org/2000/svg}"


def drawn(chart: Chart) -> ElementTree.Element:
    """Draw a kind with its rows by the library's own converter."""
    spec = dict(specs()[chart.kind])
    spec |= {"width": 600, "datasets": {"rows": [dict(row) for row in chart.rows]}}
    return ElementTree.fromstring(vl_convert.vegalite_to_svg(spec, vl_version=schema_version()))


def test_the_notices_name_the_grammar_that_the_specifications_are_written_in() -> None:
    assert grammar_version() == schema_version()


def test_contract_and_specifications_name_the_same_kinds() -> None:
    assert set(KINDS) == set(BUILDERS) == {chart.kind for chart in CHARTS}


@pytest.mark.parametrize("chart", CHARTS, ids=[chart.kind for chart in CHARTS])
def test_every_label_of_the_rows_is_drawn(chart: Chart) -> None:
    words = {text.text for text in drawn(chart).iter(f"{SVG}text")}
    labels = {str(row["text"]) for row in chart.rows if row.get("text")}
    assert labels <= words


def test_every_unit_that_a_kind_asks_for_is_the_title_of_an_axis() -> None:
    packed = {name: json.dumps(spec) for name, spec in specs().items()}
    for name, kind in KINDS.items():
        assert set(re.findall(r'"\{([\w-]+)\}"', packed[name])) == set(kind.units)


def test_a_bar_of_the_waterfall_is_as_long_as_its_step() -> None:
    bars = [
        p.attrib
        for p in drawn(WATERFALL).iter(f"{SVG}path")
        if p.attrib.get("fill") in ("var(--ink)", "var(--accent)", "url(#hatch-gain)")
    ]
    widths = [float(re.findall(r"h(-?[\d.]+)", bar["d"])[0]) for bar in bars]
    steps = [abs(float(str(r["end"])) - float(str(r["start"]))) for r in WATERFALL.rows]
    per_unit = widths[0] / steps[0]
    assert [w / per_unit for w in widths] == pytest.approx(steps, abs=0.01)


def test_no_address_outside_the_site_is_in_the_specifications(cache_dir: Path) -> None:
    script = chart_assets(cache_dir)["assets/chart-kinds.js"].decode()
    assert "://" not in script


def test_the_bundle_speaks_the_grammar_of_the_specifications(cache_dir: Path) -> None:
    bundle = chart_assets(cache_dir)["assets/chart-bundle.js"].decode()
    assert f'"{alt.SCHEMA_VERSION.removeprefix("v")}"' in bundle


def test_scripts_are_the_same_from_the_cache_and_afresh(cache_dir: Path, tmp_path: Path) -> None:
    kept = chart_assets(cache_dir)
    assert kept == chart_assets(cache_dir) == chart_assets(tmp_path)
    assert sorted(kept) == ["assets/chart-bundle.js", "assets/chart-kinds.js"]


def test_the_notices_name_the_installed_versions() -> None:
    tables = [section for section in walk(third_party()) if isinstance(section, Table)]
    versions = {row.cells[0].text: row.cells[1].text for row in tables[0].rows}
    assert versions["Vega"] == vl_convert.get_vega_version()
    assert versions["Vega-Embed"] == vl_convert.get_vega_embed_version()


def test_the_terms_are_the_packages_own_copies() -> None:
    words = [section.html for section in walk(third_party()) if isinstance(section, Prose)]
    for html, package in zip(words, ("altair", "", "rich"), strict=True):
        copies = [f for f in (files(package) if package else []) or [] if "LICENSE" in f.name]
        assert ("<pre>" in html) == bool(copies)
        if copies:
            assert Markup(html).unescape().count(copies[0].read_text().strip("\n")) == 1


def test_every_script_is_named_beside_its_terms() -> None:
    parts = [part for part in third_party() if isinstance(part, Part)]
    for name, _, licence, _ in PARTS:
        terms = next(part for part in parts if part.id == f"terms-{licence.lower()}")
        assert any(name in str(section) for section in terms.sections)
