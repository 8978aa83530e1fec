"""The worked examples of sourced functions in words: what goes in = what comes out.

A docstring's examples are code. Those that call the function once with plain numbers are read
here and printed as a cook reads them; what needs more code than that stays with the tests.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from doctest import DocTestParser

from builder.display.style import NBSP, Style
from builder.engine.methods import Method
from builder.language import Deferred, tr

# How a parameter's name ends where it is of a unit, the longer endings first.
_UNITS = {"_m3": "m³", "_kg": "kg", "_min": "min", "_c": "°C", "_l": "L"}
# Tests that an example is of, by their names in the code.
_TESTS = {
    "TRIANGLE": Deferred("triangle test"),
    "DUO_TRIO": Deferred("duo-trio test"),
    "PAIRED": Deferred("paired comparison"),
}
_ROUNDED = ("round", "float", "int")


@dataclass(frozen=True, slots=True)
class Worked:
    """One example: values by the names of what goes in, the tests it is of, and its result."""

    given: tuple[tuple[str, float], ...]
    of: tuple[str, ...]
    result: float
    places: int


def worked_examples(method: Method) -> Iterator[Worked]:
    """The examples of a function that words and numbers are enough for, in the order written."""
    for example in DocTestParser().get_examples(method.doc):
        with suppress(SyntaxError, ValueError):
            call = ast.parse(example.source.strip(), mode="eval").body
            yield from _pairs(method, call, ast.parse(example.want.strip(), mode="eval").body)


def names_in(method: Method) -> Iterator[str]:
    """The words for what goes into a function's worked examples, to be translated."""
    for worked in worked_examples(method):
        yield from (_plain(name)[0] for name, _ in worked.given)


def in_sentence(style: Style, method: Method, worked: Worked) -> str:
    """An example as a page prints it, with the units that the function has.

    >>> tried = Worked((("servings", 12.0), ("to_c", 57.0)), (), 400.0, 1)
    >>> made = Method("f", "g", "", "", "", ())
    >>> in_sentence(Style.of("en_CA", "CAD"), made, tried).replace(NBSP, " ")
    'servings 12, to 57 °C = 400 g'
    """
    tests = [tr(_TESTS[name]) for name in worked.of]
    given = [*tests, *(_given(style, name, value) for name, value in worked.given)]
    result = style.numerals(worked.result, worked.places, trim=True)
    unit = "" if method.unit in ("", "1", "money") else f"{NBSP}{tr(method.unit)}"
    return tr("{given} = {result}", given=", ".join(given), result=f"{result}{unit}")


def _given(style: Style, name: str, value: float) -> str:
    words, unit = _plain(name)
    number = style.numerals(value, 6, trim=True)
    return tr("{what} {number}", what=tr(words), number=f"{number}{NBSP}{unit}" if unit else number)


def _plain(name: str) -> tuple[str, str]:
    """A parameter's name in words, and the unit that its ending says.

    >>> _plain("food_kg"), _plain("servable_yield"), _plain("d_prime")
    (('food', 'kg'), ('servable yield', ''), ('d′', ''))
    """
    ending = next((end for end in _UNITS if name.endswith(end)), "")
    words = name.removesuffix(ending).replace("_", " ")
    return words.replace("d prime", "d′"), _UNITS.get(ending, "")


def _pairs(method: Method, call: ast.expr, want: ast.expr) -> Iterator[Worked]:
    """An example of several calls in one line is as many examples."""
    if isinstance(call, ast.Tuple) and isinstance(want, ast.Tuple):
        for one, result in zip(call.elts, want.elts, strict=True):
            yield from _pairs(method, one, result)
        return
    found, result = _called(method.name, call), ast.literal_eval(want)
    if found is None or isinstance(result, bool) or not isinstance(result, int | float):
        return
    if (given := _values(method, found)) is not None:
        places = len(str(result).partition(".")[2])
        yield Worked(given, tuple(_tests(found)), float(result), places)


def _called(name: str, call: ast.expr) -> ast.Call | None:
    """The call of the function within what rounds its result or takes one part of it."""
    if isinstance(call, ast.Attribute):
        return _called(name, call.value)
    if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name):
        return None
    if call.func.id in _ROUNDED and call.args:
        return _called(name, call.args[0])
    return call if call.func.id == name else None


def _values(method: Method, call: ast.Call) -> tuple[tuple[str, float], ...] | None:
    """The numbers that go in, by name; None where something else than numbers and tests does."""
    named = [*zip(method.parameters, call.args, strict=False)]
    named += [(each.arg or "", each.value) for each in call.keywords]
    numbers = [(name, value) for name, value in named if not _is_test(value)]
    if not all(isinstance(value, ast.Constant) for _, value in numbers):
        return None
    given = [(name, ast.literal_eval(value)) for name, value in numbers]
    plain = all(isinstance(value, int | float) for _, value in given)
    return tuple((name, float(value)) for name, value in given) if plain and given else None


def _tests(call: ast.Call) -> Iterator[str]:
    yield from (each.id for each in call.args if isinstance(each, ast.Name) and _is_test(each))


def _is_test(value: ast.expr) -> bool:
    return isinstance(value, ast.Name) and value.id in _TESTS
