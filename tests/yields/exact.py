"""A second chain of weights in exact fractions, knowing nothing of the first.

Random chains are drawn in whole grams, cents and per cent, written as YAML for
the builder, and worked out here by textbook arithmetic on `fractions.Fraction`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from hypothesis import strategies as st

Parts = Mapping[str, tuple[int, int]]
"""By-products by name: grams (or per cent) and worth in cents a kilogram."""

NAMES = ("bones", "fat", "grind")


def money(cents: int) -> str:
    return f"{cents // 100}.{cents % 100:02d}"


def _listed(parts: Parts, unit: str) -> str:
    inner = (f"{name}: [{much} {unit}, {money(worth)}/kg]" for name, (much, worth) in parts.items())
    return "{" + ", ".join(inner) + "}"


@dataclass(frozen=True)
class Weighing:
    """One test: grams in, out and kept."""

    into: int
    out: int
    parts: Parts

    def yaml(self) -> str:
        parts = _listed(self.parts, "g")
        return f"{{date: 2026-09-01, in: {self.into} g, out: {self.out} g, parts: {parts}}}"


@dataclass(frozen=True)
class ExactStage:
    """A stage by its tests, or without any by a stated loss and stated parts [per cent]."""

    tests: tuple[Weighing, ...]
    loss: int = 0
    stated: Parts = ()  # type: ignore[assignment]

    def entries(self) -> list[str]:
        """The keys of the stage, one text each."""
        if self.tests:
            return ["tests: [" + ", ".join(test.yaml() for test in self.tests) + "]"]
        return [f"loss: {self.loss} %", f"parts: {_listed(dict(self.stated), '%')}"]

    @property
    def yield_(self) -> Fraction:
        if not self.tests:
            return 1 - Fraction(self.loss, 100)
        return Fraction(sum(t.out for t in self.tests), sum(t.into for t in self.tests))

    @property
    def kept(self) -> Fraction:
        """By-products for each unit of weight in."""
        if not self.tests:
            return sum((Fraction(p, 100) for p, _ in dict(self.stated).values()), Fraction(0))
        weighed = sum(grams for test in self.tests for grams, _ in test.parts.values())
        return Fraction(weighed, sum(test.into for test in self.tests))

    @property
    def credit(self) -> Fraction:
        """Cents for each kilogram in."""
        if not self.tests:
            return sum((Fraction(p, 100) * w for p, w in dict(self.stated).values()), Fraction(0))
        worth = sum(grams * cents for test in self.tests for grams, cents in test.parts.values())
        return Fraction(worth, sum(test.into for test in self.tests))


@dataclass(frozen=True)
class ExactChain:
    """One batch: a cut with its stages, a cook, what comes after, and a portion."""

    price: int
    load: int
    piece: int | None
    before: Mapping[str, ExactStage]
    cook: ExactStage
    after: Mapping[str, ExactStage]
    portion: int
    remainder: int = 0

    def files(self, name: str = "shank") -> dict[str, str]:
        """The chain as a cut, a cook and a plate of one name."""
        cut = ["species: beef", f"price: {money(self.price)}/kg", *_stages(self.before)]
        cook = [
            f"cut: {name}",
            "how: braise",
            f"load: {self.load} g",
            f"remainder: {money(self.remainder)}/kg",
            *([f"piece: {{weight: {self.piece} g}}"] if self.piece else []),
            *self.cook.entries(),
            *_stages(self.after),
        ]
        plate = ["menu: mains", f"cook: {name}", f"portion: {self.portion} g", "price: 30.00"]
        return {
            f"cuts/{name}.yaml": "\n".join(cut) + "\n",
            f"cooks/{name}.yaml": "\n".join(cook) + "\n",
            f"plates/{name}.yaml": "\n".join(plate) + "\n",
        }

    @property
    def stages(self) -> list[ExactStage]:
        return [*self.before.values(), self.cook, *self.after.values()]

    @property
    def ap_weight(self) -> Fraction:
        """Grams to buy."""
        weight = Fraction(self.load)
        for stage in self.before.values():
            weight /= stage.yield_
        return weight

    def _flow(self, of: Callable[[ExactStage], Fraction]) -> Fraction:
        """Grams into each stage times something of the stage, all stages together."""
        weight, total = self.ap_weight, Fraction(0)
        for stage in self.stages:
            total += weight * of(stage)
            weight *= stage.yield_
        return total

    @property
    def servable(self) -> Fraction:
        return self.ap_weight - self._flow(lambda stage: 1 - stage.yield_)

    @property
    def byproducts(self) -> Fraction:
        return self._flow(lambda stage: stage.kept)

    @property
    def ap_cost(self) -> Fraction:
        """Cents, as are all sums of money here."""
        return self.ap_weight * self.price / 1000

    @property
    def credits(self) -> Fraction:
        return self._flow(lambda stage: stage.credit) / 1000

    @property
    def per_kg(self) -> Fraction:
        return (self.ap_cost - self.credits) / self.servable * 1000

    @property
    def pieces(self) -> Fraction:
        """Pieces in the load, whole where a tenth off or less; only where a piece is weighed."""
        assert self.piece is not None
        held = Fraction(self.load, self.piece)
        nearest = Fraction(max(floor(held + Fraction(1, 2)), 1))
        return nearest if abs(held - nearest) <= Fraction(1, 10) else held

    @property
    def whole_portions(self) -> Fraction:
        return self.pieces * floor(self.servable / self.pieces / self.portion)

    @property
    def portion_cost_whole(self) -> Fraction:
        left = self.servable - self.whole_portions * self.portion
        return (self.ap_cost - self.credits - left * self.remainder / 1000) / self.whole_portions


def _stages(stages: Mapping[str, ExactStage]) -> list[str]:
    return [f"{name}: {{{', '.join(stage.entries())}}}" for name, stage in stages.items()]


CENTS = st.integers(0, 2500)


@st.composite
def weighings(draw: st.DrawFn) -> Weighing:
    """A test that balances, with up to three by-products out of what does not go on."""
    into = draw(st.integers(2000, 20000))
    out = into * draw(st.integers(550, 1000)) // 1000
    left, parts = into - out, {}
    for name in draw(st.lists(st.sampled_from(NAMES), unique=True)):
        grams = draw(st.integers(0, left))
        left -= grams
        parts[name] = (grams, draw(CENTS))
    return Weighing(into, out, parts)


@st.composite
def stated_stages(draw: st.DrawFn) -> ExactStage:
    """A stage without a test."""
    loss = draw(st.integers(0, 40))
    left, parts = loss, {}
    for name in draw(st.lists(st.sampled_from(NAMES), unique=True)):
        share = draw(st.integers(0, left))
        left -= share
        parts[name] = (share, draw(CENTS))
    return ExactStage((), loss, parts)


def stages() -> st.SearchStrategy[ExactStage]:
    tested = st.lists(weighings(), min_size=1, max_size=3).map(lambda t: ExactStage(tuple(t)))
    return st.one_of(tested, stated_stages())


def _some(names: tuple[str, ...]) -> st.SearchStrategy[dict[str, ExactStage]]:
    """Some of the named stages, in the order of the chain."""
    drawn = st.fixed_dictionaries({}, optional=dict.fromkeys(names, stages()))
    return drawn.map(lambda found: {name: found[name] for name in names if name in found})


@st.composite
def chains(draw: st.DrawFn) -> ExactChain:
    """A batch of 4 to 30 kg whose pieces give at least one portion each."""
    load = draw(st.integers(4000, 30000))
    return ExactChain(
        price=draw(st.integers(100, 9900)),
        load=load,
        piece=draw(st.none() | st.integers(2000, load)),
        before=draw(_some(("purge", "trim", "portion cut"))),
        cook=draw(stages()),
        after=draw(_some(("finish", "rest", "carve"))),
        portion=draw(st.integers(60, 250)),
        remainder=draw(CENTS),
    )
