"""What the site says about scripts in it that others wrote."""

from __future__ import annotations

import re
from importlib.metadata import PackageNotFoundError, files, version

import vl_convert
from markupsafe import Markup

from builder.language import tr
from builder.pages.components import Cell, Column, Part, Prose, Row, Section, Table

# Licences and holders as the projects state them, from memory; versions are read from
# the installed package, and no version is named where it does not tell one.
PARTS: tuple[tuple[str, str, str, str], ...] = (
    (
        "Vega",
        "vega",
        "BSD-3-Clause",
        "University of Washington Interactive Data Lab",
    ),
    (
        "Vega-Lite",
        "vega-lite",
        "BSD-3-Clause",
        "University of Washington Interactive Data Lab",
    ),
    (
        "Vega-Embed",
        "vega-embed",
        "BSD-3-Clause",
        "University of Washington Interactive Data Lab",
    ),
    (
        "Vega-Themes",
        "vega-themes",
        "BSD-3-Clause",
        "University of Washington Interactive Data Lab",
    ),
    (
        "Vega-Tooltip",
        "",
        "BSD-3-Clause",
        "University of Washington Interactive Data Lab",
    ),
    ("D3 modules", "", "ISC", "Mike Bostock"),
    ("TopoJSON client", "", "ISC", "Mike Bostock"),
    ("semver", "", "ISC", "Isaac Z. Schlueter and contributors"),
    ("fast-json-patch", "", "MIT", "Joachim Wester and contributors"),
    ("json-stringify-pretty-compact", "", "MIT", "Simon Lydell"),
)


_GRAMMAR, _VERSION = "schema/__init__.py", re.compile(r'^SCHEMA_VERSION = "v(\d+\.\d+)', re.M)

# A licence with the installed package whose own copy of its terms is printed, if it has one.
TEXTS: tuple[tuple[str, str, str], ...] = (
    ("BSD-3-Clause", "altair", "Altair"),
    ("ISC", "", ""),
    ("MIT", "rich", "Rich"),
)


def third_party() -> tuple[Section, ...]:
    """Return the sections of the notices page: who wrote what, under which terms."""
    return (
        Part(
            "scripts",
            tr("Scripts by others"),
            (_table(),),
            tr("Packed into assets/chart-bundle.js."),
        ),
        *(
            Part(
                f"terms-{licence.lower()}",
                tr("The {licence} terms", licence=licence),
                (_terms(licence, *copy),),
            )
            for licence, *copy in TEXTS
        ),
    )


def _table() -> Table:
    columns = (
        Column("script", tr("Script")),
        Column("version", tr("Version")),
        Column("licence", tr("Licence")),
        Column("holder", tr("Copyright holder")),
    )
    versions = {
        "vega": vl_convert.get_vega_version(),
        "vega-lite": grammar_version(),
        "vega-embed": vl_convert.get_vega_embed_version(),
        "vega-themes": vl_convert.get_vega_themes_version(),
    }
    rows = tuple(
        Row(tuple(map(Cell, (name, versions.get(key, tr("as packed")), licence, holder))))
        for name, key, licence, holder in PARTS
    )
    about = tr(
        "Packed by vl-convert {version}; nothing is fetched from elsewhere.",
        version=version("vl-convert-python"),
    )
    return Table("third-party", tr("Scripts that draw the pictures"), columns, rows, about=about)


def grammar_version() -> str:
    """The version of the grammar that the pictures are written in, such as 6.4.

    Read from the installed package's source: importing it takes longer than the pages of a
    small kitchen.
    """
    sources = (each.read_text() for each in files("altair") or () if each.match(_GRAMMAR))
    found = (_VERSION.search(source) for source in sources)
    return next((version[1] for version in found if version), tr("as packed"))


def _terms(licence: str, package: str, title: str) -> Prose:
    text = _licence_text(package) if package else ""
    scripts = ", ".join(name for name, _, under, _ in PARTS if under == licence)
    if not text:
        return Prose(
            Markup(
                tr(
                    "<p>{} come under these terms. No package that this site was made with "
                    "carries their text: it stands, with the years of the copyright, in the "
                    "file LICENSE of each project's published source.</p>"
                )
            ).format(scripts)
        )
    return Prose(
        Markup(
            tr(
                "<p>{} come under these terms. The text is the installed {} package's "
                "own copy, with that package's copyright line; the holders for the "
                "scripts are in the table above.</p><pre>{}</pre>"
            )
        ).format(scripts, title, text.strip("\n"))
    )


def _licence_text(package: str) -> str:
    try:
        found = [f for f in files(package) or () if f.name.partition(".")[0] == "LICENSE"]
    except PackageNotFoundError:
        found = []
    return found[0].read_text() if found else ""
