"""A small invented kitchen that uses every table of the model at least once."""

from __future__ import annotations

from collections.abc import Mapping

SMALL: Mapping[str, str] = {
    "kitchen.yaml": """\
name: Invented kitchen
currency: CAD
units: metric
tax: 5 %
loaded wage: 24.50/h
energy: 0.14/kWh
gas: 0.06/kWh
targets: {food cost: 30 %, margin: 14.00}
seasoning: 2 %
weeks open: 50
covers: [40, 120]
equipment:
  bath: {kind: water bath, holds: 12 kg, price: 1150, service life: 6000, measured standby: 0.21 kW}
  oven: {kind: oven, holds: 20 kg, charge: 0.90/h, fuel: gas}
""",
    "cuts/chuck.yaml": """\
species: beef
price: 13.60/kg
purge: 1.5 %
trim:
  tests:
    - {date: 2026-09-03, in: 8.42 kg, out: 7.10 kg, parts: {grind: [0.74 kg, 7.90/kg]}}
    - date: 2026-09-10
      in: 9.05 kg
      out: 7.51 kg
      parts: {grind: [0.88 kg, 8.10/kg], fat: 0.31 kg}
""",
    "cuts/ribeye.yaml": """\
species: beef
price: 41.00/kg
trim: {loss: 9 %, parts: {grind: [4 %, 7.90/kg]}}
""",
    "cooks/chuck-30h.yaml": """\
cut: chuck
how: water bath
for: 30 h
equipment: bath
piece: {weight: 2.4 kg}
hands-on: 35 min
consumables: {bags: 3.20}
remainder: 6.00/kg
tests:
  - {date: 2026-09-05, in: 7.10 kg, out: 5.68 kg, parts: {juices: [0.92 kg, 0.60/kg]}}
  - {date: 2026-09-12, in: 7.51 kg, out: 5.93 kg, parts: {juices: [1.04 kg, 0.60/kg]}}
finish: 3 %
carve: {loss: 2 %, parts: {ends: [1 %, 5.00/kg]}}
steps: [{what: Bag, amounts: {chuck: 7 kg}}, Cook]
""",
    "cooks/chuck-braise.yaml": """\
cut: chuck
how: braise
for: 5 h
equipment: oven
load: 10 kg
piece: {weight: 10 kg}
hands-on: 50 min
energy: 9 kWh
cure: {gain: 4 %}
published: usda 23131
""",
    "cooks/ribeye-grill.yaml": """\
cut: ribeye
how: grill
load: 4.5 kg
piece: {weight: 4.5 kg}
hands-on: 20 min
loss: 17 %
""",
    "pantry/salt.yaml": "price: 1.10/kg\n",
    "pantry/bones.yaml": "price: 2.40/kg\nyield: 95 %\n",
    "pantry/wine.yaml": "price: 9.00/750 ml\nlitre: 990 g\n",
    "pantry/potato.yaml": "price: 1.80/kg\nyield: 82 %\n",
    "pantry/stock.yaml": """\
of: {bones: 4 kg, salt: 20 g}
makes: 5 L
litre: 1.01 kg
hands-on: 25 min
energy: 6 kWh
""",
    "pantry/sauce.yaml": """\
of: {stock: 2 L, wine: 500 ml, salt: 4 g}
makes: 900 ml
litre: 1.05 kg
hands-on: 20 min
""",
    "pantry/mash.yaml": "of: {potato: 3 kg, salt: 30 g}\nyield: 97 %\nhands-on: 30 min\n",
    "plates/chuck-steak.yaml": """\
menu: mains
cook: chuck-30h
portion: 180 g
with: {sauce: 60 ml, mash: 180 g}
price: 27.00
hands-on: 4 min
sold: {2026-08: 412, 2026-09: 388}
""",
    "plates/braise.yaml": """\
menu: mains
cook: chuck-braise
portion: 200 g
with: {mash: 200 g}
price: 24.00
sold: {2026-09: 150}
""",
    "plates/ribeye-steak.yaml": """\
menu: mains
cook: ribeye-grill
portion: 220 g
with: {sauce: 40 ml, mash: 180 g}
price: 44.00
hands-on: 3 min
sold: {2026-09: 204}
""",
    "plates/mash.yaml": "menu: sides\nwith: {mash: 250 g}\nprice: 7.00\nforecast: 60\n",
    "swaps/chuck-for-ribeye.yaml": """\
benchmark: ribeye-steak
challengers: [chuck-steak, braise]
buys: [bath]
""",
    "swaps/braise-for-chuck.yaml": """\
benchmark: chuck-steak
challengers: [braise]
forecast: 80
""",
}
