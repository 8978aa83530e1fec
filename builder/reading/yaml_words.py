"""What a YAML parser's complaint means to the person who wrote the file."""

from __future__ import annotations

import re
from collections.abc import Callable

import yaml

from builder.language import Deferred, clauses, tr
from builder.problems import Place
from builder.reading.source import Source, short, too_deep
from builder.reading.tree import Text

_QUOTES = Deferred("put the whole value in quotes")
_NO_COLON = Deferred('this line has no "key: value"')
_ADD_COLON = Deferred("put a colon and a space after the key")
_NO_DASH_SPACE, _DASH_SPACE = (
    Deferred("no space after this dash"),
    Deferred('put a space after the dash ("- ")'),
)
_LINE_UP = Deferred("line it up, with spaces, with the lines that it belongs to")

_GLUED_COLON = re.compile(r"^\s*(?:- +)?[A-Za-z][\w -]*:(?=[^\s:/])")
_ANY_COLON = re.compile(r"[^\s:]:(?!//)[^\s:]")
_DIGIT_COMMA = re.compile(r"[0-9],$")
# A number in three groups or more, and what is written after it.
_GROUPS = re.compile(r"(?<![\w.,])[0-9]{1,3}(?P<rest>(?:,[0-9]{3}){2,}(?![0-9,]))[^,\]}]*")
# How far from a key it may reach [characters].
_LONGEST = 200
_GLUED_DASH = re.compile(r"^\s*-(?=[^\s-])")
_ODD_DASH = re.compile(r"^ *[\u2010-\u2015\u2212\u2022\u00b7*] ")
_ODD_COLON = re.compile(
    r"^ *(?:- +)?[A-Za-z][\w -]*(?:(?P<odd>[\uff1a\ufe55\ufe30\u02d0\u2236])|:(?P<space>[^\S ]))"
)
_KEY = re.compile(r"""^\s*(?:- +)?(?:[^\s"'#][^:#]*|"[^"]*"|'[^']*'):(?:\s|$)""")
_HAS_VALUE = re.compile(r"^\s*(?:- +)?[^\s#][^#]*?:\s+[^\s#&|>]")
_INDENT = re.compile(r"^\s*")
_OPEN_QUOTE = re.compile(r"""(?:^|[:,\[{-]\s*)(?:"(?=[^"]*$)|'(?=[^']*$))""")

_KEY_NUMBER = re.compile(r"^\s*(?:- +)?([A-Za-z][A-Za-z -]*?) +([$€£]?[0-9][^:]*)$")
_KEY_WORD = re.compile(r"^\s*(?:- +)?([A-Za-z][\w-]*) +([^\s:][^:]*)$")
# A longer line is no key with its value, and is not written again.
LONGEST_LINE = 60
_GLUED_WORD = re.compile(r"[A-Za-z][\w-]*:(?!//)(?=\S)")

Spot = tuple[int, int]
Explanation = tuple[Spot, str, str]
Rule = Callable[[Source, Spot, Spot], Explanation]


def space_after_colon(text: str) -> str:
    """Write a text again with the space that its first glued colon lacks.

    >>> space_after_colon("  price:13.60/kg")
    'put a space after the colon ("price: 13.60/kg"), or quotes around a text'
    """
    text = text.strip().removeprefix("- ").strip()
    found = _GLUED_WORD.search(text) or _ANY_COLON.search(text)
    end = text.index(":", found.start()) + 1 if found else len(text)
    spaced = f' ("{short(f"{text[:end]} {text[end:]}")}")' if found else ""
    return tr("put a space after the colon{spaced}, or quotes around a text", spaced=spaced)


def with_colon(text: str) -> str:
    """A key and a value, parted by a space alone, with their colon; empty where no two words are.

    The key ends before the first number, else with its first word.

    >>> with_colon("  species beef"), with_colon("- hands on 40 min"), with_colon("beef")
    ('species: beef', 'hands on: 40 min', '')
    """
    found = _KEY_NUMBER.match(text) or _KEY_WORD.match(text)
    return f"{found[1]}: {found[2].strip()}" if found and len(text) <= LONGEST_LINE else ""


