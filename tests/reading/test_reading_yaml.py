"""Reading YAML: nothing converted, every refusal at its line, bounded whatever the bytes.

Outside checks: PyYAML's BaseLoader (types never resolved) is the reference for structure
and text; the conversions are the examples of the YAML 1.1 type repository (yaml.org/type,
values from memory), and PyYAML's safe loader shows that each really would be converted.
"""

from __future__ import annotations

import copy
import gc
import pickle

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from builder.problems import Place
from builder.reading import yaml_text
from builder.reading.tree import Blank, Branch, Node, Row, Text, plain
from builder.reading.yaml_text import parse_yaml

# Each loader with the one of its kind that guesses no types.
UNTYPED: dict[type, type] = {yaml.SafeLoader: yaml.BaseLoader}
if yaml.__with_libyaml__:
    UNTYPED[yaml.CSafeLoader] = yaml.CBaseLoader
LOADERS = list(UNTYPED)


def tree_of(text: str) -> Branch:
    tree, problems = parse_yaml("f.yaml", text.encode())
    assert problems == []
    assert isinstance(tree, Branch)
    return tree


def at(node: Node, *path: str | int) -> Node:
    """The node at the end of a path of keys and positions."""
    for step in path:
        if isinstance(node, Branch) and isinstance(step, str):
            node = node[step]
        else:
            assert isinstance(node, Row)
            assert isinstance(step, int)
            node = node[step]
    return node


CONVERTED = [
    "685_230", "+685_230", "02472256", "0x_0A_74_AE", "0b1010_0111_0100_1010_1110", "190:20:30",
    "6.8523015e+5", "685.230_15e+03", "685_230.15", "190:20:30.15", "-.inf", ".NaN",
    "yes", "No", "TRUE", "off", "On", "~", "null", "2001-12-14t21:59:43.10-05:00", "2002-12-14",
    "12:30", "010", "1.0", "1_000", "0x1F", "13", "14.80", "=",
]  # fmt: skip


@pytest.mark.parametrize("text", CONVERTED)
def test_a_scalar_stays_as_written(text: str) -> None:
    if text != "=":  # PyYAML has no constructor for the YAML 1.1 value key and fails
        assert not isinstance(yaml.safe_load(text), str)
    tree = tree_of(f"as value: {text}\n{text}: as key\n")
    assert plain(tree) == {"as value": text, text: "as key"}


def test_every_node_knows_its_place() -> None:
    tree = tree_of("name: Chuck\ntrim:\n  tests:\n    - {in: 8.42 kg}\n")
    paths = [(), ("name",), ("trim",), ("trim", "tests"), ("trim", "tests", 0)]
    places = [at(tree, *path).place for path in [*paths, ("trim", "tests", 0, "in")]]
    spots = [(1, 1), (1, 7), (3, 3), (4, 5), (4, 7), (4, 12)]
    assert places == [Place("f.yaml", *spot) for spot in spots]
    trim = at(tree, "trim")
    assert isinstance(trim, Branch)
    assert trim.key("tests").place == Place("f.yaml", 3, 3)
    with pytest.raises(KeyError):
        trim.key("parts")


def test_an_empty_value_is_blank_where_it_is_missing_and_quotes_are_not_blank() -> None:
    tree = tree_of("price:\nnote: ''\nlist:\n  -\n  - x\n")
    price, listed = tree["price"], tree["list"]
    assert isinstance(price, Blank)
    assert price.place == Place("f.yaml", 1, 7)
    assert type(tree["note"]) is Text
    assert isinstance(listed, Row)
    assert [type(item) for item in listed] == [Blank, Text]


def test_pickled_and_copied_trees_keep_their_places() -> None:
    tree = tree_of("a: [b, {c: }]\n")
    end = ("a", 1, "c")
    for twin in (pickle.loads(pickle.dumps(tree)), copy.deepcopy(tree)):
        assert twin == tree
        assert [type(at(twin, *path)) for path in ((), ("a",), end)] == [Branch, Row, Blank]
        assert at(twin, *end).place == Place("f.yaml", 1, 12)
        assert at(twin, "a", 1).place == Place("f.yaml", 1, 8)
        assert twin.key("a").place == Place("f.yaml", 1, 1)


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_lines_are_counted_as_editors_count_them(newline: str) -> None:
    tree = tree_of(newline.join(["# note", "", "a: 1", "b: 2"]))
    assert tree["b"].place == Place("f.yaml", 4, 4)


