"""What can still be read of a YAML file in which some lines can't.

A slip of the pen ends a parser's work at its line; what is under the other keys of the top is
as good as it was. So the lines of the key with the slip are passed over and the rest is read again,
each line where it stood, until all slips are reported.
"""

from __future__ import annotations

import codecs
import re

from builder.problems import Problem
from builder.reading.limits import LIMITS, Limits
from builder.reading.source import BREAK
from builder.reading.tree import Branch, Node
from builder.reading.yaml_text import parse_yaml

# A line that begins a key of the top: indented, commented, closing and dashed ones belong to it.
_KEY_LINE = re.compile(r"[^\s#\]}\-,.]")
MOST_SLIPS = 10


def parse_or_salvage(
    file: str, data: bytes, limits: Limits = LIMITS
) -> tuple[Node | None, list[Problem]]:
    """Read a file's keys; where it has problems, those keys that can be read without them.

    Returns as `parse_yaml` does, and a tree, too, where that has none because of slips under
    at most ten keys. A file with anchors is not read again.

    >>> tree, problems = parse_or_salvage("a.yaml", b"a: 'x\\nb: 2\\nc: [1\\nd: 4\\n")
    >>> tree, [str(problem.place) for problem in problems]
    ({'b': '2', 'd': '4'}, ['a.yaml:1:4', 'a.yaml:3:4'])
    """
    tree, problems = parse_yaml(file, data, limits)
    if tree is not None or b"&" in data or not problems[0].place.line:
        return tree, problems
    lines = BREAK.split(data.removeprefix(codecs.BOM_UTF8).decode("utf-8", "replace"))
    found, reported = problems, list(problems)
    for _ in range(MOST_SLIPS):
        if not _pass_over(lines, found[-1].place.line):
            break
        tree, found = parse_yaml(file, "\n".join(lines).encode(), limits)
        if isinstance(tree, Branch):
            return tree, [*dict.fromkeys([*reported, *found])]
        if not found[-1].place.line:
            break  # nothing is left to read
        reported += found
    return None, [*dict.fromkeys(reported)]


def _pass_over(lines: list[str], number: int) -> bool:
    """Empty the lines of the key around a line; False where they are empty already."""
    start = end = min(number, len(lines)) - 1
    while start > 0 and not _KEY_LINE.match(lines[start]):
        start -= 1
    while end + 1 < len(lines) and not _KEY_LINE.match(lines[end + 1]):
        end += 1
    full = any(line.strip() for line in lines[start : end + 1])
    lines[start : end + 1] = [""] * (end + 1 - start)
    return full
