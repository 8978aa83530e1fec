"""Mistakes that people make in a kitchen's files, one at a time.

Each is a change to the small invented kitchen: in `file`, `old` becomes `new`,
and the mark in `new` shows where the problem must stand. An empty `old` adds
`new` at the end of the file; without a mark the problem is the whole file's.
"""

from __future__ import annotations

from typing import NamedTuple

MARK = "§"


class Mistake(NamedTuple):
    """What is written wrongly, and what must be said about it."""

    file: str
    old: str
    new: str
    message: str
    hint: str = ""


KITCHEN = "kitchen.yaml"
CHUCK = "cuts/chuck.yaml"
RIBEYE = "cuts/ribeye.yaml"
LONG = "cooks/chuck-30h.yaml"
BRAISE = "cooks/chuck-braise.yaml"
GRILL = "cooks/ribeye-grill.yaml"
STOCK = "pantry/stock.yaml"
SALT = "pantry/salt.yaml"
STEAK = "plates/chuck-steak.yaml"
SWAP = "swaps/chuck-for-ribeye.yaml"
PRICES = "prices/list.csv"
SERVICE = "services/friday.yaml"
COUNT = "counts/week.yaml"

IN_KITCHEN = [
    Mistake(KITCHEN, "tax: 5 %", "§taxs: 5 %", 'unknown key "taxs"', 'did you mean "tax"?'),
    Mistake(KITCHEN, "tax: 5 %", "tax: 5 %\n§tax: 6 %", '"tax" is given twice', ""),
    Mistake(KITCHEN, "tax: 5 %", "tax: 5 %\n§Tax: 6 %", '"Tax" is there twice', "kitchen.yaml:4:1"),
    Mistake(
        KITCHEN, "food cost: 30 %", "food cost: §0 %", "no price makes food cost nothing", "30"
    ),
    Mistake(KITCHEN, "tax: 5 %", "tax: §5", '"5" has no unit', "%"),
    Mistake(KITCHEN, "tax: 5 %", "tax: §500 %", "500 % is more than can be", "at most 100 %"),
    Mistake(KITCHEN, "tax: 5 %", "tax: §no", '"no" has no number', "%"),
    Mistake(KITCHEN, "tax: 5 %", "tax: §-5 %", '"-5 %" is negative', ""),
    Mistake(KITCHEN, "tax: 5 %", "tax: §5 kg", '"5 kg" is a weight', "%"),
    Mistake(KITCHEN, "24.50/h", "§24.50", "does not say per what", "h"),
    Mistake(KITCHEN, "24.50/h", "§24,50/h", "has a comma", "24.50"),
    Mistake(KITCHEN, "24.50/h", "§-24.50/h", "is negative", ""),
    Mistake(KITCHEN, "24.50/h", "§24.50/kg", "is a price by weight", "h"),
    Mistake(KITCHEN, "0.14/kWh", "§1e3/kWh", "power of ten", "1000"),
    Mistake(KITCHEN, "weeks open: 50", "weeks open: §010", '"010" is not a whole number', ""),
    Mistake(KITCHEN, "weeks open: 50", "weeks open: §1e3", '"1e3" is not a whole number', ""),
    Mistake(KITCHEN, "weeks open: 50", "weeks open: §50.0", "not a whole number", ""),
    Mistake(KITCHEN, "currency: CAD", "currency: §CDA", '"CDA" is no currency', "ISO 4217"),
    Mistake(KITCHEN, "units: metric", "units: §metrik", "not known here", '"metric"'),
    Mistake(KITCHEN, "units: metric", "locale: §xx_QQ", "is no locale", "en_CA"),
    Mistake(KITCHEN, "units: metric", "as of: §2026-13-01", "not in the calendar", ""),
    Mistake(KITCHEN, "units: metric", "as of: §12:30", '"12:30" is not a date', "2026-09-03"),
    Mistake(KITCHEN, "units: metric", "prices include tax: §maybe", "neither yes nor no", ""),
    Mistake(KITCHEN, "food cost: 30 %", "food cost: §130 %", "more than can be", "100 %"),
    Mistake(KITCHEN, "food cost: 30 %", "§fod cost: 30 %", "unknown key", '"food cost"'),
    Mistake(KITCHEN, "margin: 14.00", "margin: §14.005", "3 decimals", "CAD"),
    Mistake(KITCHEN, "covers: [40, 120]", "covers: [40, §12.5]", "not a whole number", ""),
    Mistake(KITCHEN, "holds: 12 kg", "§hods: 12 kg", 'unknown key "hods"', '"holds"'),
    Mistake(KITCHEN, "holds: 12 kg", "holds: §12 L", '"12 L" is a volume', "kg"),
    Mistake(KITCHEN, "bath: {kind: water bath, ", "bath: §{", '"kind" is missing', "water bath"),
    Mistake(KITCHEN, "fuel: gas", "fuel: §coal", '"coal" is not known here', "electricity, gas"),
    Mistake(KITCHEN, "name: Invented kitchen\n", "§", '"name" is missing', "the kitchen's name"),
]

