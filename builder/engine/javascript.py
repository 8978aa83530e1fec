"""The formulas in JavaScript, written out from the syntax tree of their bodies.

Like the words of `wording.py` this is no second copy: a page computes what the builder
computes because both come from the same body. NaN is "not known" in both, comparisons
with it are false, and division by nothing is infinite.
"""

from __future__ import annotations

import ast
import json
import math
from collections.abc import Callable, Container, Iterator

from builder.engine.methods import METHODS
from builder.engine.model import Model, Node
from builder.engine.tables import (
    Applied,
    Body,
    FigureDef,
    Formula,
    Given,
    Lookup,
    Running,
    Total,
)
from builder.engine.wording import formula_template, how_it_is_made, statements
from builder.language import tr

_SIGNS: dict[type[ast.operator | ast.cmpop], str] = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Gt: ">", ast.Lt: "<",
    ast.GtE: ">=", ast.LtE: "<=", ast.BitAnd: "&&", ast.BitOr: "||",
}  # fmt: skip

# The twins of `engine/arith.py`, with the same slack for the last bits of binary arithmetic.
_CALLS = {
    "whole": "Math.floor({0}+1e-9)",
    "whole_up": "Math.ceil({0}-1e-9)+0",
    "least": "Math.min({0},{1})",
    "most": "Math.max({0},{1})",
    "either": "{0}?{1}:{2}",
    "known": "!Number.isNaN({0})",
    "endless": "Math.abs({0})===Infinity",
    "or_else": "Number.isNaN({0})?{1}:{0}",
    "abs": "Math.abs({0})",
    "float": "NaN",
}

Packed = dict[str, object]


def expression(node: ast.expr) -> str:
    """Write one expression of a formula in JavaScript, every operation in brackets.

    Raises TypeError for what a formula cannot hold.

    >>> expression(ast.parse("either(a > 0, b ** 2, float('nan'))").body[0].value)
    '((a>0)?(b*b):(NaN))'
    """
    match node:
        case ast.Name(id=name):
            return name
        case ast.Constant(value=int() | float() as value):
            return repr(value)
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=2)):
            return f"({expression(left)}*{expression(left)})"
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=0.5)):
            return f"Math.sqrt({expression(left)})"
        case ast.BinOp(left=left, op=op, right=right):
            return f"({expression(left)}{_SIGNS[type(op)]}{expression(right)})"
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            return f"({expression(left)}{_SIGNS[type(op)]}{expression(right)})"
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return f"(-{expression(operand)})"
        case ast.Call(func=ast.Name(id=name), args=arguments):
            inside = [] if name == "float" else [expression(argument) for argument in arguments]
            form = _CALLS.get(name, f"CALLS.{name}({{0}})")
            return f"({form.format(*inside)})"
        case _:
            raise TypeError(f"a formula can't hold {ast.dump(node)}")


def function(body: Body, needs: tuple[str, ...]) -> str:
    """Write a formula's body as a function of numbers."""
    lines = list(_lines(body))
    return f"({','.join(needs)})=>{{{';'.join(lines)}}}"


def _lines(body: Body) -> Iterator[str]:
    for statement in statements(body):
        match statement:
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                yield f"const {name}={expression(value)}"
            case ast.Return(value=ast.expr() as value):
                # A comparison is a number, as it is in a column.
                yield f"return +{expression(value)}"
            case _:
                raise TypeError(f"a formula can't hold {ast.dump(statement)}")


def model_script(
    model: Model, say: Callable[[str], str] = str, hidden: Container[Node] = ()
) -> str:
    """Write every table with its links and figures as one object literal.

    `say` puts the words of figures and formulas into the kitchen's own; `hidden` are left out.
    """
    tables = (
        f"{json.dumps(name)}:{{links:{_json(table.links)},figures:{{"
        + ",".join(
            f"{json.dumps(f.name)}:{_figure(model, f, say, hidden)}"
            for f in table.figures.values()
            if (f.table, f.name) not in hidden
        )
        + "}}"
        for name, table in model.tables.items()
    )
    return "{" + ",".join(tables) + "}"


def _figure(
    model: Model, definition: FigureDef, say: Callable[[str], str], hidden: Container[Node]
) -> str:
    packed: Packed = {
        "unit": definition.unit,
        "label": say(definition.label),
        "about": say(tr(definition.about)),
        **_kind(definition),
    }
    if isinstance(definition.how, Given) and not model.moves((definition.table, definition.name)):
        packed["fixed"] = True
    if definition.limit and (definition.table, definition.limit) not in hidden:
        packed["limit"] = definition.limit
    if definition.as_sure_as and (definition.table, definition.as_sure_as) not in hidden:
        packed["asSureAs"] = definition.as_sure_as
    if "words" in packed:
        packed["words"] = say(str(packed["words"]))
    text = _json(packed)
    if isinstance(how := definition.how, Formula):
        text = f"{text[:-1]},of:{function(how.body, how.needs)}}}"
    return text


def _kind(definition: FigureDef) -> Packed:
    match definition.how:
        case Given(reason=reason):
            return {"reason": tr(reason)} if reason else {}
        case Formula(needs=needs, body=body):
            return {"needs": needs, "words": formula_template(body)}
        case Lookup(link=link, table=table, figure=figure, missing=missing):
            value = missing if math.isfinite(missing) else None
            return {"lookup": (link, table, figure, value)}
        case Total(fold=fold, table=table, link=link, figure=figure):
            words = how_it_is_made(definition)
            return {"total": (fold.value, table, link, figure), "words": words}
        case Running(fold=fold, link=link, figure=figure):
            words = how_it_is_made(definition)
            return {"running": (fold.value, link, figure), "words": words}
        case Applied(methods=methods, needs=needs, follows=follows):
            titles = [tr(METHODS[method].title) for method in methods]
            words = how_it_is_made(definition)
            follow: Packed = {"follows": follows} if follows else {}
            return {"methods": titles, "needs": needs, "words": words, **follow}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