def test_a_utf8_mark_is_accepted_and_not_counted() -> None:
    tree, problems = parse_yaml("f.yaml", b"\xef\xbb\xbfname: x\n")
    assert problems == []
    assert isinstance(tree, Branch)
    assert tree["name"].place == Place("f.yaml", 1, 7)


def test_an_alias_repeats_a_node_with_the_place_where_it_was_written() -> None:
    tree = tree_of("a: &loss {juices: 3 %}\nb: *loss\n")
    assert tree["b"] == {"juices": "3 %"}
    assert tree["b"].place == Place("f.yaml", 1, 4)


# text, line, column, part of the message, part of the hint
SYNTAX = [
    ("a: 1\n\tb: 2\n", 2, 1, "a tab indents", "spaces"),
    ("a:\n\t- b\n", 2, 1, "a tab indents", "spaces"),
    ("a: >\n\tx\n", 2, 1, "a tab indents", "spaces"),
    ("price:13\nb: 2\n", 1, 6, "no space after this colon", 'space after the colon ("price: '),
    ("a: 1\nprice:13\nb: 2\n", 2, 6, "no space after this colon", "space after the colon"),
    ("a: 1\nprice:13\n", 2, 6, "no space after this colon", "space after the colon"),
    ("tests:\n  - in:8\n    out: 7\n", 2, 5, '"in:8 out" reads as one text', "space after"),
    ("price:13\n", 1, 1, "a single value", "space after the colon"),
    ("just words\n", 1, 1, "a single value", "key: value"),
    ("a: 1\nwords\nb: 2\n", 2, 1, 'no "key: value"', "colon"),
    ("a:\n- 1\n-2\n", 3, 1, "no space after this dash", '("- ")'),
    ("note: rest: one hour\n", 1, 11, "a second colon", "quotes"),
    ("a: 1\n  b: 2\n", 2, 3, "under line 1, which has a value", "line it up"),
    ("a:\n   b: 1\n  c: 2\n", 3, 3, "indentation fits no line", "line it up"),
    ("a:\n  - b\n c: 1\n", 3, 2, "indentation fits no line", "line it up"),
    ("- a\nb: 1\n", 2, 1, "not part of the list", "line it up"),
    ("a:\n  - b\n  -{c: 1}\n", 3, 3, "no space after this dash", '("- ")'),
    ("a:\n  - {b: 1}\n  – {c: 1}\n", 3, 3, '"–" is no plain hyphen', 'with "- "'),
    ("a:\n  • {b: 1, c: 2}\n", 2, 3, '"•" is no plain hyphen', 'with "- "'),
    ("a: 1\nb\uff1a2\nc: 3\n", 2, 2, "this colon is U+FF1A", 'a plain ": "'),
    ("a: 1\nb:\u00a02\nc: 3\n", 2, 3, "U+00A0 follows this colon", 'a plain ": "'),
    ('a: "x\nb: 1\n', 1, 4, "quote is never closed", 'add "'),
    ("a: 'x\n", 1, 4, "quote is never closed", "add '"),
    ('a: "x\nb: "116A"\nc: 1\n', 1, 4, "quote is never closed", 'add "'),
    ("a: 'don't'\n", 1, 9, "text follows a closing quote", "apostrophe twice"),
    ('a: "x" y\n', 1, 8, "text follows a closing quote", "whole value in quotes"),
    ("a: {b: 1\nc: 2\n", 1, 4, 'this "{" is not closed', "missing before line 2"),
    ("a: [1, 2\nc: 2\n", 1, 4, 'this "[" is not closed', "missing before line 2"),
    ("a: [1, {b: 2]\n", 1, 8, 'this "{" is not closed', "line 1, column 13"),
    ("a: {b: 1}}\n", 1, 10, 'this "}" closes nothing', "delete"),
    ("a: {: 1}\n", 1, 5, "a key is missing", "key: value"),
    (": x\n", 1, 1, "a key is missing", "key: value"),
    ("a: @x\n", 1, 4, 'cannot start with "@"', "quotes"),
    ("a: `x`\n", 1, 4, 'cannot start with "`"', "quotes"),
    ("a: %x\n", 1, 4, 'cannot start with "%"', "quotes"),
    ("a: , b\n", 1, 4, 'cannot start with ","', "quotes"),
    ("a: - b\n", 1, 4, "a list cannot begin", "next line"),
    ("a: *important*\n", 1, 4, '"*" means something else', "quotes"),
    ("a: & co\n", 1, 4, '"&" means something else', "quotes"),
    ("a: !e!x y\n", 1, 4, '"!" means something else', "quotes"),
    ('a: "C:\\q"\n', 1, 7, "backslash", "single quotes"),
    ('a: "\\xZZ"\n', 1, 7, "backslash", "single quotes"),
    ('a: "\\ud800"\n', 1, 7, "backslash", "single quotes"),
    ("a: |x\n  y\n", 1, 5, "the line must end", "quotes"),
]


