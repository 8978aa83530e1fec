"""Kitchens of made-up values that a cook would find usual, as varied as kitchens are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from random import Random

# Losses, times and sizes of cooks: how, hours, thickness [mm], weight [kg], loss [%], °C.
WAYS = {
    "bath, long": ("water bath", (12, 72), (40, 95), (0.9, 2.8), (14, 35), (55, 75)),
    "bath, short": ("water bath", (0.5, 2.5), (15, 35), (0.12, 0.4), (4, 14), (48, 66)),
    "grill": ("grill", (0.08, 0.5), (15, 45), (0.12, 0.9), (10, 28), (220, 300)),
    "pan": ("pan", (0.05, 0.4), (10, 40), (0.1, 0.4), (8, 28), (180, 240)),
    "braise": ("braise", (1.5, 7), (40, 100), (0.6, 3), (25, 45), (120, 165)),
    "oven": ("oven", (0.4, 6), (45, 120), (0.5, 3.5), (12, 32), (110, 220)),
}
CUTS = {"beef": (7, 48), "pork": (4.5, 16), "lamb": (9, 45), "poultry": (4, 26)}
SIDES = {"mash": (100, 240), "greens": (60, 130), "sauce": (30, 90), "pickle": (12, 40)}


@dataclass
class Maker:
    """Writes one kitchen; all that is left to chance comes from `random`."""

    random: Random
    customary: bool
    scale: float

    def between(self, low: float, high: float) -> float:
        return self.random.uniform(low, high)

    def money(self, low: float, high: float) -> str:
        return f"{self.between(low, high) * self.scale:.2f}"

    def per_weight(self, amount: float) -> str:
        amount *= self.scale
        return f"{amount / 2.2046:.2f}/lb" if self.customary else f"{amount:.2f}/kg"

    def weight(self, kg: float) -> str:
        if not self.customary:
            return f"{kg:.2f} kg" if kg > 0.9 else f"{kg * 1000:.0f} g"
        return f"{kg * 2.20462:.2f} lb" if kg > 0.5 else f"{kg * 35.274:.1f} oz"

    def thick(self, mm: float) -> str:
        return f"{mm / 25.4:.2f} in" if self.customary else f"{mm:.0f} mm"

    def hot(self, celsius: float) -> str:
        return f"{celsius * 1.8 + 32:.0f} °F" if self.customary else f"{celsius:.0f} °C"

    def time(self, hours: float) -> str:
        return f"{hours:.0f} h" if hours > 3 else f"{hours * 60:.0f} min"

    def tests(self, kg: float, loss: float, worth: float) -> str:
        """Four weighings, each with a by-product that is a good part of the loss."""
        lines = []
        for month in range(4, 8):
            into = kg * self.between(0.85, 1.15)
            out = into * (1 - loss * self.between(0.85, 1.15) / 100)
            part = f"fat: [{self.weight((into - out) * 0.4)}, {self.per_weight(worth)}]"
            weights = f"in: {self.weight(into)}, out: {self.weight(out)}, parts: {{{part}}}"
            lines.append(f"  - {{date: 2026-0{month}-09, {weights}}}\n")
        return "tests:\n" + "".join(lines)

    def kitchen(self) -> str:
        units = "us customary" if self.customary else "metric"
        # What an hour costs is known of some currencies; a scaled one is none of them.
        currency = "USD" if self.scale == 1 else "XTS"
        most = 12 if currency == "USD" else 21
        return (
            f"name: Made up\ncurrency: {currency}\nunits: {units}\nas of: 2026-10-01\n"
            f"tax: {self.between(4, most):.1f} %\nloaded wage: {self.money(19, 30)}/h\n"
            f"energy: {self.money(0.1, 0.35)}/kWh\nplanning horizon: 3 months\n"
            "give or take: {loaded wage: 2 %, energy: 40 %, portion: 3 g, hands on: 50 %}\n"
        )

    def cut(self, species: str) -> tuple[str, float]:
        price = self.between(*CUTS[species])
        loss = self.between(3, 32)
        text = f"species: {species}\nprice: {self.per_weight(price)}\n"
        if self.random.random() < 0.5:
            give = "give or take: {price: 25 %}"
            return f"{text}trim: {{loss: {loss:.0f} %, give or take: 4 %}}\n{give}\n", price
        rows = self.tests(self.between(2, 14), loss, min(0.15 * price, self.between(0.8, 2.2)))
        return f"{text}trim:\n  {rows.replace(chr(10), chr(10) + '  ').rstrip()}\n", price

    def cook(self, cut: str) -> str:
        # One cut is cooked long in the bath or briefly: a brief one beside long ones may be a slip.
        left_out = "bath, short" if cut[-1] in "02468" else "bath, long"
        ways = [way for name, way in WAYS.items() if name != left_out]
        how, hours, thick, weight, loss, at = self.random.choice(ways)
        pieces, each = self.random.randint(3, 8), self.between(*weight)
        # Nobody fills a pan with less than a kilogram.
        pieces = max(pieces, ceil(1 / each))
        # A piece is no thicker than a cube of its weight and no sheet.
        edge = (each / 1060) ** (1 / 3) * 1000
        mm = min(max(self.between(*thick), 0.25 * edge), 0.95 * edge)
        spent = max(self.between(*hours), 0.25 * (mm / 2) ** 2 * 1e-6 / (0.14e-6 * 3600))
        share = self.between(*loss)
        text = (
            f"cut: {cut}\nhow: {how}\nat: {self.hot(self.between(*at))}\nfor: {self.time(spent)}\n"
            f"form: intact\npiece: {{thickness: {self.thick(mm)}, weight: {self.weight(each)}}}\n"
            f"load: {self.weight(pieces * each)}\nhands-on: {self.between(10, 75):.0f} min\n"
            f"carve: {{loss: {self.between(1, 3):.1f} %}}\n"
        )
        if self.random.random() < 0.5:
            return f"{text}loss: {share:.0f} %\n"
        return text + self.tests(pieces * each, share, self.between(0.3, 0.9))

    def plate(self, cook: str, dear: float) -> str:
        sold = self.between(40, 420)
        months = ", ".join(f"2026-0{m}: {sold * self.between(0.6, 1.5):.0f}" for m in range(5, 10))
        sides = self.random.sample(list(SIDES), 2)
        amounts = {side: self.weight(self.between(*SIDES[side]) / 1000) for side in sides}
        served = ", ".join(f"{side}: {amount}" for side, amount in amounts.items())
        return (
            f"menu: mains\ncook: {cook}\nportion: {self.weight(self.between(0.09, 0.38))}\n"
            f"with: {{{served}}}\nprice: {self.money(16 + dear * 0.4, 26 + dear * 0.7)}\n"
            f"hands-on: {self.between(1, 7):.0f} min\nsold: {{{months}}}\n"
            f"forecast: {max(sold / 4.35 * self.between(0.6, 1.6), 5):.0f}\n"
            "give or take: {portion: 8 %, hands on: 2 min, count: 50 %}\n"
        )

    def prices(self, cuts: Mapping[str, float]) -> str:
        """A list of six days, in which the price moves as the seasons do."""
        rows = "".join(
            f"2026-0{month}-01,{cut},{self.per_weight(price * self.between(0.75, 1.3))}\n"
            for cut, price in cuts.items()
            for month in range(3, 9)
        )
        return f"date,item,price\n{rows}"


def made_up(seed: int) -> dict[str, str]:
    """The files of one kitchen; each currency amount is scaled alike."""
    random = Random(seed)
    maker = Maker(random, random.random() < 0.5, random.choice([1.0, 0.4, 9.0, 140.0]))
    files = {"kitchen.yaml": maker.kitchen()}
    for side in SIDES:
        files[f"pantry/{side}.yaml"] = f"price: {maker.per_weight(maker.between(2, 14))}\n"
    prices: dict[str, float] = {}
    for number in range(random.randint(3, 14)):
        cut = f"cut-{number}"
        files[f"cuts/{cut}.yaml"], prices[cut] = maker.cut(random.choice(list(CUTS)))
        for each in range(random.randint(1, 3)):
            cook = f"cook-{number}-{each}"
            files[f"cooks/{cook}.yaml"] = maker.cook(cut)
            files[f"plates/plate-{number}-{each}.yaml"] = maker.plate(cook, prices[cut])
    files["prices/list.csv"] = maker.prices(prices)
    return files
