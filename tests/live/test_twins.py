"""Numbers that the builder and the pages' scripts both hold are one number."""

from __future__ import annotations

import re

from builder.pages.menu_classes import SURE
from builder.pages.rendering import TEMPLATES


def test_a_class_needs_no_word_of_doubt_from_one_chance_up() -> None:
    """The builder hides the chance of a class, and the script shows it once a what-if moves it."""
    script = (TEMPLATES / "assets" / "live.js").read_text(encoding="utf-8")
    found = re.findall(r"\bSURE = ([\d.]+);", script)
    assert [float(each) for each in found] == [SURE]
