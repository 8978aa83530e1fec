"""Reading YAML within bounds: bombs, large files and endless lines stop at their cap.

The bombs are the well-known shapes ("billion laughs", quadratic blow-up, deep nesting);
memory is traced, so that no test depends on a clock.
"""

from __future__ import annotations

import tracemalloc

import pytest
import yaml

from builder.reading import yaml_text
from builder.reading.limits import Limits
from builder.reading.yaml_text import parse_yaml

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if yaml.__with_libyaml__ else [])]


def laughs(levels: int, width: int) -> str:
    """Each level repeats the one before `width` times: width ** levels nodes written out."""
    lines = ["l0: &l0 lol"]
    for level in range(1, levels + 1):
        inner = ", ".join([f"*l{level - 1}"] * width)
        lines.append(f"l{level}: &l{level} [{inner}]")
    return "\n".join(lines)


# text, part of the message
BOMBS = [
    (laughs(9, 10), "more than 50,000 values"),
    (laughs(20, 2), "more than 50,000 values"),
    ("a: &a " + "x" * 100_000 + "\nb: [" + "*a, " * 20_000 + "]", "more than 50,000 values"),
    ("a: &a [" + "x, " * 1000 + "]\nb: [" + "*a, " * 1000 + "]", "more than 50,000 values"),
    ("[" + "a," * 51_000 + "]", "more than 50,000 values"),
    ("[" * 1000 + "]" * 1000, "nested deeper than 20 levels"),
    ("[" * 200_000, "nested deeper than 20 levels"),
    ("{a: " * 1000 + "1" + "}" * 1000, "nested deeper than 20 levels"),
    ("- " * 1000 + "a", "nested deeper than 20 levels"),
    ("\n".join(" " * n + "a:" for n in range(300)), "nested deeper than 20 levels"),
    (laughs(25, 1), "nested deeper than 20 levels"),
]


@pytest.mark.parametrize("loader", LOADERS)
@pytest.mark.parametrize(("text", "message"), BOMBS)
def test_bombs_are_left_at_the_cap(
    text: str, message: str, loader: type, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(yaml_text, "_Loader", loader)
    data = text.encode()
    tracemalloc.start()
    tree, problems = parse_yaml("f.yaml", data)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert tree is None
    assert [message in problem.message for problem in problems] == [True]
    assert peak < 24e6


def test_a_large_file_is_refused_by_its_size_alone() -> None:
    data = b"a: 1\n" * 4_000_000
    tracemalloc.start()
    tree, problems = parse_yaml("f.yaml", data)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert tree is None
    assert "20,000,000 bytes; at most 262,144" in problems[0].message
    assert peak < 1e6


@pytest.mark.parametrize(
    "text",
    [
        "- " + "a " * 60_000 + ": b",
        "- " + "a-" * 60_000 + " x: y: z",
        "- " + "a " * 100_000 + "x12:",
        "a: b\n" + " " * 120_000 + "c: d",
        " " * 120_000 + "c: d\n" + " " * 120_000 + " e: f",
        "a: 'b\n" + "- '" * 40_000 + "\n'x': y",
        "{" + "a:b, " * 40_000 + "}",
        "{" + "123, " * 40_000 + "}",
        "{" + ", ".join(map(str, range(100_000, 130_000))) + "}",
        "{a: " + "123," * 60_000 + "}",
    ],
)
def test_long_lines_end(text: str) -> None:
    """Explaining takes time linear in the text: with a quadratic step this would not end."""
    _, problems = parse_yaml("f.yaml", text.encode())
    assert all(len(problem.message) < 200 for problem in problems)


def test_the_caps_are_the_first_values_refused() -> None:
    limits = Limits(yaml_bytes=12, depth=3, nodes=4, problems=2)
    accepted = ["[[[]]]", "[a, b, c]", "a: 3456 8901"]
    refused = ["[[[[]]]]", "[a, b, c, d]", "a: 3456 89012"]
    assert [parse_yaml("f", text.encode(), limits)[1] for text in accepted] == [[], [], []]
    assert [len(parse_yaml("f", text.encode(), limits)[1]) for text in refused] == [1, 1, 1]


def test_problems_of_one_file_are_capped_with_a_last_word() -> None:
    _, problems = parse_yaml("f.yaml", b"a: 1\n" * 100)
    assert len(problems) == 21
    assert "more problems than" in problems[-1].message