IN_CUTS = [
    Mistake(CHUCK, "purge: 1.5 %", "§purj: 1.5 %", 'unknown key "purj"', '"purge"'),
    Mistake(CHUCK, "purge: 1.5 %", "purge: 1.5 %\n§purge: 2 %", "is given twice", ""),
    Mistake(CHUCK, "species: beef", "species: §beaf", "not known here", '"beef"'),
    Mistake(CHUCK, "species: beef\n", "§", '"species" is missing', "one of beef"),
    Mistake(CHUCK, "13.60/kg", "§13.60", "13.60", "kg"),
    Mistake(CHUCK, "13.60/kg", "§13.60/h", "is a price by time", "kg"),
    Mistake(CHUCK, "13.60/kg", "§13.60/L", "a cut is priced by weight", "13.60/kg"),
    Mistake(CHUCK, "13.60/kg", "§13.60/each", "one has no weight", "each: 1.6 kg"),
    Mistake(CHUCK, "13.60/kg", "§-13.60/kg", "is negative", ""),
    Mistake(RIBEYE, "price: 41.00/kg\n", "", "this cut has no price", "write price"),
    Mistake(CHUCK, "purge: 1.5 %", "purge: §1.5", '"1.5" has no unit', "%"),
    Mistake(CHUCK, "purge: 1.5 %", "purge: §130 %", "130 % is more than can be", "100 %"),
    Mistake(CHUCK, "purge: 1.5 %", "purge: §100 %", "nothing would be left", ""),
    Mistake(CHUCK, "purge: 1.5 %", "purge: {gain: §5 %}", "purge can't gain weight", "cure"),
    Mistake(CHUCK, "purge: 1.5 %", "purge: {yield: §105 %}", "purge can't gain weight", "cure"),
    Mistake(CHUCK, "purge: 1.5 %", "purge: {loss: 5 %, yield: §95 %}", "say the same thing", ""),
    Mistake(CHUCK, "in: 8.42 kg", "in: §8.42", '"8.42" has no unit', "kg"),
    Mistake(CHUCK, "in: 8.42 kg", "in: §12:30", "a time on a clock", "units that fit: kg"),
    Mistake(CHUCK, "in: 8.42 kg", "in: §-8.42 kg", "is negative", ""),
    Mistake(CHUCK, "in: 8.42 kg", "in: §010 kg", "starts with a zero", "10 kg or 0.10 kg"),
    Mistake(CHUCK, "in: 8.42 kg", "in: §8.42 L", "is a volume", "kg"),
    Mistake(CHUCK, "in: 8.42 kg", "in: §0 kg", "nothing went into this stage", ""),
    Mistake(CHUCK, "{date: 2026-09-03, in: 8.42 kg,", "§{date: 2026-09-03,", '"in" is missing', ""),
    Mistake(CHUCK, "out: 7.10 kg", "out: §0 kg", "nothing went on", ""),
    Mistake(CHUCK, "out: 7.10 kg", "out: §9.10 kg", "does not balance", "in is 8.42 kg"),
    Mistake(CHUCK, "out: 7.10 kg", "out: §7.71 kg", "0.03 kg more than in", "8.42 kg"),
    Mistake(
        CHUCK, "out: 7.10 kg", "out: §7.10 kg, loss: 0.9 kg",
        "out + parts + loss is 0.32 kg more than in", "8.42 kg",
    ),
    Mistake(
        CHUCK, "out: 7.10 kg", "out: §7.10 kg, loss: 0.1 kg", "0.48 kg less than in", "8.42 kg"
    ),
    Mistake(CHUCK, "date: 2026-09-03", "date: §2027-01-01", "comes after Oct 1, 2026", ""),
    Mistake(CHUCK, "date: 2026-09-03", "date: §2026-02-30", "not in the calendar", ""),
    Mistake(CHUCK, "date: 2026-09-03", "date: §03/09/2026", "is not a date", "2026-09-03"),
    Mistake(CHUCK, "7.90/kg]}", "7.90/kg]}, §los: 1 kg", 'unknown key "los"', '"loss"'),
    Mistake(
        CHUCK, "purge: 1.5 %", "purge: {parts: {bits: §2 %}}", "heavier than the loss", "part of it"
    ),
    Mistake(
        CHUCK, "purge: 1.5 %", "purge: {published: usda 23099, parts: {bits: §37 %}}",
        "heavier than the loss", "part of it",
    ),
    Mistake(CHUCK, "[0.74 kg, 7.90/kg]", "[0.74 kg, §7.90]", "7.90", "kg"),
    Mistake(CHUCK, "[0.74 kg, 7.90/kg]", "[§0.74, 7.90/kg]", "has no unit", "kg"),
    Mistake(CHUCK, "[0.74 kg, 7.90/kg]", "§[0.74 kg, 7.90/kg, 1]", "3 values here", "weight"),
    Mistake(
        RIBEYE, "[4 %, 7.90/kg]", "[§14 %, 7.90/kg]", "heavier than the loss", "part of it"
    ),
    Mistake(RIBEYE, "loss: 9 %", "published: §none", "no published yield", "source"),
    Mistake(RIBEYE, "loss: 9 %", "published: §{yield: 91 %}", "needs its source", "source"),
]  # fmt: skip