@pytest.mark.parametrize(("text", "line", "column", "message", "hint"), SYNTAX)
def test_syntax_is_refused_in_plain_words(
    text: str, line: int, column: int, message: str, hint: str
) -> None:
    tree, problems = parse_yaml("f.yaml", text.encode())
    assert tree is None
    assert [problem.place for problem in problems] == [Place("f.yaml", line, column)]
    assert message in problems[0].message
    assert hint in problems[0].hint


def test_the_offending_line_is_quoted_with_a_mark_under_the_column() -> None:
    _, problems = parse_yaml("f.yaml", b"name: x\nprice:13.60/kg\nimps: 116A\n")
    assert problems[0].hint.splitlines()[1:] == ["    price:13.60/kg", "         ^"]


def test_a_very_long_line_is_quoted_in_part() -> None:
    _, problems = parse_yaml("f.yaml", b"a: " + b"x" * 5000 + b": y\n")
    _, quoted, caret = problems[0].hint.splitlines()
    assert len(quoted) < 80
    assert quoted[caret.index("^")] == ":"


# text, what is still read (None: nothing), then line, column and part of each message
REFUSED: list[tuple[str, object, list[tuple[int, int, str]]]] = [
    ("a: 1\nb: 2\n'a': 3\n", {"a": "1", "b": "2"}, [(3, 1, "first at f.yaml:1:1")]),
    ("x: {k: 1, k: 2}\n", {"x": {"k": "1"}}, [(1, 11, '"k" is given twice')]),
    ("a: 1\na: 2\na: {b: 3}\n", {"a": "1"}, [(2, 1, "twice"), (3, 1, "first at f.yaml:1:1")]),
    ("a: !!python/object/apply:os.system [x]\n", {"a": ["x"]}, [(1, 4, "!!python/object")]),
    ("a: !!int 3\nb: !own [c]\n", {"a": "3", "b": ["c"]}, [(1, 4, "!!int"), (2, 4, "!own")]),
    ("b: &b {x: 1}\na: {<<: *b, y: 2}\n", {"b": {"x": "1"}, "a": {"y": "2"}}, [(2, 5, "merge")]),
    ("? [a, b]\n: c\nd: 1\n", {"d": "1"}, [(1, 3, "a key must be plain text")]),
    ("{a: 1}: c\n", {}, [(1, 1, "a key must be plain text")]),
    ("a: &k x\n*k : 2\n", {"a": "x"}, [(2, 1, "a key must be plain text")]),
    ("a: {in:8 g, out: 7}\n", {"a": {"in:8 g": "", "out": "7"}}, [(1, 5, "without a value")]),
    ("a: {2026-09:3, b: 1}\n", {"a": {"2026-09:3": "", "b": "1"}}, [(1, 5, "without a value")]),
    ("a: {jus 6 kg}\n", {"a": {"jus 6 kg": ""}}, [(1, 5, '"jus 6 kg" has no colon')]),
    ("a: {b: 6,20 kg}\n", {"a": {"b": "6", "20 kg": ""}}, [(1, 8, '"6,20 kg" has a comma')]),
    ("a: {b: 1, 'c': }\n", {"a": {"b": "1", "c": ""}}, []),
    ("a: #1 steak\n", {"a": ""}, [(1, 4, "begins a comment")]),
    ("a: # later\nb:\n", {"a": "", "b": ""}, []),
    ("a: &b\n", {"a": ""}, [(1, 4, 'starts with "&"')]),
    ("a: 1\n\u00a0b: 2\n   c: 3\n", None, [(2, 1, "begins or ends with a space")]),
    ("a:\n  - in:8 kg\n", {"a": ["in:8 kg"]}, [(2, 5, "reads as one text")]),
    ("a: one\n  price:13\n", {"a": "one price:13"}, [(1, 4, "reads as one text")]),
    ("a: 1\n\u00a0b: 2\n", {"a": "1"}, [(2, 1, "begins or ends with a space")]),
    ('a: "\\0"\n', {"a": "\0"}, [(1, 4, "U+0000")]),
    ("%YAML 1.1\n---\na: 1\n", {"a": "1"}, [(1, 1, "% line")]),
    ("a: 1\n---\nb: 1\n", None, [(2, 1, "second document")]),
    ("a: 1\n...\nb: 1\n", None, [(3, 1, "second document")]),
    ("a: *very good*\n", None, [(1, 4, '"*very" repeats a name not above')]),
    ("a: &x 1\nb: &x [2]\n", None, [(2, 4, '"&x" is given twice')]),
    ("a: *b\n", None, [(1, 4, '"*b" repeats a name not above')]),
    ("a: &a [1, *a]\n", None, [(1, 11, "repeats itself without end")]),
    ("a: &a {b: {c: *a}}\n", None, [(1, 15, "repeats itself without end")]),
    ("", None, [(0, 0, "nothing is written")]),
    ("# only a note\n", None, [(0, 0, "nothing is written")]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "read", "places"), REFUSED)