def refuse_syntax(source: Source, error: yaml.MarkedYAMLError) -> None:
    """Add the parser's complaint to `source` at the place to mend, in a cook's words."""
    spot = _spot(error.problem_mark) or _spot(error.context_mark) or (1, 1)
    began = _spot(error.context_mark) or spot
    complaint = f"{error.context or ''}: {error.problem or ''}"
    (line, column), message, hint = _explain(source, complaint, spot, began)
    line = min(line, len(source.lines))
    reported = {problem.place.line for problem in source.problems}
    if line in reported or _above(source, line) in reported:
        return  # the same slip, said already
    source.refuse_showing(line, min(column, len(source.line(line)) + 1), message, hint)


def without_value(source: Source, key: Text, above: Text | None) -> tuple[Place, str, str] | None:
    """Why a key has no value, where a slip beside it tells; `above` is the value before it.

    A comma for a decimal point ends a value, a colon without a space ends no key, and a
    "#" after a space begins a comment.
    """
    line, end = source.line(key.line), key.column - 1 + len(key)
    if line[key.column - 1 : end] != key:
        return None  # in quotes, or an alias: meant as it is written
    if _ANY_COLON.search(key):
        return (
            key.place,
            tr('"{short}" reads as a key without a value', short=short(key)),
            space_after_colon(key),
        )
    rest = line[end:].lstrip()
    if rest.startswith(":"):
        return _commented(key, line, rest)
    if groups := _groups_at(line, key):
        return _grouped(key, groups) if groups.start("rest") == key.column - 2 else None
    if (
        above
        and key[:1].isdigit()
        and _DIGIT_COMMA.search(line[max(0, key.column - 3) : key.column - 1])
    ):
        message = tr(
            '"{short}" has a comma, which ends the value here', short=short(f"{above},{key}")
        )
        return above.place, message, tr("write {with_point}", with_point=_with_point(above, key))
    if above and " " in above.strip():
        quoted = f'"{short(f"{above}, {key}")}"'
        message = tr('"{short}" has no colon, and a comma parts two keys here', short=short(key))
        return key.place, message, tr("put words with a comma in quotes: {quoted}", quoted=quoted)
    message = tr('"{short}" has no colon', short=short(key))
    written = with_colon(key)
    return key.place, message, tr("write {written}", written=written or tr('"key: value"'))


def goes_on_a_number(source: Source, key: Text) -> bool:
    """Whether a key is no key, but a group of thousands of a number with commas."""
    return _groups_at(source.line(key.line), key) is not None


def _groups_at(line: str, key: Text) -> re.Match[str] | None:
    if not key[:3].isdigit():
        return None
    # No further than a number is long, so that a line of nothing but keys takes linear time.
    at = key.column - 1
    inside = _GROUPS.finditer(line, max(0, at - _LONGEST), at + _LONGEST)
    return next((f for f in inside if f.start("rest") < at < f.end("rest")), None)


def _grouped(key: Text, groups: re.Match[str]) -> tuple[Place, str, str]:
    written = groups[0].strip()
    message = tr('"{short}" has a comma, which ends the value here', short=short(written))
    place = Place(key.file, key.line, groups.start() + 1)
    return place, message, tr("write {with_point}", with_point=written.replace(",", ""))


def _commented(key: Text, line: str, rest: str) -> tuple[Place, str, str] | None:
    if not re.match(r":\s+#[^\s#]", rest):
        return None
    place = Place(key.file, key.line, line.index("#", len(line) - len(rest)) + 1)
    return place, tr('a "#" after a space begins a comment, so nothing is written'), tr(_QUOTES)


def _with_point(whole: str, decimals: str) -> str:
    if re.match(r"[0-9]{3}(?![0-9])", decimals):
        return tr(
            "{whole}{decimals} for thousands or {whole}.{decimals} for decimals",
            whole=whole,
            decimals=decimals,
        )
    return f"{whole.replace('.', '')}.{decimals}"


def _spot(mark: yaml.Mark | None) -> Spot | None:
    return (mark.line + 1, mark.column + 1) if mark else None


def _explain(source: Source, complaint: str, spot: Spot, began: Spot) -> Explanation:
    """The first rule whose words are in the complaint; odd indentation comes first."""
    if found := _odd_indent(source, spot[0]) or _odd_indent(source, began[0]):
        return found
    for words, rule in _RULES:
        if words in complaint:
            return rule(source, spot, began)
    return (
        spot,
        tr("this cannot be read: {complaint}", complaint=complaint.strip(": ")),
        tr(_QUOTES),
    )


