"""What a kitchen may publish with, and is reported on the page that it concerns."""

from __future__ import annotations

from tests.records.mistakes import CHUCK, COUNT, GRILL, KITCHEN, LONG, PRICES, Mistake

STALE = """\
tests:
  - {date: 2025-08-01, in: §4 kg, out: 3.2 kg}
  - {date: 2025-09-01, in: 4 kg, out: 3.3 kg}"""

WARNINGS = [
    Mistake(
        COUNT, "closing: 3 kg", "closing: §17.5 kg",
        "chuck: 0.5 kg was used, but what was sold, thrown and kept takes", "look at the units",
    ),
    Mistake(KITCHEN, "kind: water bath", "kind: §water bth", "not computed", '"water bath"?'),
    Mistake(KITCHEN, "loaded wage: 24.50/h\n", "", "work is timed, but no wage", "24.50/h"),
    Mistake(KITCHEN, "energy: 0.14/kWh\n", "", "electricity is used, but has no tariff", "kWh"),
    Mistake(KITCHEN, "gas: 0.06/kWh\n", "", "gas is used, but has no tariff", "kWh"),
    Mistake("plates/mash.yaml", "with: {mash: 250 g}\n", "", "nothing is on this plate", "cook"),
    Mistake(LONG, "remainder: 6.00/kg", "remainder: §60.00/kg", "worth more than a servable", ""),
    Mistake(GRILL, "loss: 17 %", "tests: [{date: 2026-09-01, in: §4.5 kg, out: 3.7 kg}]",
            "cook: one test only, so no interval", "weigh it again"),
    Mistake(GRILL, "loss: 17 %", STALE, "cook: the newest test is of Sep 1, 2025", "weigh"),
    Mistake(GRILL, "loss: 17 %\n", "", "cook: nothing weighed, stated or published"),
    Mistake(
        CHUCK, "trim:\n", "trim:\n  loss: §2 %\n",
        "trim: a loss of 2 % is stated, but the tests give one of 16.4%", "correct the stated",
    ),
    Mistake(
        PRICES, "13.90/kg,West\n", "§13.90/kg,West\n2026-09-08,ribeye,42.00/kg,West\n",
        "Chuck: its supplier's list of Sep 8, 2026 is newer", "today's price",
    ),
]  # fmt: skip
