"""Formulas as people read them, written out from the syntax tree of their body.

There is no second copy of a formula to keep true: what the method pages and the
traces print is what is computed.
"""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from functools import cache

from builder.engine.methods import METHODS
from builder.engine.tables import (
    Applied,
    Body,
    FigureDef,
    Fold,
    Formula,
    Given,
    Lookup,
    Running,
    Total,
    in_words,
    named,
)
from builder.language import Deferred, current_words, tr

_BRACED = re.compile(r"\{(\w+)\}")
_SIGNS: dict[type[ast.operator | ast.cmpop], str] = {
    ast.Add: "+", ast.Sub: "−", ast.Mult: "×", ast.Div: "÷", ast.Gt: ">", ast.Lt: "<",
    ast.GtE: "≥", ast.LtE: "≤", ast.BitAnd: Deferred("and"), ast.BitOr: Deferred("or"),
}  # fmt: skip
_OVER_EVERY: dict[Fold, Deferred] = {
    Fold.SUM: Deferred("sum of {figure} over every {table}"),
    Fold.PRODUCT: Deferred("product of {figure} over every {table}"),
    Fold.LEAST: Deferred("smallest of {figure} over every {table}"),
    Fold.MOST: Deferred("largest of {figure} over every {table}"),
}
_OVER_BEFORE: dict[Fold, Deferred] = {
    Fold.SUM: Deferred("sum of {figure} over the stages before"),
    Fold.PRODUCT: Deferred("product of {figure} over the stages before"),
}
_STRENGTH: dict[type[ast.operator], int] = {
    ast.BitOr: 0, ast.BitAnd: 0, ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.Pow: 3,
}  # fmt: skip


def how_it_is_made(definition: FigureDef) -> str:
    """One line that says how a figure comes about.

    >>> how_it_is_made(FigureDef("plate", "food", "money", "", Total(Fold.SUM, "side", "p", "x")))
    'sum of x over every side'
    """
    match definition.how:
        case Given():
            return tr("as written")
        case Formula(body=body):
            return formula_text(body)
        case Lookup(table=table, figure=figure):
            return tr("{figure} of the {table}", figure=named(figure), table=named(table))
        case Total(fold=Fold.COUNT, table=table, figure=figure):
            return tr(
                "number of rows of {table} whose {figure} is known",
                table=named(table),
                figure=named(figure),
            )
        case Total(fold=fold, table=table, figure=figure):
            return tr(_OVER_EVERY[fold], figure=named(figure), table=named(table))
        case Running(fold=fold, figure=figure):
            return tr(_OVER_BEFORE[fold], figure=named(figure))
        case Applied(methods=methods, needs=needs):
            titles = tr("; or ").join(tr(METHODS[method].title) for method in methods)
            from_ = ", ".join(named(need) for need in needs)
            return tr("{titles}, from {figures}", titles=titles, figures=from_) if needs else titles


def formula_text(body: Body) -> str:
    """The body of a formula in words and signs.

    Names that are set inside the body are written out where they are used, so
    that one expression remains.
    """
    return _BRACED.sub(lambda name: named(name[1]), formula_template(body))


def formula_template(body: Body) -> str:
    """The body of a formula in words and signs, every figure as its name in braces."""
    return _template(body, current_words())


@cache
def _template(body: Body, _language: str) -> str:
    inside: dict[str, ast.expr] = {}
    for statement in statements(body):
        if isinstance(statement, ast.Assign) and isinstance(statement.targets[0], ast.Name):
            inside[statement.targets[0].id] = statement.value
        if isinstance(statement, ast.Return) and statement.value is not None:
            return _words(statement.value, inside)[0]
    raise ValueError(f"{body.__name__} returns nothing")


def statements(body: Body) -> list[ast.stmt]:
    """The statements of a formula's body, its docstring left out."""
    source = textwrap.dedent(inspect.getsource(body))
    tree = ast.parse(source).body[0]
    if not isinstance(tree, ast.FunctionDef):
        raise TypeError(f"{body.__name__} is no plain function")
    return [s for s in tree.body if not isinstance(s, ast.Expr)]


def _words(node: ast.expr, inside: dict[str, ast.expr]) -> tuple[str, int]:
    """An expression in words, with the strength of its outermost sign for the brackets."""
    match node:
        case ast.Name(id=name) if name in inside:
            return _words(inside[name], inside)
        case ast.Name(id=name):
            return f"{{{name}}}", 9
        case ast.Constant(value=value):
            return f"{value:g}" if isinstance(value, float) else str(value), 9
        case ast.BinOp(left=left, op=op, right=right):
            return _binary(left, op, right, inside)
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            sign = tr(_SIGNS[type(op)])
            return f"{_words(left, inside)[0]} {sign} {_words(right, inside)[0]}", 0
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return f"−{_words(operand, inside)[0]}", 3
        case ast.Call(func=ast.Name(id=name), args=arguments):
            return _call(name, [_words(argument, inside)[0] for argument in arguments])
        case _:
            raise TypeError(f"a formula can't hold {ast.dump(node)}")


def _binary(
    left: ast.expr, op: ast.operator, right: ast.expr, inside: dict[str, ast.expr]
) -> tuple[str, int]:
    strength = _STRENGTH[type(op)]
    left_text, left_strength = _words(left, inside)
    right_text, right_strength = _words(right, inside)
    if left_strength < strength:
        left_text = f"({left_text})"
    # a − (b − c) and a ÷ (b × c) keep their brackets.
    if right_strength < strength or (
        right_strength == strength and isinstance(op, ast.Sub | ast.Div)
    ):
        right_text = f"({right_text})"
    if isinstance(op, ast.Pow):
        bare, _ = _words(left, inside)
        return (f"√({bare})" if right_text == "0.5" else f"{left_text}²"), strength
    return f"{left_text} {tr(_SIGNS[type(op)])} {right_text}", strength


def _call(name: str, arguments: list[str]) -> tuple[str, int]:
    match name, arguments:
        case "either", [condition, yes, no]:
            return tr("if {condition}: {yes}, else {no}", condition=condition, yes=yes, no=no), 0
        case "or_else", [first, fallback]:
            return tr("{first}, else {fallback}", first=first, fallback=fallback), 0
        case "whole", [x]:
            return tr("whole part of ({x})", x=x), 9
        case "whole_up", [x]:
            return tr("({x}) rounded up", x=x), 9
        case "known", [x]:
            return tr("{x} is known", x=x), 9
        case "endless", [x]:
            return tr("{x} is without end", x=x), 9
        case "float", [_]:
            return tr("not known"), 9
        case (("least" | "most"), [x, y]):
            if name == "least":
                return tr("the smaller of {x} and {y}", x=x, y=y), 0
            return tr("the larger of {x} and {y}", x=x, y=y), 0
        case "abs", [x]:
            return f"|{x}|", 9
        case _:
            return f"{in_words(name)}({', '.join(arguments)})", 9
