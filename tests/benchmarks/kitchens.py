"""Makes a kitchen of N plates, always the same for the same N."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

KITCHEN = """\
name: Benchmark kitchen
about: Made by a generator; nothing in it is real.
currency: CAD
as of: 2026-10-01
tax: 5 %
loaded wage: 24.50/h
energy: 0.14/kWh
targets: {food cost: 30 %, margin: 14.00}
sections: [starters, mains, grill]
equipment:
  bath: {kind: water bath, volume: 40 L, holds: 14 kg, cover: lid, measured standby: 0.2 kW}
"""


def generate(folder: Path, plates: int) -> None:
    """Write a kitchen: a cut for 20 plates, a cook for 4, a pantry item for 5, a swap for 100."""
    dice = random.Random(plates)
    counts = {
        "cuts": max(2, plates // 20),
        "cooks": max(2, plates // 4),
        "pantry": max(4, plates // 5),
        "plates": plates,
        "swaps": max(1, plates // 100),
    }
    for name in counts:
        (folder / name).mkdir(parents=True, exist_ok=True)
    (folder / "kitchen.yaml").write_text(KITCHEN, encoding="utf-8")
    for name, count in counts.items():
        for number in range(count):
            text = "\n".join(_RECORDS[name](number, counts, dice)) + "\n"
            (folder / name / f"{name}-{number}.yaml").write_text(text, encoding="utf-8")


def _test(dice: random.Random, weight: float, keep: float) -> str:
    weight *= dice.uniform(0.8, 1.2)
    out = weight * keep * dice.uniform(0.97, 1.03)
    part = (weight - out) * dice.uniform(0.2, 0.6)
    day = f"2026-0{dice.randint(1, 9)}-{dice.randint(10, 28)}"
    return (
        f"{{date: {day}, in: {weight:.2f} kg, out: {out:.2f} kg, "
        f"parts: {{kept: [{part:.2f} kg, {dice.uniform(0.5, 8):.2f}/kg]}}}}"
    )


def _cut(number: int, _: dict[str, int], dice: random.Random) -> Iterator[str]:
    yield f"name: Cut number {number}"
    yield f"species: {dice.choice(['beef', 'pork', 'lamb', 'poultry'])}"
    yield f"price: {dice.uniform(6, 48):.2f}/kg"
    yield f"supplier: Supplier {number % 9}"
    yield "trim:"
    yield "  tests:"
    for _test_number in range(3):
        yield f"    - {_test(dice, 8, 0.85)}"


def _cook(number: int, counts: dict[str, int], dice: random.Random) -> Iterator[str]:
    yield f"cut: cuts-{number % counts['cuts']}"
    yield "how: water bath"
    yield f"at: {dice.randint(55, 68)} °C"
    yield f"for: {dice.randint(12, 48)} h"
    yield "equipment: bath"
    yield "load: 12 kg"
    yield f"hands-on: {dice.randint(15, 50)} min"
    yield f"piece: {{shape: slab, thickness: {dice.randint(30, 90)} mm, weight: 1.5 kg}}"
    yield "tests:"
    for _test_number in range(3):
        yield f"  - {_test(dice, 7, 0.78)}"
    yield "finish: {how: sear, loss: 3 %}"


def _pantry(number: int, counts: dict[str, int], dice: random.Random) -> Iterator[str]:
    yield f"name: Pantry item {number}"
    if number < counts["pantry"] // 2:
        yield f"price: {dice.uniform(1, 20):.2f}/kg"
        return
    bought = counts["pantry"] // 2
    names = sorted({f"pantry-{dice.randrange(bought)}" for _ in range(4)})
    yield f"of: {{{', '.join(f'{name}: {dice.randint(1, 9)}00 g' for name in names)}}}"
    yield "yield: 80 %"
    yield f"hands-on: {dice.randint(5, 60)} min"


def _plate(number: int, counts: dict[str, int], dice: random.Random) -> Iterator[str]:
    yield f"name: Plate number {number}"
    yield f"menu: {dice.choice(['starters', 'mains', 'grill'])}"
    yield f"cook: cooks-{number % counts['cooks']}"
    yield f"portion: {dice.randint(15, 24)}0 g"
    sides = sorted({f"pantry-{dice.randrange(counts['pantry'])}" for _ in range(4)})
    yield f"with: {{{', '.join(f'{name}: {dice.randint(3, 20)}0 g' for name in sides)}}}"
    yield f"price: {dice.uniform(16, 52):.2f}"
    months = ", ".join(f"2026-0{month}: {dice.randint(20, 400)}" for month in (7, 8, 9))
    yield f"sold: {{{months}}}"


def _swap(number: int, counts: dict[str, int], _: random.Random) -> Iterator[str]:
    yield f"benchmark: plates-{number}"
    yield f"challengers: [plates-{(number + counts['plates'] // 2) % counts['plates']}]"


_RECORDS = {"cuts": _cut, "cooks": _cook, "pantry": _pantry, "plates": _plate, "swaps": _swap}