def _odd_indent(source: Source, line: int) -> Explanation | None:
    """A tab, or a space that is not the ordinary one, before the first character."""
    for column, character in enumerate(_INDENT.findall(source.line(line))[0], 1):
        if character == "\t":
            return (line, column), tr("a tab indents this line"), tr("use spaces to indent")
        if character != " ":
            return (
                (line, column),
                tr("U+{ord:04X} indents this line", ord=ord(character)),
                "use plain spaces",
            )
    return _look_alike(source, line)


def _look_alike(source: Source, line: int) -> Explanation | None:
    """A character that looks like the plain one which would have been understood."""
    text = source.line(line)
    if found := _ODD_DASH.match(text):
        at = text[found.end() - 2]
        return (
            (line, found.end() - 1),
            tr('"{at}" is no plain hyphen', at=at),
            tr('begin an entry with "- "'),
        )
    if found := _ODD_COLON.match(text):
        which = "odd" if found["odd"] else "space"
        name, hint = f"U+{ord(found[which]):04X}", tr('write a plain ": "')
        if which == "odd":
            return (
                (line, found.start(which) + 1),
                tr("this colon is {name}, not the plain one", name=name),
                hint,
            )
        return (
            (line, found.start(which) + 1),
            tr("{name} follows this colon, no plain space", name=name),
            hint,
        )
    return None


def _glued(source: Source, line: int, colon: re.Match[str]) -> Explanation:
    hint = space_after_colon(source.line(line))
    return (line, colon.end()), tr("no space after this colon"), hint


def _second_colon(source: Source, spot: Spot, _: Spot) -> Explanation:
    line, column = spot
    if found := _KEY.match(source.line(line)[: column - 1]):
        key, value = found[0].strip(), source.line(line)[found.end() :].strip()
        quoted = value if '"' in value else f'"{short(value)}"'
        return spot, tr("a second colon in one value"), f"{tr(_QUOTES)} ({key} {quoted})"
    above = _above(source, line)
    if glued := _GLUED_COLON.match(source.line(above)):
        return _glued(source, above, glued)
    if above and _HAS_VALUE.match(source.line(above)):
        message = tr(
            "this line is indented under line {above}, which has a value of its own", above=above
        )
        return (line, _first(source, line)), message, tr(_LINE_UP)
    return _lacks_colon(source, above or line)


def _no_colon(source: Source, _: Spot, began: Spot) -> Explanation:
    line = began[0]
    if glued := _GLUED_COLON.match(source.line(line)):
        return _glued(source, line, glued)
    if glued := _GLUED_DASH.match(source.line(line)):
        return (line, glued.end()), _NO_DASH_SPACE, _DASH_SPACE
    return _lacks_colon(source, line)


def _lacks_colon(source: Source, line: int) -> Explanation:
    written = with_colon(source.line(line))
    hint = tr("write {written}", written=written) if written else ""
    return (
        (line, _first(source, line)),
        tr(_NO_COLON),
        clauses((tr(_ADD_COLON), hint)),
    )


def _no_entry(source: Source, spot: Spot, _: Spot) -> Explanation:
    if glued := _GLUED_DASH.match(source.line(spot[0])):
        return (spot[0], glued.end()), _NO_DASH_SPACE, _DASH_SPACE
    return spot, tr("this line is not part of the list above"), tr(_LINE_UP)


def _no_key(source: Source, spot: Spot, began: Spot) -> Explanation:
    line, column = spot
    text = source.line(line)
    before, at = text[: column - 1].rstrip(), text[column - 1 : column]
    if at and at in "]}":
        return spot, tr('this "{at}" closes nothing', at=at), tr("delete it, or open it before")
    if at == ":":
        return spot, tr("a key is missing before this colon"), tr('write "key: value"')
    if before and before[-1] in "\"'":
        return _after_quote(source, spot, began, before[-1])
    if glued := _GLUED_COLON.match(text):
        return _glued(source, line, glued)
    return spot, tr("this line's indentation fits no line above"), tr(_LINE_UP)