def test_what_a_kitchen_does_not_need_is_refused_and_the_rest_is_read(
    text: str, read: object, places: list[tuple[int, int, str]]
) -> None:
    tree, problems = parse_yaml("f.yaml", text.encode())
    assert (None if tree is None else plain(tree)) == read
    assert [p.place for p in problems] == [Place("f.yaml", line, col) for line, col, _ in places]
    for problem, (_, _, part) in zip(problems, places, strict=True):
        assert part in problem.message


# bytes, line, column, part of the message, part of the hint
ENCODINGS = [
    (b"a: 1\nname: cr\xe8me\n", 2, 9, "byte 0xE8, number 14", '"è"'),
    (b"a: \xff\xfe", 1, 4, "byte 0xFF, number 4", "UTF-8"),
    (b"\xc3\xa8: \xc3", 1, 4, "byte 0xC3, number 5", "UTF-8"),
    ("a: è\n".encode("utf-16"), 0, 0, "this file is UTF-16", "save the file as UTF-8"),
    ("a: 1\n".encode("utf-16-be"), 0, 0, "this file is UTF-16", "save the file as UTF-8"),
    ("a: 1\n".encode("utf-16-le"), 0, 0, "this file is UTF-16", "save the file as UTF-8"),
    ("a: 1\n".encode("utf-32"), 0, 0, "this file is UTF-32", "save the file as UTF-8"),
    (b"a: 1\nb: x\x00y\n", 2, 5, "U+0000", "delete"),
    (b"a: \x1b[31m\n", 1, 4, "U+001B", "delete"),
    (b"PK\x03\x04\x14\x01\x08", 1, 3, "no plain text", "UTF-8"),
    ("a: 1\u200b2\n".encode(), 1, 5, "U+200B ZERO WIDTH SPACE", "delete"),
    ("a: 1\u2028b: 2\n".encode(), 1, 5, "U+2028 LINE SEPARATOR", "delete"),
    ("a: \u202e1\n".encode(), 1, 4, "U+202E", "delete"),
]


@pytest.mark.parametrize(("data", "line", "column", "message", "hint"), ENCODINGS)
def test_other_encodings_and_unseen_characters_are_named(
    data: bytes, line: int, column: int, message: str, hint: str
) -> None:
    tree, problems = parse_yaml("f.yaml", data)
    assert tree is None
    assert [problem.place for problem in problems] == [Place("f.yaml", line, column)]
    assert message in problems[0].message
    assert hint in problems[0].hint


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("a: {b: 6,20 kg}\n", "write 6.20 kg"),
        ("a: {b: 6.200,00 kg}\n", "write 6200.00 kg"),
        ("a: {b: 1,200}\n", "write 1200 for thousands or 1.200 for decimals"),
    ],
)
def test_a_decimal_comma_between_braces_is_written_again_with_a_point(text: str, hint: str) -> None:
    _, [problem] = parse_yaml("f.yaml", text.encode())
    assert problem.hint == hint


