"""The rule sets that come with the builder, one file an authority and edition."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType

import yaml

from builder.cooking.rule_parsing import parse_rule_set
from builder.cooking.rules import RuleSet


@lru_cache(maxsize=1)
def rule_sets() -> Mapping[str, RuleSet]:
    """Return every rule set of the package by its id, which is its file's name."""
    folder = files("builder.cooking") / "rule_sets"
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".yaml"))
    found = {}
    for name in names:
        data = yaml.load((folder / name).read_text("utf-8"), Loader=yaml.CSafeLoader)
        rule_set_id = name.removesuffix(".yaml")
        found[rule_set_id] = parse_rule_set(data, rule_set_id)
    return MappingProxyType(found)