IN_COOKS = [
    Mistake(LONG, "cut: chuck", "cut: §chuk", 'there is no cut "chuk"', '"chuck"'),
    Mistake(LONG, "cut: chuck", "cut: §veal-shank", "there is no cut", "cuts/veal-shank.yaml"),
    Mistake(LONG, "equipment: bath", "equipment: §bat", "there is no equipment", '"bath"'),
    Mistake(LONG, "hands-on: 35 min", "§hand-on: 35 min", "unknown key", '"hands on"'),
    Mistake(LONG, "hands-on: 35 min", "hands-on: 35 min\n§hands on: 3 min", "is there twice", ""),
    Mistake(LONG, "hands-on: 35 min", "hands-on: §0:35", "a time on a clock", "0 h 35 min"),
    Mistake(LONG, "hands-on: 35 min", "hands-on: §35", '"35" has no unit', "min"),
    Mistake(LONG, "for: 30 h", "for: §12:30", "a time on a clock", "12 h 30 min"),
    Mistake(LONG, "for: 30 h", "for: §no", '"no" has no number', "h"),
    Mistake(LONG, "for: 30 h", "for: §030 h", "starts with a zero", "30 h or 0.30 h"),
    Mistake(LONG, "for: 30 h", "for: §3e1 h", "power of ten", ""),
    Mistake(LONG, "for: 30 h", "for: §30 kg", "is a weight", "h"),
    Mistake(LONG, "for: 30 h", "for: §400 d", "more than can be", "up to 7 d, 168 h"),
    Mistake(LONG, "for: 30 h", "for: 30 h\nat: §57", '"57" has no unit', "°C"),
    Mistake(
        LONG, "cut: chuck\nhow: water bath\n", "§cut: chuck\n", '"how" is missing', "water bath"
    ),
    Mistake(LONG, "weight: 2.4 kg", "weight: §24 kg", "heavier than the load", "7.51 kg"),
    Mistake(LONG, "weight: 2.4 kg", "thickness: §6 kg", "is a weight", "mm"),
    Mistake(LONG, "bags: 3.20", "bags: §3.20/kg", "3.20/kg", ""),
    Mistake(LONG, "6.00/kg", "§6.00", "6.00", "kg"),
    Mistake(LONG, "out: 5.68 kg", "out: §7.68 kg", "does not balance", "7.10 kg"),
    Mistake(LONG, "finish: 3 %", "finish: {gain: §3 %}", "finish can't gain weight", "cure"),
    Mistake(
        LONG,
        "{loss: 2 %, parts: {ends: [1 %,",
        "{parts: {ends: [§1 %,",
        "heavier than the loss",
        "",
    ),
    Mistake(GRILL, "load: 4.5 kg", "load: §4,5 kg", "has a comma", "write 4.5"),
    Mistake(BRAISE, "load: 10 kg", "load: §25 kg", "more than oven holds", "20 kg"),
    Mistake(BRAISE, "load: 10 kg", "load: §1e1 kg", "power of ten", "write 10"),
    Mistake(GRILL, "load: 4.5 kg\n", "", "how much goes in at once is not known", "load: 8 kg"),
    Mistake(GRILL, "weight: 4.5 kg", "weight: §5 kg", "heavier than the load", ""),
    Mistake(GRILL, "loss: 17 %", "loss: §170 %", "more than can be", "100 %"),
    Mistake(GRILL, "loss: 17 %", "tests: §{in: 2 kg}", "a list is wanted here", "dash"),
    Mistake(BRAISE, "usda 23131", "§usda 2313", "no published yield", "did you mean"),
]