def _after_quote(source: Source, spot: Spot, began: Spot, quote: str) -> Explanation:
    """Text after a closing quote: often the quote that an earlier line left open."""
    for line in range(spot[0] - 1, began[0] - 1, -1):
        found = _OPEN_QUOTE.search(source.line(line))
        if found and found.group().endswith(quote):
            return (
                (line, found.end()),
                tr("this quote is never closed"),
                tr("add {quote} at its end", quote=quote),
            )
    twice = "" if quote == '"' else tr("; inside it write an apostrophe twice ('')")
    return spot, tr("text follows a closing quote"), tr(_QUOTES) + twice


def _open_quote(source: Source, _: Spot, began: Spot) -> Explanation:
    quote = source.line(began[0])[began[1] - 1 : began[1]]
    return began, tr("this quote is never closed"), tr("add {quote} at its end", quote=quote)


def _open_bracket(source: Source, spot: Spot, began: Spot) -> Explanation:
    opened = source.line(began[0])[began[1] - 1 : began[1]]
    closed = {"{": "}", "[": "]"}.get(opened, opened)
    message = tr('this "{opened}" is not closed with "{closed}"', opened=opened, closed=closed)
    return (
        began,
        message,
        tr('a comma or "{closed}" is missing before {where}', closed=closed, where=_where(spot)),
    )


def _bad_start(source: Source, spot: Spot, _: Spot) -> Explanation:
    at = source.line(spot[0])[spot[1] - 1 : spot[1]]
    if at == ":":
        return spot, tr("a key is missing before this colon"), tr('write "key: value"')
    if not at:
        return spot, tr("the file ends too early"), tr("close the bracket that is still open")
    name = "a tab" if at == "\t" else f'"{at}"'
    return spot, tr("a value cannot start with {name}", name=name), tr(_QUOTES)


def _inline_list(_: Source, spot: Spot, __: Spot) -> Explanation:
    hint = tr("begin the list on the next line, or write [a, b]")
    return spot, tr('a list cannot begin after a key with "- "'), hint


def _too_deep(source: Source, spot: Spot, _: Spot) -> Explanation:
    return spot, too_deep(source.limits.depth), ""


def _fixed(message: str, hint: str, at_start: bool = False) -> Rule:
    """A rule that says the same wherever it happens."""
    return lambda _, spot, began: (began if at_start else spot, message, hint)


def _above(source: Source, line: int) -> int:
    """The nearest line above that says something, or 0."""
    said = (n for n in range(line - 1, 0, -1) if source.line(n).strip()[:1] not in ("", "#"))
    return next(said, 0)


def _first(source: Source, line: int) -> int:
    return len(_INDENT.findall(source.line(line))[0]) + 1


def _where(spot: Spot) -> str:
    return tr("line {spot}, column {spot2}", spot=spot[0], spot2=spot[1])


_BACKSLASH = Deferred("a backslash in double quotes means something else in YAML")
_SIGN = Deferred('a value that starts with "{}" means something else in YAML')
STARTS_WITH_AND = _SIGN.format("&")

# Words of the parser (the C one and the Python one differ a little) and what to say.
_RULES: list[tuple[str, Rule]] = [
    ("maximum nesting depth", _too_deep),
    ("mapping values are not allowed", _second_colon),
    ("could not find expected ':'", _no_colon),
    ("unexpected end of stream", _open_quote),
    ("did not find expected key", _no_key),
    ("did not find expected ',' or", _open_bracket),
    ("expected ',' or", _open_bracket),
    ("expected <block end>", _no_key),
    ("cannot start any token", _bad_start),
    ("did not find expected node content", _bad_start),
    ("expected the node content", _bad_start),
    ("sequence entries are not allowed", _inline_list),
    ("expected '-' indicator", _no_entry),
    ("escape", _fixed(_BACKSLASH, "use single quotes")),
    ("hexdecimal", _fixed(_BACKSLASH, "use single quotes")),
    ("block scalar", _fixed('after "|" or ">" the line must end', _QUOTES)),
    ("scanning an anchor", _fixed(STARTS_WITH_AND, _QUOTES, at_start=True)),
    ("scanning an alias", _fixed(_SIGN.format("*"), _QUOTES, at_start=True)),
    ("a tag", _fixed(_SIGN.format("!"), _QUOTES, at_start=True)),
    ("tag handle", _fixed(_SIGN.format("!"), _QUOTES, at_start=True)),
    ("directive", _fixed("a % line before the content is not used here", "delete it")),
    ("document start", _fixed("a second document begins here", "one record a file")),
]
