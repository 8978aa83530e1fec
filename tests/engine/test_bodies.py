"""Every formula of the model is plain arithmetic that another language could say as well."""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Iterator

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine import arith
from builder.engine.tables import Body, FigureDef, Formula, Given, in_words
from builder.engine.wording import formula_text, how_it_is_made

HELPERS = {
    name
    for name, value in vars(arith).items()
    if inspect.isfunction(value) and value.__module__ == arith.__name__
}
# The one statistical function among the formulas; a page would need it as a table.
EXEMPT = {"t_975"}
SIGNS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.BitAnd, ast.BitOr)
ORDERS = (ast.Gt, ast.GtE, ast.Lt, ast.LtE)
DEFINITIONS = [MODEL.definition(node) for node in MODEL.needs]
BODIES = {d.how.body: f"{d.table}.{d.name}" for d in DEFINITIONS if isinstance(d.how, Formula)}


def function_of(body: Body) -> ast.FunctionDef:
    [function] = ast.parse(textwrap.dedent(inspect.getsource(body))).body
    assert isinstance(function, ast.FunctionDef)
    return function


def is_docstring(statement: ast.stmt) -> bool:
    return isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)


def strangers(node: ast.expr, names: set[str]) -> Iterator[str]:
    """Whatever in an expression is neither arithmetic nor a known name."""
    match node:
        case ast.Name(id=name):
            inner: list[ast.expr] = []
            if name not in names:
                yield f"the name {name}"
        case ast.Constant(value=int() | float()):
            inner = []
        case ast.BinOp(left=left, op=op, right=right) if isinstance(op, SIGNS):
            inner = [left, right]
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=2 | 0.5)):
            inner = [left]
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            inner = [operand]
        case ast.Compare(left=left, ops=[op], comparators=[right]) if isinstance(op, ORDERS):
            inner = [left, right]
        case ast.Call(func=ast.Name(id="float"), args=[ast.Constant(value="nan")], keywords=[]):
            inner = []
        case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]):
            inner = arguments
            if name not in HELPERS | EXEMPT | {"abs"}:
                yield f"a call of {name}"
        case _:
            inner = []
            yield ast.dump(node)
    for part in inner:
        yield from strangers(part, names)


@pytest.mark.parametrize("body", BODIES, ids=BODIES.values())
def test_a_body_is_one_returned_expression(body: Body) -> None:
    """Names set before the return only stand for a part of it, each set once."""
    function = function_of(body)
    statements = [s for s in function.body if not is_docstring(s)]
    names = {argument.arg for argument in function.args.args}
    assert names == set(inspect.signature(body).parameters)
    *before, last = statements
    for statement in before:
        assert isinstance(statement, ast.Assign)
        [target] = statement.targets
        assert isinstance(target, ast.Name)
        assert target.id not in names
        assert list(strangers(statement.value, names)) == []
        names.add(target.id)
    assert isinstance(last, ast.Return)
    assert last.value is not None
    assert list(strangers(last.value, names)) == []


def test_a_stranger_would_be_noticed() -> None:
    for text in ("x ** 3", "x[0]", "np.sin(x)", "x if y else z", "whole(x, y=1)", "x < y < z"):
        node = ast.parse(text, mode="eval").body
        assert list(strangers(node, {"x", "y", "z", "np"})), text


@pytest.mark.parametrize("body", BODIES, ids=BODIES.values())
def test_a_body_treats_rows_and_draws_alike(body: Body) -> None:
    """A column with draws gives for each draw what that draw alone gives: nothing is mixed."""
    rng = np.random.default_rng(20261001)
    needs = len(inspect.signature(body).parameters)
    columns = [rng.uniform(0.5, 3.0, size=(3, 4)) for _ in range(needs)]
    with np.errstate(all="ignore"):
        together = np.asarray(body(*columns), dtype=float)
        for row in range(3):
            for draw in range(4):
                alone = body(*(c[row : row + 1, draw : draw + 1] for c in columns))
                np.testing.assert_allclose(together[row, draw], np.ravel(alone)[0], rtol=1e-14)


@pytest.mark.parametrize("body", BODIES, ids=BODIES.values())
def test_a_formula_in_words_names_all_that_it_needs(body: Body) -> None:
    words = formula_text(body)
    for need in inspect.signature(body).parameters:
        assert in_words(need) in words


@pytest.mark.parametrize("definition", DEFINITIONS, ids=lambda d: f"{d.table}.{d.name}")
def test_every_figure_says_what_it_is_and_how_it_is_made(definition: FigureDef) -> None:
    assert definition.about
    assert definition.unit
    assert how_it_is_made(definition)
    if isinstance(definition.how, Formula):
        assert definition.how.source
    if isinstance(definition.how, Given) and definition.how.default is not None:
        assert definition.how.reason


WORDED = [
    ("plate", "food_cost_share", "food cost ÷ price ex tax"),
    ("stage", "loss_share", "1 − stage yield − byproduct share"),
    ("test", "squared_residual", "(weight out − pooled yield × weight in)²"),
    (
        "stage",
        "yield_standard_error",
        "if tests count > 1: √(tests count ÷ (tests count − 1) × residuals) ÷ tested in, "
        "else not known",
    ),
    ("order", "quantity_to_buy", "covers × portion ÷ overall yield"),
    (
        "plate",
        "seasoning_cost",
        "if seasoning share > 0: seasoning share × "
        "(protein cost + further food + food in the sides + garnish cost), else 0",
    ),
    ("step", "cost_per_kg_out",
     "(AP cost − credits before − step credit) ÷ step weight out"),
    ("plate", "portions_per_piece",
     "1 ÷ portion pieces, else whole part of (servable weight ÷ pieces ÷ portion)"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "name", "words"), WORDED)
def test_words_keep_the_brackets_that_matter(table: str, name: str, words: str) -> None:
    assert how_it_is_made(MODEL.definition((table, name))) == words