def agrees_with_reference(data: bytes, reference: type = yaml.BaseLoader) -> None:
    """Never raises; and without a problem the tree is what the untyped reference loads."""
    tree, problems = parse_yaml("f.yaml", data)
    assert problems or tree is not None
    lines = data.decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for problem in problems:
        assert 0 <= problem.place.line <= len(lines)
        assert problem.message.isprintable()
    if tree is not None and not problems:
        text = data.decode("utf-8-sig")
        assert plain(tree) == yaml.load(text, Loader=reference)


@settings(deadline=None)
@given(st.binary(max_size=200))
@example(b"a: &x\nb: &x")
@example(b'a: "\\U7FFFFFFF"')
@example(b"%YAML 1." + b"9" * 5000)
def test_any_bytes_give_a_tree_or_problems(data: bytes) -> None:
    agrees_with_reference(data, UNTYPED[yaml_text._Loader])


PIECES = st.sampled_from([
    "a", "b: ", "- ", ": ", ":", "\n", "\n  ", "\n- ", "[", "]", "{", "}", ", ", "&x ", "*x ",
    "!t ", "!!int ", "|\n", ">-\n", "'", '"', "#", " # ", "%", "@", "`", "? ", "<<: ", "---\n",
    "...\n", "\t", "\\", "\\n", "é", "12:30", "no", "~", "\u00a0", "\r\n", "\ufeff", "=", "\\x41",
])  # fmt: skip


@pytest.mark.parametrize("loader", LOADERS)
@settings(deadline=None)
@given(pieces=st.lists(PIECES, max_size=40))
def test_any_yaml_like_text_gives_a_tree_or_problems(loader: type, pieces: list[str]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(yaml_text, "_Loader", loader)
        agrees_with_reference("".join(pieces).encode(), UNTYPED[loader])


WORDS = st.text("abcdefg 0123456789.:/%°é'\"-#[]{}&*!|>\\\n", min_size=1, max_size=20)
TREES = st.recursive(
    WORDS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(WORDS, inner, max_size=4),
    max_leaves=20,
)


@settings(deadline=None)
@given(st.dictionaries(WORDS.filter(lambda w: w == w.strip()), TREES, min_size=1, max_size=5))
def test_what_is_dumped_is_read_back(content: dict[str, object]) -> None:
    text = yaml.dump(content, default_style='"', allow_unicode=True)
    tree, problems = parse_yaml("f.yaml", text.encode())
    assert all("begins or ends with a space" in problem.message for problem in problems)
    if not problems:
        assert tree is not None
        assert plain(tree) == content


def leaves(node: Node) -> list[Text]:
    """Every scalar of a tree, keys too."""
    if isinstance(node, Branch):
        return [leaf for pair in node.items() for child in pair for leaf in leaves(child)]
    return [leaf for child in node for leaf in leaves(child)] if isinstance(node, Row) else [node]


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 9), st.from_regex(r"[a-z]{1,9}é?", fullmatch=True))))
def test_a_place_points_at_the_first_character(parts: list[tuple[int, str]]) -> None:
    text = "a:\n" + "".join(f"{' ' * (n + 1)}# x\n  - {{{w}: [{w}]}}\n" for n, w in parts)
    tree = tree_of(text)
    lines = text.split("\n")
    for leaf in leaves(tree):
        assert lines[leaf.line - 1][leaf.column - 1 :].startswith(leaf)


def test_a_tree_that_is_no_longer_wanted_is_gone_at_once() -> None:
    """A build pauses the collector while it reads: circles would stay until the end."""
    gc.collect()
    gc.disable()
    try:
        for _ in range(20):
            assert parse_yaml("a.yaml", b"a: {b: [1, 2], c: &x [d], e: *x}")[0] is not None
        assert gc.collect() < 20
    finally:
        gc.enable()