IN_PANTRY = [
    Mistake(SALT, "price: 1.10/kg\n", "{}\n", "neither bought by Oct 1, 2026", "price"),
    Mistake(SALT, "1.10/kg", "§1.10", "1.10", "kg"),
    Mistake(SALT, "1.10/kg", "§-1.10/kg", "is negative", ""),
    Mistake(SALT, "1.10/kg", "§1.10/h", "is a price by time", "kg"),
    Mistake(SALT, "price: 1.10/kg", "§prise: 1.10/kg", 'unknown key "prise"', '"price"'),
    Mistake(SALT, "", "yield: §0 %\n", "a yield of nothing", ""),
    Mistake(SALT, "", "yield: §120 %\n", "more than can be", "100 %"),
    Mistake(SALT, "", "allergens: [§glutn]\n", "not known here", '"gluten"'),
    Mistake(SALT, "", "allergens: §gluten\n", "a list is wanted here", "dash"),
    Mistake(SALT, "", "allergens: §{milk: yes}\n", "a list is wanted here", "none"),
    Mistake(SALT, "", "allergens: [milk, §none]\n", "none stands by itself", "allergens: none"),
    Mistake(SALT, "", "allergens: [§nuts]\n", "not known here", "tree nuts or peanuts"),
    Mistake(SALT, "", "may contain: [§buckwheat]\n", "not known here", "own: [buckwheat]"),
    Mistake(SALT, "", "each: §0.5 L\n", "is a volume", "kg"),
    Mistake(SALT, "price: 1.10/kg", "price: §1.10/kg\nof: {bones: 1 kg}\nmakes: 1 kg",
            "bought or made, not both", "keep"),
    Mistake(STOCK, "bones: 4 kg", "§bonse: 4 kg", 'no pantry item "bonse"', '"bones"'),
    Mistake(STOCK, "bones: 4 kg", "bones: §4", '"4" has no unit', "kg"),
    Mistake(STOCK, "bones: 4 kg", "bones: §4 each", "does not fit how bones is priced", "each"),
    Mistake(STOCK, "bones: 4 kg", "bones: §1e3 g", "power of ten", ""),
    Mistake(STOCK, "bones: 4 kg", "bones: 4 kg, §bones: 1 kg", "is given twice", ""),
    Mistake(STOCK, "bones: 4 kg", "§stock: 4 kg", "made of itself: stock -> stock", "take one"),
    Mistake(STOCK, "bones: 4 kg", "§sauce: 4 kg", "made of itself: sauce -> stock -> sauce", ""),
    Mistake(STOCK, "makes: 5 L", "makes: §0 L", "more than nothing", ""),
    Mistake(
        STOCK, "of: {bones: 4 kg, salt: 20 g}\nmakes: 5 L\n", "§of: {bones: 4 kg}\n",
        "must say how much it makes", "makes",
    ),
]  # fmt: skip

