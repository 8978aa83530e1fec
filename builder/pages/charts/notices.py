"""What the site says about scripts in it that others wrote."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError, files, version

import vl_convert
from markupsafe import Markup, escape

from builder.pages.charts.specs import schema_version
from builder.pages.components import Cell, Column, Part, Prose, Row, Section, Table

# Licences and holders as the projects state them, from memory; versions are read from
# the installed package, and no version is named where it does not tell one.
PARTS: tuple[tuple[str, str, str, str], ...] = (
    ("Vega", "vega", "BSD-3-Clause", "University of Washington Interactive Data Lab"),
    ("Vega-Lite", "vega-lite", "BSD-3-Clause", "University of Washington Interactive Data Lab"),
    ("Vega-Embed", "vega-embed", "BSD-3-Clause", "University of Washington Interactive Data Lab"),
    ("Vega-Themes", "vega-themes", "BSD-3-Clause", "University of Washington Interactive Data Lab"),
    ("Vega-Tooltip", "", "BSD-3-Clause", "University of Washington Interactive Data Lab"),
    ("D3 modules", "", "ISC", "Mike Bostock"),
    ("TopoJSON client", "", "ISC", "Mike Bostock"),
    ("semver", "", "ISC", "Isaac Z. Schlueter and contributors"),
    ("fast-json-patch", "", "MIT", "Joachim Wester and contributors"),
    ("json-stringify-pretty-compact", "", "MIT", "Simon Lydell"),
)


def third_party() -> tuple[Section, ...]:
    """Return the sections of the notices page: who wrote what, under which terms."""
    return (
        Part("scripts", "Scripts by others", (_table(),), "Packed into assets/chart-bundle.js."),
        Part("terms", "The BSD terms", (_terms(),)),
    )


def _table() -> Table:
    columns = (
        Column("script", "Script"),
        Column("version", "Version"),
        Column("licence", "Licence"),
        Column("holder", "Copyright holder"),
    )
    versions = {
        "vega": vl_convert.get_vega_version(),
        "vega-lite": schema_version(),
        "vega-embed": vl_convert.get_vega_embed_version(),
        "vega-themes": vl_convert.get_vega_themes_version(),
    }
    rows = tuple(
        Row(tuple(map(Cell, (name, versions.get(key, "as packed"), licence, holder))))
        for name, key, licence, holder in PARTS
    )
    about = (
        f"Packed by vl-convert {version('vl-convert-python')}; nothing is fetched from elsewhere."
    )
    return Table("third-party", "Scripts that draw the pictures", columns, rows, about=about)


def _terms() -> Prose:
    text = _licence_text("altair")
    intro = "<p>The text below comes with the installed Altair package, under the same terms.</p>"
    missing = "<p>The installed package carries no text; the terms are those of BSD-3-Clause.</p>"
    return Prose(Markup(f"{intro}<pre>{escape(text)}</pre>" if text else missing))


def _licence_text(package: str) -> str:
    try:
        found = [f for f in files(package) or () if f.name == "LICENSE"]
    except PackageNotFoundError:
        found = []
    return found[0].read_text() if found else ""
