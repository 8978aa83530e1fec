"""The chart library's script, made on this machine from the installed package."""

from __future__ import annotations

import vl_convert

from builder.pages.charts.specs import schema_version
from builder.problems import ShankbookError

SNIPPET = "globalThis.drawChart = vegaEmbed;"


def bundle_script() -> bytes:
    """Return the library as one classic script whose only global is `drawChart`.

    Raises ShankbookError when the installed library does not speak the grammar
    that the specifications are written in.
    """
    version = schema_version()
    if version not in vl_convert.get_vegalite_versions():
        known = ", ".join(vl_convert.get_vegalite_versions())
        raise ShankbookError(f"charts are written for Vega-Lite {version}, installed: {known}")
    script = vl_convert.javascript_bundle(SNIPPET, vl_version=version)
    return f"(() => {{\n{script}\n}})();\n".encode()