IN_PLATES = [
    Mistake(STEAK, "cook: chuck-30h", "cook: §chuck-3h", "there is no cook", '"chuck-30h"'),
    Mistake(
        STEAK,
        "cook: chuck-30h\nportion: 180 g",
        "portion: §180 g",
        "a portion needs its cook",
        "cook:",
    ),
    Mistake(
        STEAK,
        "menu: mains\ncook: chuck-30h\nportion: 180 g",
        "§menu: mains\ncook: chuck-30h",
        "needs its portion",
        "180 g",
    ),
    Mistake(STEAK, "portion: 180 g", "portion: §180", '"180" has no unit', "g"),
    Mistake(STEAK, "portion: 180 g", "portion: §180 ml", "is a volume", "kg"),
    Mistake(STEAK, "portion: 180 g", "portion: §0 g", "more than nothing", ""),
    Mistake(
        STEAK, "portion: 180 g", "portion: §4 kg", "more than one piece gives", "portion: 2 pieces"
    ),
    Mistake(STEAK, "portion: 180 g", "portion: §6 lb 8 oz", "6 lb 8 oz is more than", " lb "),
    Mistake(STEAK, "sauce: 60 ml", "§saus: 60 ml", 'no pantry item "saus"', '"sauce"'),
    Mistake(STEAK, "sauce: 60 ml", "sauce: §60 min", "is a time", "g"),
    Mistake(
        STEAK, "sauce: 60 ml", "sauce: §2 each", "does not fit how sauce is priced", "each: 120 g"
    ),
    Mistake(STEAK, "price: 27.00", "price: §0.00", "sold for more than nothing", ""),
    Mistake(STEAK, "price: 27.00", "price: §-27.00", "is negative", ""),
    Mistake(STEAK, "price: 27.00", "price: §27.005", "3 decimals", "CAD"),
    Mistake(STEAK, "price: 27.00", "price: §27,00", "has a comma", ""),
    Mistake(STEAK, "price: 27.00", "price: 27.00\n§prices: 28.00", "unknown key", '"price"'),
    Mistake(STEAK, "price: 27.00", "price: 27.00\n§price: 28.00", "is given twice", ""),
    Mistake(STEAK, "2026-09: 388", "§2026-9: 388", '"2026-9" is not a month', "2026-09"),
    Mistake(STEAK, "2026-09: 388", "§2026-11: 388", "2026-11 has not begun", ""),
    Mistake(STEAK, "2026-09: 388", "2026-09: §0388", "not a whole number", ""),
    Mistake(STEAK, "2026-09: 388", "2026-09: §-5", '"-5" is below 0', "0 or more"),
    Mistake(STEAK, "2026-09: 388", "2026-09: §yes", "not a whole number", ""),
    Mistake(STEAK, "hands-on: 4 min", "hands-on: §4", '"4" has no unit', "min"),
    Mistake(STEAK, "menu: mains", "menu:§", "nothing is written here", ""),
    Mistake(STEAK, "menu: mains", "menu: §[mains]", "a single value is wanted", ""),
]

IN_SWAPS = [
    Mistake(SWAP, "benchmark: ribeye-steak", "benchmark: §ribeye", "there is no plate",
            '"ribeye-steak"'),
    Mistake(SWAP, "[chuck-steak, braise]", "[chuck-steak, §brase]", "there is no plate",
            '"braise"'),
    Mistake(SWAP, "[chuck-steak, braise]", "[chuck-steak, §ribeye-steak]", "challenge itself"),
    Mistake(SWAP, "[chuck-steak, braise]", "[braise, §braise]", "is there twice"),
    Mistake(SWAP, "[chuck-steak, braise]", "[]", "needs a challenger", "challengers: [id]"),
    Mistake(SWAP, "[chuck-steak, braise]", "§braise", "a list is wanted here", "dash"),
    Mistake(SWAP, "buys: [bath]", "buys: [§bat]", "there is no equipment", '"bath"'),
    Mistake(SWAP, "buys: [bath]", "buys: [§oven]", "oven has no price", "kitchen.yaml"),
    Mistake(SWAP, "buys: [bath]", "forecast: §12.5", "not a whole number", ""),
    Mistake(SWAP, "buys: [bath]", "forecast: §1e3", "not a whole number", ""),
    Mistake(SWAP, "buys: [bath]", "§challenger: braise", "unknown key", '"challengers"'),
    Mistake(SWAP, "benchmark: ribeye-steak\n", "§", '"benchmark" is missing', ""),
]  # fmt: skip

