"""A period that is cooked on paper in exact fractions: pieces bought, cut, sold and thrown.

It knows nothing of the builder's formulas: it buys whole pieces (or weight), cooks them at the
period's yield, cuts the period's portions, and adds up what was paid and given back.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

KITCHEN = "name: Invented\ncurrency: CAD\nportions: {}\nseasoning: {} %\n"


@dataclass(frozen=True)
class Period:
    """Grams, cents a kilogram, per cent; counts of pieces and of portions."""

    whole: bool
    price: int
    paid: int
    trim: int
    grind: int
    grind_worth: int
    piece: int
    loss: int
    loss_now: int
    portion: int
    portion_now: int
    remainder: int
    pieces: int
    thrown: int
    left: int
    raw_thrown: int
    lost: int
    seasoning: int

    def per_piece(self, loss: int, portion: int) -> int:
        return floor(self.servable(loss) / portion)

    def servable(self, loss: int) -> Fraction:
        return Fraction(self.piece * (100 - loss), 100)

    @property
    def ap_piece(self) -> Fraction:
        """Grams to buy for one piece."""
        return self.piece / (1 - Fraction(self.trim, 100))

    def portions(self, loss: int, portion: int) -> Fraction:
        """Portions that one piece gives, whole or by weight."""
        by_weight = self.servable(loss) / portion
        return Fraction(floor(by_weight)) if self.whole else by_weight

    def credits(self, loss: int, portion: int) -> Fraction:
        """Cents that one piece gives back: grind, and what is left after its whole portions."""
        grind = self.ap_piece * Fraction(self.grind, 100) * self.grind_worth / 1000
        over = self.servable(loss) - self.per_piece(loss, portion) * portion
        return grind + (over * self.remainder / 1000 if self.whole else 0)

    def cost(self, loss: int, portion: int) -> Fraction:
        """Cents a portion costs at the listed price."""
        meat = self.ap_piece * self.price / 1000
        return (meat - self.credits(loss, portion)) / self.portions(loss, portion)

    @property
    def sold(self) -> int:
        """All portions of the pieces that were cooked, but those thrown and left."""
        made = floor(self.pieces * self.portions(self.loss_now, self.portion_now))
        return made - self.thrown - self.left

    @property
    def cooked_pieces(self) -> Fraction:
        """Pieces that those portions are of."""
        made = self.sold + self.thrown + self.left
        return made / self.portions(self.loss_now, self.portion_now)

    @property
    def used(self) -> Fraction:
        """Grams as purchased: for the pieces, thrown raw, and lost without a trace."""
        return self.cooked_pieces * self.ap_piece + self.raw_thrown + self.lost

    @property
    def actual(self) -> Fraction:
        """Cents: all that was paid for what was used, less by-products and what is still there."""
        left = self.left * self.cost(self.loss_now, self.portion_now)
        given_back = self.cooked_pieces * self.credits(self.loss_now, self.portion_now)
        # Of what nobody saw go the tests' by-products are assumed.
        given_back += self.lost / self.ap_piece * self.credits(self.loss_now, self.portion_now)
        return self.used * self.paid / 1000 - given_back - left

    def files(self) -> dict[str, str]:
        """The kitchen and its count."""
        portions = self.portion_now / 1000
        made = self.cooked_pieces * self.servable(self.loss_now)
        kilos = ceil(self.used / 1000) + 1  # whole ones, so that what was paid is in cents
        closing = 1000 + 1000 * kilos - self.used
        return {
            "kitchen.yaml": KITCHEN.format("whole" if self.whole else "by weight", self.seasoning),
            "cuts/c.yaml": f"species: beef\nprice: {self.price / 100:.2f}/kg\n"
            f"trim: {{loss: {self.trim} %, parts: "
            f"{{grind: [{self.grind} %, {self.grind_worth / 100:.2f}/kg]}}}}\n",
            "cooks/k.yaml": f"cut: c\nhow: oven\nload: {self.piece} g\nloss: {self.loss} %\n"
            f"piece: {{weight: {self.piece} g}}\nremainder: {self.remainder / 100:.2f}/kg\n",
            "plates/p.yaml": f"menu: mains\ncook: k\nportion: {self.portion} g\nprice: 30.00\n",
            "counts/w.yaml": "from: 2026-09-07\nto: 2026-09-13\n"
            f"plates: {{p: {{sold: {self.sold}, weighed portions: [{portions:.3f} kg]}}}}\n"
            f"cuts: {{c: {{opening: 1 kg, bought: {kilos} kg, "
            f"paid: {kilos * self.paid / 100:.2f}, closing: {float(closing):.9f} g, "
            f"thrown: {{gone off: {self.raw_thrown} g}}}}}}\n"
            f"cooks: {{k: {{used: {float(self.cooked_pieces * self.piece):.12f} g, "
            f"made: {float(made):.12f} g, left: {self.left * self.portion_now} g, "
            f"thrown: {{dropped: {self.thrown * self.portion_now} g}}}}}}\n",
        }


@st.composite
def periods(draw: DrawFn) -> Period:
    """Periods in which at least one plate was sold, and a piece gives at least one portion."""
    loss, loss_now = draw(st.integers(0, 50)), draw(st.integers(0, 50))
    portion = draw(st.integers(80, 400))
    portion_now = draw(st.integers(max(80, portion - 40), portion + 40))
    least = max(portion, portion_now) * 100 // min(100 - loss, 100 - loss_now) + 1
    return Period(
        whole=draw(st.booleans()),
        price=draw(st.integers(300, 6000)),
        paid=draw(st.integers(300, 6000)),
        trim=draw(st.integers(0, 30)),
        grind=0,
        grind_worth=draw(st.integers(0, 900)),
        piece=draw(st.integers(least, least + 6000)),
        loss=loss,
        loss_now=loss_now,
        portion=portion,
        portion_now=portion_now,
        remainder=draw(st.integers(0, 900)),
        pieces=draw(st.integers(3, 60)),
        thrown=draw(st.integers(0, 1)),
        left=draw(st.integers(0, 1)),
        raw_thrown=draw(st.integers(0, 2000)),
        lost=draw(st.sampled_from([0, 0, 500, 3000])),
        seasoning=draw(st.integers(0, 5)),
    )