IN_PRICES = [
    Mistake(PRICES, "chuck,13.90/kg", "§chuk,13.90/kg", 'no cut or pantry item "chuk"', '"chuck"'),
    Mistake(PRICES, "chuck,13.90/kg", "§stock,13.90/L", "stock is made, not bought", ""),
    Mistake(PRICES, "13.90/kg", "§13.90", "13.90", "kg"),
    Mistake(PRICES, "13.90/kg", "§13.90/L", "a cut is priced by weight", ""),
    Mistake(PRICES, "13.90/kg", "§-13.90/kg", "is negative", ""),
    Mistake(PRICES, "13.90/kg", "§1e1/kg", "power of ten", ""),
    Mistake(PRICES, "2026-09-01", "§2026-9-1", "is not a date", "2026-09-01"),
    Mistake(PRICES, "2026-09-01", "§2026-09-31", "not in the calendar", ""),
    Mistake(PRICES, "", "2026-09-01,chuck,§14.10/kg,West\n", "a second price for chuck", ":2:"),
    Mistake(PRICES, "", "2026-09-08,chuck,§,West\n", "this row has no price", ""),
]

_LISTED = "date,item,price,supplier,candidate,muscle\n2026-09-01,clod,"
_HEADER = "date,item,price,supplier\n2026-09-01,chuck,13.90/kg,West\n"
IN_CANDIDATES = [
    Mistake(RIBEYE, "trim:", "candidate: §chuck-stake\ntrim:", "there is no plate", "chuck-steak"),
    Mistake(RIBEYE, "trim:", "candidate: §mash\ntrim:", "no cook is on Mash", "chuck-steak"),
    Mistake(RIBEYE, "trim:", "muscle: §infraspinatis\ntrim:", "not known", '"infraspinatus"?'),
    Mistake(RIBEYE, "trim:", "muscle: §flat iron\ntrim:", "not known", '"infraspinatus"?'),
    Mistake(RIBEYE, "species: beef", "species: pork\nmuscle: §psoas major", "are of beef", "out"),
    Mistake(RIBEYE, "trim:", "candidate: {for: braise, §with: x}\ntrim:", "unknown key", "for"),
    Mistake(
        RIBEYE, "trim:", "candidate: {for: chuck-steak, published: §usda 1}\ntrim:",
        'no published yield "usda 1"', "did you mean",
    ),
    Mistake(
        RIBEYE, "trim:", "candidate: {for: chuck-steak, thickness: §45}\ntrim:",
        '"45" has no unit', "mm, cm, in",
    ),
    Mistake(PRICES, _HEADER, f"{_LISTED}12/kg,West,§braize,triceps brachii\n",
            "there is no plate", '"braise"'),
    Mistake(PRICES, _HEADER, f"{_LISTED}12/kg,West,§braise,\n",
            "which muscle it is", "column muscle"),
    Mistake(PRICES, _HEADER, f"{_LISTED}12/kg,West,braise,§triceps\n",
            "not known", '"triceps brachii"'),
    Mistake(PRICES, _HEADER, f"{_LISTED}§12/case of 4,West,braise,triceps brachii\n",
            "priced by weight", "cuts/clod.yaml"),
    Mistake(PRICES, _HEADER, f"{_LISTED.replace('clod', 'salt')}1.20/kg,West,§braise,\n",
            "a candidate is a cut", "empty"),
]  # fmt: skip

IN_SERVICES = [
    Mistake(SERVICE, "day: friday", "day: §fryday", "not known here", '"friday"'),
    Mistake(SERVICE, "at: 18:00", "at: §18", "no time of day", "18:00"),
    Mistake(SERVICE, "at: 18:00", "at: §25:00", "no time of day", "18:00"),
    Mistake(SERVICE, "chuck-steak: 40", "§chuck-stek: 40", "there is no plate", '"chuck-steak"'),
    Mistake(SERVICE, "chuck-steak: 40", "chuck-steak: §040", "not a whole number", ""),
]

COUNTED = "{opening: 4 kg, bought: 14 kg, paid: 190.00, closing: 3 kg"
IN_COUNTS = [
    Mistake(COUNT, "from: 2026-09-07\nto: 2026-09-13", "§from: 2026-09-07",
            "when this was counted is not known", "write to: too"),
    Mistake(
        COUNT,
        "to: 2026-09-13\n",
        "to: 2026-09-13\ndate: §2026-09-12\n",
        "a count is of one day or of a period",
        "keep one",
    ),
    Mistake(
        COUNT,
        "to: 2026-09-13",
        "to: §2026-09-03",
        "it ends before it begins",
        "from 2026-09-03 to 2026-09-07?",
    ),
    Mistake(COUNT, "to: 2026-09-13", "to: §2026-10-02", "comes after Oct 1, 2026", ""),
    Mistake(COUNT, "chuck-steak: 40", "§chuck-stek: 40", 'there is no plate "chuck-stek"', "steak"),
    Mistake(COUNT, "chuck-steak: 40", "chuck-steak: §40 g", "40 g", "write 40 alone"),
    Mistake(COUNT, "{chuck: {", "{§chuk: {", 'there is no cut "chuk"', '"chuck"'),
    Mistake(COUNT, "{chuck-30h: {", "{§chuck-30: {", 'there is no cook "chuck-30"', '"chuck-30h"'),
    Mistake(COUNT, COUNTED, "§{opening: 4 kg", "opening without closing", "write closing: too"),
    Mistake(COUNT, COUNTED, "§{closing: 3 kg", "closing without opening", "write opening: too"),
    Mistake(
        COUNT,
        "opening: 4 kg",
        "used: 9 kg, opening: §4 kg",
        "used and opening say the same",
        "keep",
    ),
    Mistake(
        COUNT,
        COUNTED,
        "§{bought: 14 kg",
        "what was bought does not say what was used",
        "opening: and closing:",
    ),
    Mistake(
        COUNT,
        "{opening: 4 kg, bought: 14 kg, paid: 190",
        "§{opening: 4 kg, paid: 190",
        "paid is for what was bought",
        "bought:",
    ),
    Mistake(
        COUNT, "closing: 3 kg", "closing: §30 kg", "more is left (30 kg) than there was", "14 kg"
    ),
    Mistake(
        COUNT,
        "{used: 9.4 kg, made: 7.1 kg",
        "§{used: 9.4 kg",
        "used without made gives no yield",
        "write made: too",
    ),
    Mistake(COUNT, "made: 7.1 kg", "made: §17.1 kg", "more came out than went in (9.4 kg)", "cure"),
    Mistake(COUNT, "made: 7.1 kg", "made: §0 kg", "nothing came out of this cook", "used and made"),
    Mistake(
        COUNT,
        "dropped: 0.3 kg",
        "dropped: §8 kg",
        "more is left and thrown than there was (7.1 kg)",
    ),
    Mistake(COUNT, "dropped: 0.3 kg", "dropped: §0.3", '"0.3" has no unit', ""),
    Mistake(
        COUNT, "thrown: {dropped: 0.3 kg}", "thrown: §0.3 kg", "names with values", "name: value"
    ),
]  # fmt: skip

MISTAKES = [
    *IN_KITCHEN, *IN_CUTS, *IN_COOKS, *IN_PANTRY, *IN_PLATES, *IN_SWAPS, *IN_PRICES, *IN_SERVICES,
    *IN_COUNTS,
    *IN_CANDIDATES,
]  # fmt: skip

EXTRA = {
    PRICES: "date,item,price,supplier\n2026-09-01,chuck,13.90/kg,West\n",
    SERVICE: "day: friday\nat: 18:00\nplates: {chuck-steak: 40}\n",
    COUNT: "from: 2026-09-07\nto: 2026-09-13\nplates: {chuck-steak: 40}\n"
    "cuts: {chuck: {opening: 4 kg, bought: 14 kg, paid: 190.00, closing: 3 kg}}\n"
    "cooks: {chuck-30h: {used: 9.4 kg, made: 7.1 kg, thrown: {dropped: 0.3 kg}}}\n",
}
"""Files beside those of the small kitchen, so that each kind of record has one."""
